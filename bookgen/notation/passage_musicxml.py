"""A fingered passage as MusicXML 4.0, for notation programs: its parts, bars and signs."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import lcm
from typing import Final
from xml.etree.ElementTree import Element, SubElement, indent, tostring

from bookgen.model.instrument import Instrument
from bookgen.model.phrase import Phrase
from bookgen.notation.musicxml import DOCTYPE
from bookgen.notation.passage_accidental import Accidentals
from bookgen.notation.passage_bars import COMMON, keys_of, length_of, writable
from bookgen.notation.passage_clef import clefs_of
from bookgen.notation.passage_label import brackets_of, marks_of, stops_of
from bookgen.notation.passage_note import Score, bar_elements
from bookgen.notation.passage_rhythm import written_bar
from bookgen.notation.passage_tie import ties_of
from bookgen.plan.passage import Passage

SIGNS: Final = {"treble": ("G", 2), "alto": ("C", 3), "tenor": ("C", 4), "bass": ("F", 4)}
"""Sign and line of our clefs; MusicXML 4.0, element clef."""

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
    head. The same passage gives the same bytes.
    """
    phrase = passage.phrase
    score = score_of(passage)
    root = Element("score-partwise", version="4.0")
    SubElement(SubElement(root, "work"), "work-title").text = printable(passage.title)
    listed = SubElement(SubElement(root, "part-list"), "score-part", id="P1")
    SubElement(listed, "part-name").text = printable(instrument.name)
    part = SubElement(root, "part", id="P1")
    clefs = clefs_of(phrase, instrument)
    accidentals = Accidentals()
    for number, bar in enumerate(phrase.bars):
        measure = SubElement(part, "measure", number=printable(bar.number))
        if number not in score.whole:
            measure.set("implicit", "yes")
        signs = attributes(score, instrument, clefs, number)
        if len(signs):
            measure.append(signs)
        accidentals.open_bar(bar.sharps)
        measure.extend(bar_elements(score, number, accidentals))
        if number == len(phrase.bars) - 1:
            last = SubElement(measure, "barline", location="right")
            SubElement(last, "bar-style").text = "light-heavy"
    indent(root)
    declaration = '<?xml version="1.0" encoding="UTF-8"?>'
    return f"{declaration}\n{DOCTYPE}\n{tostring(root, encoding='unicode')}\n".encode()


def score_of(passage: Passage) -> Score:
    """Gather what is written with the notes of a passage."""
    phrase, best = passage.phrase, passage.best
    brackets = list(brackets_of(phrase, best))
    return Score(
        phrase=phrase,
        divisions=divisions_of(phrase),
        stops=stops_of(phrase, best),
        touched={(placed.bar, placed.sound): placed.touched for placed in best.placed},
        unplayable={place: mark.unplayable for place, mark in marks_of(phrase, best).items()},
        ties=ties_of(phrase),
        opens={bracket.first: bracket.letter for bracket in brackets},
        closes=frozenset(bracket.last for bracket in brackets),
        whole=frozenset(
            number
            for number, usual in enumerate(usual_lengths(phrase))
            if phrase.bars[number].length == usual
        ),
    )


def divisions_of(phrase: Phrase) -> int:
    """Into how many parts a quarter note is cut so that every time is a whole number of them."""
    lengths = [
        value.length * 4
        for bar in phrase.bars
        for span in written_bar(bar)
        for piece in span.pieces
        for value in piece.values
    ]
    bars = [length_of(bar) * 4 for bar in phrase.bars]
    return lcm(*(length.denominator for length in (*lengths, *bars)))


def usual_lengths(phrase: Phrase) -> Iterator[Fraction]:
    """How long the meter makes each bar."""
    usual = COMMON
    for bar in phrase.bars:
        if bar.meter is not None and writable(bar.meter):
            usual = Fraction(*bar.meter)
        yield usual


def attributes(score: Score, instrument: Instrument, clefs: Sequence[str], number: int) -> Element:
    """What changes at the beginning of a bar: key, meter, clef."""
    bar, first = score.phrase.bars[number], number == 0
    found = Element("attributes")
    if first:
        SubElement(found, "divisions").text = str(score.divisions)
    keys = keys_of(score.phrase)
    if first or keys[number] != keys[number - 1]:
        SubElement(SubElement(found, "key"), "fifths").text = str(keys[number])
    if bar.meter is not None and writable(bar.meter):
        time = SubElement(found, "time")
        SubElement(time, "beats").text = str(bar.meter[0])
        SubElement(time, "beat-type").text = str(bar.meter[1])
    if first or clefs[number] != clefs[number - 1]:
        sign, line = SIGNS[clefs[number]]
        clef = SubElement(found, "clef")
        SubElement(clef, "sign").text = sign
        SubElement(clef, "line").text = str(line)
    if first and instrument.sounding:
        found.append(transpose(instrument.sounding))
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
