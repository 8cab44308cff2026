"""The notes of a bar as elements of MusicXML 4.0, with fingers, strings, ties and tuplets."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final
from xml.etree.ElementTree import Element, SubElement

from bookgen.model.phrase import Phrase, WrittenNote
from bookgen.model.pitch import Pitch
from bookgen.model.stop import Stop
from bookgen.notation.passage_accidental import Accidentals
from bookgen.notation.passage_bars import length_of
from bookgen.notation.passage_label import Place, sound_at
from bookgen.notation.passage_rhythm import Piece, Span, Value, silent, written_bar
from bookgen.notation.passage_tie import NO_TIES, Ties

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
class Score:
    """A phrase and what is written with it, by the places of its sounds.

    divisions: of a quarter note, in which all times are counted.
    stops: of the notes that are struck, by their index in the sound.
    touched: of these the natural harmonics.
    opens, closes: where brackets of groups begin, with their letters, and end.
    whole: indexes of the bars that are as long as the meter says.
    """

    phrase: Phrase
    divisions: int
    stops: Mapping[Place, Mapping[int, Stop]]
    touched: Mapping[Place, tuple[int, ...]]
    unplayable: Mapping[Place, frozenset[int]]
    ties: Mapping[Place, Ties]
    opens: Mapping[Place, str]
    closes: frozenset[Place]
    whole: frozenset[int]

    def count(self, length: Fraction) -> str:
        """A time in divisions, which are chosen so that it is a whole number."""
        return str(int(length * 4 * self.divisions))


@dataclass(frozen=True, slots=True)
class Part:
    """One value of a sound on its way into the file.

    first, last: of the values that write the sound.
    tuplet: how many values in the time of how many; edges: the ends of a tuplet that lie here.
    """

    place: Place
    value: Value
    first: bool
    last: bool
    tuplet: tuple[int, int]
    edges: tuple[str, ...] = ()

    @property
    def grace(self) -> bool:
        """It has no time of its own."""
        return not self.value.length


def bar_elements(score: Score, number: int, accidentals: Accidentals) -> Iterator[Element]:
    """The notes, rests and brackets of a bar, in their order."""
    bar = score.phrase.bars[number]
    if silent(bar) and number in score.whole:
        rest = Element("note")
        SubElement(rest, "rest", measure="yes")
        SubElement(rest, "duration").text = score.count(length_of(bar))
        yield rest
        return
    for span in written_bar(bar):
        for part in parts_of(span, number):
            if isinstance(part, Fraction):
                forward = Element("forward")
                SubElement(forward, "duration").text = score.count(part)
                yield forward
                continue
            if part.first and part.place in score.opens:
                yield from bracket("start", score.opens[part.place])
            yield from sound_elements(score, part, accidentals)
            if part.last and part.place in score.closes:
                yield from bracket("stop", "")


def parts_of(span: Span, number: int) -> Iterator[Part | Fraction]:
    """The values of a span in their order; a gap is only a length."""
    ratio = (span.actual, span.normal)
    parts = [part for piece in span.pieces for part in piece_parts(piece, number, ratio)]
    timed = [at for at, part in enumerate(parts) if isinstance(part, Part) and not part.grace]
    for at, part in enumerate(parts):
        if isinstance(part, Part) and span.actual != span.normal and timed:
            edges = [("start", timed[0]), ("stop", timed[-1])]
            found = tuple(edge for edge, where in edges if where == at)
            yield Part(part.place, part.value, part.first, part.last, ratio, found)
        else:
            yield part


def piece_parts(piece: Piece, number: int, ratio: tuple[int, int]) -> Iterator[Part | Fraction]:
    """The values of a piece with the grace notes around it."""
    for index in piece.graces:
        yield Part((number, index), GRACE, first=True, last=True, tuplet=(1, 1))
    for at, value in enumerate(piece.values):
        if piece.sound is None:
            yield value.length
            continue
        last = at == len(piece.values) - 1
        yield Part((number, piece.sound), value, first=at == 0, last=last, tuplet=ratio)
    for index in piece.after:
        yield Part((number, index), GRACE, first=True, last=True, tuplet=(1, 1))


def sound_elements(score: Score, part: Part, accidentals: Accidentals) -> Iterator[Element]:
    """The notes of one value of a sound, or its rest."""
    sound = sound_at(score.phrase, part.place)
    if sound.is_rest:
        rest = Element("note")
        SubElement(rest, "rest")
        SubElement(rest, "duration").text = score.count(part.value.length)
        write_value(rest, part)
        write_notations(rest, (), part.edges)
        yield rest
    for index, note in enumerate(sound.notes):
        yield note_element(score, part, (index, note), accidentals)


def note_element(
    score: Score, part: Part, one: tuple[int, WrittenNote], accidentals: Accidentals
) -> Element:
    """One note, in the order of elements that the schema asks for.

    one: its index in the sound, and the note.
    """
    index, note = one
    ties = score.ties.get(part.place, NO_TIES)
    back = not part.first or index in ties.back | ties.over
    tied = ["stop"] * back + ["start"] * (not part.last or index in ties.on)
    found = Element("note")
    if part.grace:
        SubElement(found, "grace")
    if index:
        SubElement(found, "chord")
    found.append(pitch_element(note.pitch))
    if not part.grace:
        SubElement(found, "duration").text = score.count(part.value.length)
    for kind in tied:
        SubElement(found, "tie", type=kind)
    sign = accidentals.of(note.pitch)
    write_value(found, part, None if back else sign)
    if index in score.unplayable.get(part.place, ()):
        SubElement(found, "notehead").text = "x"
    marks: list[Element] = [Element("tied", type=kind) for kind in tied]
    stop = score.stops.get(part.place, {}).get(index)
    if part.first and stop is not None:
        touched = note.harmonic or index in score.touched.get(part.place, ())
        marks.append(technical(stop, touched=touched))
    write_notations(found, marks, () if index else part.edges)
    return found


def pitch_element(pitch: Pitch) -> Element:
    """A pitch as written."""
    found = Element("pitch")
    SubElement(found, "step").text = pitch.letter
    if pitch.accidental:
        SubElement(found, "alter").text = str(pitch.accidental)
    SubElement(found, "octave").text = str(pitch.octave)
    return found


def write_value(note: Element, part: Part, accidental: str | None = None) -> None:
    """The note value with its dots, the accidental, and the tuplet's ratio.

    A value that no note shows stands in the duration alone.
    """
    factor = Fraction(part.tuplet[1], part.tuplet[0])
    shown = part.grace or part.value.length == part.value.written * factor
    if shown:
        SubElement(note, "type").text = TYPES[part.value.base]
        for _ in range(part.value.dots):
            SubElement(note, "dot")
    if accidental:
        SubElement(note, "accidental").text = accidental
    if shown and factor != 1:
        time = SubElement(note, "time-modification")
        SubElement(time, "actual-notes").text = str(part.tuplet[0])
        SubElement(time, "normal-notes").text = str(part.tuplet[1])


def write_notations(note: Element, marks: Sequence[Element], edges: Sequence[str]) -> None:
    """Ties, the ends of tuplets, fingers and strings."""
    tuplets = [Element("tuplet", type=edge, number="1") for edge in edges]
    if marks or tuplets:
        SubElement(note, "notations").extend([*marks, *tuplets])


def technical(stop: Stop, *, touched: bool) -> Element:
    """How a note is played: finger, string, open or as a natural harmonic."""
    found = Element("technical")
    SubElement(found, "fingering").text = str(stop.finger)
    SubElement(found, "string").text = str(stop.string)
    if touched:
        SubElement(SubElement(found, "harmonic"), "natural")
    elif not stop.finger:
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
