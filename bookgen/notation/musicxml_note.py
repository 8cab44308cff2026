"""Notes, rests and brackets as elements of MusicXML 4.0, with fingers, strings, ties, tuplets."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final
from xml.etree.ElementTree import Element, SubElement

from bookgen.model.finger import THUMB
from bookgen.model.marking import NO_MARKING, Marking
from bookgen.model.pitch import Pitch
from bookgen.model.stop import Stop
from bookgen.notation.marking import NO_SLURS, Slurs
from bookgen.notation.musicxml_marking import notations_of, slur_elements
from bookgen.notation.rhythm import Value

TYPES: Final = {
    Fraction(2): "breve",
    Fraction(1): "whole",
    Fraction(1, 2): "half",
    Fraction(1, 4): "quarter",
    Fraction(1, 8): "eighth",
    Fraction(1, 16): "16th",
    Fraction(1, 32): "32nd",
    Fraction(1, 64): "64th",
    Fraction(1, 128): "128th",
}
"""Names of note values; MusicXML 4.0, data type note-type-value."""

GRACE: Final = Value(Fraction(1, 8), 0, Fraction())


@dataclass(frozen=True, slots=True)
class Head:
    """One note of a leaf.

    accidental: its name, where one is printed.
    stop: where it is played, where that is told; harmonic: the string is only touched there.
    crossed: no finger reaches it.
    back, on: a tie leads to it, and away from it.
    """

    pitch: Pitch
    accidental: str | None = None
    stop: Stop | None = None
    harmonic: bool = False
    crossed: bool = False
    back: bool = False
    on: bool = False


@dataclass(frozen=True, slots=True)
class Leaf:
    """One written value on its way into the file; without heads it is a rest.

    tuplet: how many values in the time of how many; edges: the ends of a tuplet that lie here.
    voice: its number, where there are several.
    marking, slurs: what stands with its first head.
    """

    heads: tuple[Head, ...]
    value: Value
    tuplet: tuple[int, int] = (1, 1)
    edges: tuple[str, ...] = ()
    voice: int | None = None
    marking: Marking = NO_MARKING
    slurs: Slurs = NO_SLURS

    @property
    def grace(self) -> bool:
        """It has no time of its own."""
        return not self.value.length


def leaf_elements(leaf: Leaf, divisions: int) -> Iterator[Element]:
    """The notes of a leaf, or its rest.

    divisions: of a quarter note, in which all times are counted.
    """
    if not leaf.heads:
        rest = Element("note")
        SubElement(rest, "rest")
        rest.append(duration_element(leaf.value.length, divisions))
        write_value(rest, leaf, None)
        write_notations(rest, notations_of(leaf.marking, None), leaf.edges)
        yield rest
    for index, head in enumerate(leaf.heads):
        yield note_element(leaf, head, divisions, first=index == 0)


def note_element(leaf: Leaf, head: Head, divisions: int, *, first: bool) -> Element:
    """One note, in the order of elements that the schema asks for.

    first: of its chord.
    """
    tied = ["stop"] * head.back + ["start"] * head.on
    found = Element("note")
    if leaf.grace:
        SubElement(found, "grace")
    if not first:
        SubElement(found, "chord")
    found.append(pitch_element(head.pitch))
    if not leaf.grace:
        found.append(duration_element(leaf.value.length, divisions))
    for kind in tied:
        SubElement(found, "tie", type=kind)
    write_value(found, leaf, head.accidental)
    if head.crossed:
        SubElement(found, "notehead").text = "x"
    played = None if head.stop is None else technical(head.stop, harmonic=head.harmonic)
    marks = [
        *(Element("tied", type=kind) for kind in tied),
        *(slur_elements(leaf.slurs) if first else ()),
        *notations_of(leaf.marking if first else NO_MARKING, played),
    ]
    write_notations(found, marks, leaf.edges if first else ())
    return found


def duration_element(length: Fraction, divisions: int) -> Element:
    """A time in divisions, which are chosen so that it is a whole number."""
    found = Element("duration")
    found.text = str(int(length * 4 * divisions))
    return found


def moved(name: str, length: Fraction, divisions: int) -> Element:
    """A step in time without a note: `forward` or `backup`."""
    found = Element(name)
    found.append(duration_element(length, divisions))
    return found


def pitch_element(pitch: Pitch) -> Element:
    """A pitch as written."""
    found = Element("pitch")
    SubElement(found, "step").text = pitch.letter
    if pitch.accidental:
        SubElement(found, "alter").text = str(pitch.accidental)
    SubElement(found, "octave").text = str(pitch.octave)
    return found


def write_value(note: Element, leaf: Leaf, accidental: str | None) -> None:
    """The voice, the note value with its dots, the accidental, and the tuplet's ratio.

    A value that no note shows stands in the duration alone.
    """
    if leaf.voice is not None:
        SubElement(note, "voice").text = str(leaf.voice)
    factor = Fraction(leaf.tuplet[1], leaf.tuplet[0])
    shown = leaf.grace or leaf.value.length == leaf.value.written * factor
    if shown:
        SubElement(note, "type").text = TYPES[leaf.value.base]
        for _ in range(leaf.value.dots):
            SubElement(note, "dot")
    if accidental:
        SubElement(note, "accidental").text = accidental
    if shown and factor != 1:
        time = SubElement(note, "time-modification")
        SubElement(time, "actual-notes").text = str(leaf.tuplet[0])
        SubElement(time, "normal-notes").text = str(leaf.tuplet[1])


def write_notations(note: Element, marks: Sequence[Element], edges: Sequence[str]) -> None:
    """Ties, slurs, the ends of tuplets, fingers, strings and signs."""
    tuplets = [Element("tuplet", type=edge, number="1") for edge in edges]
    if marks or tuplets:
        SubElement(note, "notations").extend([*marks, *tuplets])


def technical(stop: Stop, *, harmonic: bool) -> Element:
    """How a note is played: finger, string, open or as a natural harmonic."""
    found = Element("technical")
    if stop.finger == THUMB:
        SubElement(found, "thumb-position")
    elif stop.semitones >= 0:
        SubElement(found, "fingering").text = str(stop.finger)
    SubElement(found, "string").text = str(stop.string)
    if harmonic:
        SubElement(SubElement(found, "harmonic"), "natural")
    elif not stop.finger and not stop.semitones:
        SubElement(found, "open-string")
    return found


def bracket(kind: str, letter: str) -> Iterator[Element]:
    """One end of a group's bracket; where it begins, its letter."""
    if letter:
        words = Element("direction", placement="above")
        SubElement(SubElement(words, "direction-type"), "words").text = letter
        yield words
    line = Element("direction", placement="above")
    SubElement(
        SubElement(line, "direction-type"),
        "bracket",
        {"type": kind, "number": "1", "line-end": "down"},
    )
    yield line
