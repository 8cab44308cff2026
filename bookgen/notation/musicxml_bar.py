"""A bar of a fingered passage as elements of MusicXML: its notes, rests, gaps and brackets."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from fractions import Fraction
from math import lcm
from xml.etree.ElementTree import Element, SubElement

from bookgen.model.marking import NO_MARKING
from bookgen.model.phrase import Phrase
from bookgen.notation.accidental import Accidentals
from bookgen.notation.bars import length_of
from bookgen.notation.fingered import NO_MARK, Fingered
from bookgen.notation.marking import NO_SLURS, Slurs
from bookgen.notation.musicxml_marking import directions_of
from bookgen.notation.musicxml_note import (
    GRACE,
    Head,
    Leaf,
    bracket,
    duration_element,
    leaf_elements,
    moved,
)
from bookgen.notation.rhythm import Piece, Span, silent, written_bar
from bookgen.notation.sounds import Place, sound_at
from bookgen.notation.tie import NO_TIES

Part = tuple[Place, Leaf, bool, bool]
"""A leaf of the sound at a place; whether it is the first, and the last, of that sound."""


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


def passage_bar(
    score: Fingered,
    slurs: Mapping[Place, Slurs],
    number: int,
    accidentals: Accidentals,
    divisions: int,
    *,
    whole: bool,
) -> Iterator[Element]:
    """The notes, rests, directions and brackets of a bar, in their order.

    slurs: of all sounds. whole: the bar is as long as its meter says.
    """
    bar = score.phrase.bars[number]
    if silent(bar) and whole:
        yield from directions_of(bar.sounds[0].marking if bar.sounds else NO_MARKING)
        rest = Element("note")
        SubElement(rest, "rest", measure="yes")
        rest.append(duration_element(length_of(bar), divisions))
        yield rest
        return
    for span in written_bar(bar):
        for part in parts_of(span, number):
            if isinstance(part, Fraction):
                yield moved("forward", part, divisions)
                continue
            place, leaf, first, last = part
            if first and place in score.opens:
                yield from bracket("start", score.opens[place])
            if first:
                yield from directions_of(sound_at(score.phrase, place).marking)
            heads = tuple(heads_of(score, place, accidentals, first=first, last=last))
            signed = with_signs(leaf, score, slurs, place, first=first, last=last)
            yield from leaf_elements(replace(signed, heads=heads), divisions)
            if last and place in score.closes:
                yield from bracket("stop", "")


def with_signs(
    leaf: Leaf,
    score: Fingered,
    slurs: Mapping[Place, Slurs],
    place: Place,
    *,
    first: bool,
    last: bool,
) -> Leaf:
    """A value of a sound with the signs at its first one, and its slurs."""
    here = slurs.get(place, NO_SLURS)
    ends = here.ends if (first if here.begins else last) else ()
    begins = here.begins if first else ()
    marking = sound_at(score.phrase, place).marking if first else NO_MARKING
    return replace(leaf, marking=marking, slurs=Slurs(ends, begins))


def heads_of(
    score: Fingered, place: Place, accidentals: Accidentals, *, first: bool, last: bool
) -> Iterator[Head]:
    """The heads of one value of a sound; first, last: of its values."""
    mark, ties = score.marks.get(place, NO_MARK), score.ties.get(place, NO_TIES)
    for index, note in enumerate(sound_at(score.phrase, place).notes):
        back = not first or index in ties.back | ties.over
        sign = accidentals.of(note.pitch)
        yield Head(
            pitch=note.pitch,
            accidental=None if back else sign,
            stop=mark.stops.get(index) if first else None,
            harmonic=index in mark.harmonics,
            crossed=index in mark.unplayable,
            back=back,
            on=not last or index in ties.on,
        )


def parts_of(span: Span, number: int) -> Iterator[Part | Fraction]:
    """The values of a span in their order; a gap is only a length."""
    ratio = (span.actual, span.normal)
    parts = [part for piece in span.pieces for part in piece_parts(piece, number)]
    timed = [
        at for at, part in enumerate(parts) if not isinstance(part, Fraction) and in_time(part)
    ]
    for at, part in enumerate(parts):
        if isinstance(part, Fraction) or ratio == (1, 1) or not in_time(part):
            yield part
            continue
        place, leaf, first, last = part
        edges = [("start", timed[0]), ("stop", timed[-1])]
        found = tuple(edge for edge, where in edges if where == at)
        yield place, replace(leaf, tuplet=ratio, edges=found), first, last


def in_time(part: Part) -> bool:
    """It is no grace note."""
    return not part[1].grace


def piece_parts(piece: Piece, number: int) -> Iterator[Part | Fraction]:
    """The values of a piece with the grace notes around it."""
    for index in piece.graces:
        yield (number, index), Leaf((), GRACE), True, True
    for at, value in enumerate(piece.values):
        if piece.sound is None:
            yield value.length
            continue
        place, last = (number, piece.sound), at == len(piece.values) - 1
        yield place, Leaf((), value), at == 0, last
    for index in piece.after:
        yield (number, index), Leaf((), GRACE), True, True
