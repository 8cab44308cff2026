"""A drill or a fingered passage as a MusicXML 4.0 file for notation programs."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import lcm
from typing import Final
from xml.etree.ElementTree import Element, SubElement, indent, tostring

from bookgen.model.drill import Drill
from bookgen.model.event import Begins, Event
from bookgen.model.instrument import Instrument
from bookgen.model.music import layings, play
from bookgen.notation.accidental import Accidentals
from bookgen.notation.bars import keys_of, usual_lengths, writable
from bookgen.notation.clef import clef_of, clefs_of
from bookgen.notation.fingered import fingered
from bookgen.notation.marking import slurs_of
from bookgen.notation.musicxml_bar import divisions_of, passage_bar
from bookgen.notation.musicxml_marking import tempo_elements
from bookgen.notation.musicxml_note import Head, Leaf, leaf_elements, moved
from bookgen.notation.rhythm import values
from bookgen.notation.tone import Tone, in_voices, tones_of
from bookgen.plan.passage import Passage

DOCTYPE: Final = (
    '<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN"'
    ' "http://www.musicxml.org/dtds/partwise.dtd">'
)
SIGNS: Final = {"treble": ("G", 2), "alto": ("C", 3), "tenor": ("C", 4), "bass": ("F", 4)}
"""Sign and line of our clefs; MusicXML 4.0, element clef."""

BAR_STYLES: Final = {Begins.GROUP: "short", Begins.TURN: "light-light"}
"""The bar lines before what opens; MusicXML 4.0, data type bar-style."""

FINAL: Final = "light-heavy"
OCTAVE: Final = 12
LETTERS: Final = 7
"""Semitones and letters of an octave."""

XML_CHARACTERS: Final = ((" ", "\ud7ff"), ("\ue000", "\ufffd"), ("\U00010000", "\U0010ffff"))
"""What a file may hold besides white (XML 1.0, section 2.2, production Char)."""


def drill_musicxml(drill: Drill, instrument: Instrument) -> bytes:
    """A drill as a MusicXML file; each note is written as long as it sounds.

    Notes carry `fingering` and `string` (1 is the highest), as MusicXML 4.0 has them. Notes that
    sound on while others join stand in voices of their own. Time signatures are there for the
    program's sake and are not printed; programs that draw an 8va sign add it themselves.

    Raises:
        ValueError: the instrument or its hand cannot play the drill.
    """
    events = play(drill, instrument)
    divisions = lcm(*(event.duration.denominator for event in events))
    bars = layings(events)
    opened = [bar[0].begins for bar in bars]
    measures = []
    for number, bar in enumerate(bars):
        signs = attributes(
            divisions if number == 0 else None,
            0 if number == 0 else None,
            (int(sum(event.duration for event in bar) * 4), 4),
            clef_of(events, instrument) if number == 0 else None,
            instrument.sounding if number == 0 else 0,
        )
        signs.find("time").set("print-object", "no")  # type: ignore[union-attr]
        style = BAR_STYLES[opened[number + 1]] if number + 1 < len(bars) else FINAL
        measures.append(
            measure(str(number + 1), [signs, *drill_bar(bar, divisions), bar_line(style)])
        )
    return document(drill.key, instrument, measures)


def drill_bar(events: Sequence[Event], divisions: int) -> Iterator[Element]:
    """One laying of the hand: its notes, in several voices where they overlap."""
    accidentals = Accidentals()
    tones = tones_of(events)
    signs = {tone: accidentals.of(tone.note.pitch) for tone in tones}
    voices = in_voices(tones)
    for number, voice in enumerate(voices, start=1):
        now = Fraction()
        if number > 1:
            yield moved("backup", voices[number - 2][-1].end, divisions)
        for tone in voice:
            if tone.start > now:
                yield moved("forward", tone.start - now, divisions)
            for leaf in tone_leaves(tone, signs[tone], number if len(voices) > 1 else None):
                yield from leaf_elements(leaf, divisions)
            now = tone.end


def tone_leaves(tone: Tone, sign: str | None, voice: int | None) -> Iterator[Leaf]:
    """The values that write a tone, tied to each other."""
    written = values(tone.start, tone.length, Fraction(1))
    for index, value in enumerate(written):
        head = Head(
            pitch=tone.note.pitch,
            accidental=None if index else sign,
            stop=None if index else tone.note.stop,
            back=index > 0,
            on=index < len(written) - 1,
        )
        yield Leaf((head,), value, voice=voice)


def passage_musicxml(passage: Passage, instrument: Instrument) -> bytes:
    """A passage as a MusicXML file.

    Every note that is struck carries its `fingering` and its `string` (1 is the highest), with
    `open-string` or `harmonic` where it is one, as MusicXML 4.0 defines them (element
    technical). Groups are brackets with their letter; what cannot be played has a cross for a
    head. Slurs, signs, dynamics, hairpins, words, tempo and composer are those of the file. The
    same passage gives the same bytes.
    """
    phrase = passage.phrase
    score, slurs = fingered(phrase, passage.best), slurs_of(phrase)
    divisions = divisions_of(phrase)
    clefs, keys = clefs_of(phrase, instrument), keys_of(phrase)
    accidentals = Accidentals()
    measures = []
    for number, (bar, usual) in enumerate(zip(phrase.bars, usual_lengths(phrase), strict=True)):
        first, whole = number == 0, bar.length == usual
        signs = attributes(
            divisions if first else None,
            keys[number] if first or keys[number] != keys[number - 1] else None,
            bar.meter if writable(bar.meter) else None,
            clefs[number] if first or clefs[number] != clefs[number - 1] else None,
            instrument.sounding if first else 0,
        )
        accidentals.open_bar(bar.sharps)
        notes = passage_bar(score, slurs, number, accidentals, divisions, whole=whole)
        tempo = tempo_elements(bar.tempo, printable(bar.tempo.words)) if bar.tempo else ()
        end = [bar_line(FINAL)] if number == len(phrase.bars) - 1 else []
        contents = [*([signs] if len(signs) else []), *tempo, *notes, *end]
        measures.append(measure(printable(bar.number), contents, whole=whole))
    return document(passage.title, instrument, measures, passage.composer)


def document(
    title: str, instrument: Instrument, measures: Sequence[Element], composer: str = ""
) -> bytes:
    """A file with one part. It tells neither when nor with what it was written."""
    root = Element("score-partwise", version="4.0")
    SubElement(SubElement(root, "work"), "work-title").text = printable(title)
    if composer:
        wrote = SubElement(SubElement(root, "identification"), "creator", type="composer")
        wrote.text = printable(composer)
    listed = SubElement(SubElement(root, "part-list"), "score-part", id="P1")
    SubElement(listed, "part-name").text = printable(instrument.name)
    SubElement(root, "part", id="P1").extend(measures)
    indent(root)
    declaration = '<?xml version="1.0" encoding="UTF-8"?>'
    return f"{declaration}\n{DOCTYPE}\n{tostring(root, encoding='unicode')}\n".encode()


def measure(number: str, contents: Sequence[Element], *, whole: bool = True) -> Element:
    """One bar; whole: it is as long as its meter says."""
    found = Element("measure", number=number)
    if not whole:
        found.set("implicit", "yes")
    found.extend(contents)
    return found


def bar_line(style: str) -> Element:
    """The line at the end of a bar."""
    found = Element("barline", location="right")
    SubElement(found, "bar-style").text = style
    return found


def attributes(
    divisions: int | None,
    sharps: int | None,
    meter: tuple[int, int] | None,
    clef: str | None,
    sounding: int,
) -> Element:
    """What is new at the beginning of a bar; sounding: semitones from the written note."""
    found = Element("attributes")
    if divisions is not None:
        SubElement(found, "divisions").text = str(divisions)
    if sharps is not None:
        SubElement(SubElement(found, "key"), "fifths").text = str(sharps)
    if meter is not None:
        time = SubElement(found, "time")
        SubElement(time, "beats").text = str(meter[0])
        SubElement(time, "beat-type").text = str(meter[1])
    if clef is not None:
        sign, line = SIGNS[clef]
        shown = SubElement(found, "clef")
        SubElement(shown, "sign").text = sign
        SubElement(shown, "line").text = str(line)
    if sounding:
        found.append(transpose(sounding))
    return found


def transpose(semitones: int) -> Element:
    """How far from the written note the instrument sounds."""
    found = Element("transpose")
    octaves = int(semitones / OCTAVE)
    rest = semitones - OCTAVE * octaves
    SubElement(found, "diatonic").text = str(round(rest * LETTERS / OCTAVE))
    SubElement(found, "chromatic").text = str(rest)
    if octaves:
        SubElement(found, "octave-change").text = str(octaves)
    return found


def printable(text: str) -> str:
    """A text without what XML cannot hold."""
    return "".join(
        sign
        for sign in text
        if sign in "\t\n\r" or any(first <= sign <= last for first, last in XML_CHARACTERS)
    )
