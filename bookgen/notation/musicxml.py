"""A fingered passage as a MusicXML 4.0 file for notation programs, and what every file needs."""

from collections.abc import Sequence
from typing import Final
from xml.etree.ElementTree import Element, SubElement, indent, tostring

from bookgen.model.instrument import Instrument
from bookgen.notation.accidental import Accidentals
from bookgen.notation.bars import keys_of, usual_lengths, writable
from bookgen.notation.clef import clefs_of
from bookgen.notation.fingered import fingered
from bookgen.notation.marking import slurs_of
from bookgen.notation.musicxml_bar import divisions_of, passage_bar
from bookgen.notation.musicxml_marking import tempo_elements
from bookgen.plan.passage import Passage

DOCTYPE: Final = (
    '<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN"'
    ' "http://www.musicxml.org/dtds/partwise.dtd">'
)
SIGNS: Final = {"treble": ("G", 2), "alto": ("C", 3), "tenor": ("C", 4), "bass": ("F", 4)}
"""Sign and line of our clefs; MusicXML 4.0, element clef."""

FINAL: Final = "light-heavy"
OCTAVE: Final = 12
LETTERS: Final = 7
"""Semitones and letters of an octave."""

XML_CHARACTERS: Final = ((" ", "\ud7ff"), ("\ue000", "\ufffd"), ("\U00010000", "\U0010ffff"))
"""What a file may hold besides white (XML 1.0, section 2.2, production Char)."""


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
    *,
    free: bool = False,
) -> Element:
    """What is new at the beginning of a bar.

    sounding: semitones from the written note; free: from here on there is no meter.
    """
    found = Element("attributes")
    if divisions is not None:
        SubElement(found, "divisions").text = str(divisions)
    if sharps is not None:
        SubElement(SubElement(found, "key"), "fifths").text = str(sharps)
    if meter is not None:
        time = SubElement(found, "time")
        SubElement(time, "beats").text = str(meter[0])
        SubElement(time, "beat-type").text = str(meter[1])
    if free:
        SubElement(SubElement(found, "time"), "senza-misura")
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
