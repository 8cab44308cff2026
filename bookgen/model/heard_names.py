"""Names of a drill's notes by what is heard: a fourth that is played is called a fourth.

The names of a hand follow from its letters and serve all its drills. Where a hand is chromatic, or
has an augmented second, they can make a third, a fourth or a sixth an augmented or diminished
something else; there the notes are named by the moves that the drill has.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise, product
from typing import Final

from bookgen.model.instrument import Instrument
from bookgen.model.interval import Interval
from bookgen.model.pitch import LETTERS, Pitch
from bookgen.model.spelling import UNUSUAL
from bookgen.model.stop import Stop
from bookgen.model.way import Way

Names = Mapping[Stop, Pitch]
Met = frozenset[tuple[Stop, Stop]]
"""Two notes of which one follows the other, or that sound together."""

OCTAVE: Final = 12
WHOLE: Final = 2
TRITONE: Final = 6
CONSONANT: Final = frozenset({0, 3, 4, 5, 7, 8, 9})
"""Half steps, without whole octaves, of what the ear knows by one plain name: unison, thirds,
fourth, fifth and sixths (common practice)."""

Hardness = tuple[int, int, int, int, int, int]
"""Consonances under a false name, and what is altered twice; E sharp, B sharp, C flat, F flat;
seconds and sevenths under a false name; fingers with another letter than on the string beside;
accidentals; flats."""


@dataclass(frozen=True, slots=True)
class Line:
    """Names from the lowest string up to one string, and how hard they are to read."""

    hardness: Hardness
    names: Names
    last: Names


def met_in(way: Way) -> Met:
    """The moves of a way that have a name on the page; at the turn none is named."""
    halves = [[step for group in groups for step in group] for groups in (way.up, way.down)]
    return frozenset(pair for half in halves for pair in pairwise(half) if pair[0] != pair[1])


def named_by_moves(names: Names, met: Met, instrument: Instrument) -> Names:
    """The names of a hand's notes, or others where these call a consonance by a false name.

    names: the hand's own; what is not played keeps them.
    """
    false = sum(
        falsely(names[one], names[other]) for one, other in met if one.string != other.string
    )
    if not false:
        return names
    played = sorted(
        {stop for pair in met for stop in pair}, key=lambda stop: (-stop.string, stop.semitones)
    )
    lines = [Line((0,) * 6, {}, {})]
    for string in dict.fromkeys(stop.string for stop in played):
        here = [stop for stop in played if stop.string == string]
        lines = [longer(lines, new, met, instrument) for new in namings(here, names)]
    best = min(lines, key=lambda line: line.hardness)
    return {**names, **best.names} if best.hardness[0] <= false else names


def longer(lines: Sequence[Line], new: Names, met: Met, instrument: Instrument) -> Line:
    """The easiest line that goes on with these names on the next string."""
    found = []
    for line in lines:
        more = hardness(new, line.last, met, instrument)
        total = tuple(map(sum, zip(line.hardness, more, strict=True)))
        found.append((total, line))
    total, line = min(found, key=lambda one: one[0])
    a, b, c, d, e, f = total
    return Line((a, b, c, d, e, f), {**line.names, **new}, new)


def namings(stops: Sequence[Stop], names: Names) -> Iterator[Names]:
    """Every way to name notes of one string with an accidental at most and letters in order."""
    for found in product(*(spellings(names[stop].midi) for stop in stops)):
        if all(low.degree <= high.degree for low, high in pairwise(found)):
            yield dict(zip(stops, found, strict=True))


def spellings(midi: int) -> Iterator[Pitch]:
    """The names of a note that have one accidental at most.

    >>> [str(pitch) for pitch in spellings(60)], [str(pitch) for pitch in spellings(61)]
    (['C4', 'B#3'], ['C#4', 'Db4'])
    """
    for letter in LETTERS:
        for accidental in (0, 1, -1):
            octave = (midi - accidental) // OCTAVE - 1
            pitch = Pitch(letter, accidental, octave)
            if pitch.midi == midi:
                yield pitch


def hardness(new: Names, before: Names, met: Met, instrument: Instrument) -> Hardness:
    """What names on one string make harder to read, beside those on the string below it."""
    both = {**before, **new}
    moves = [pair for pair in met if both.keys() >= set(pair) and not before.keys() >= set(pair)]
    across = [(both[one], both[other]) for one, other in moves if one.string != other.string]
    inside = [(both[one], both[other]) for one, other in moves if one.string == other.string]
    whole = [(low, high) for low, high in inside if abs(high.midi - low.midi) == WHOLE]
    beside = [(low, high) for low, high in pairwise(new.values()) if high.midi - low.midi > 1]
    uneven = 0
    for stop, pitch in new.items():
        for low, below in before.items():
            crossing = instrument.between_open(low.string, stop.string)
            letters = pitch.degree - below.degree
            uneven += low.finger == stop.finger and letters != crossing.degrees
    return (
        sum(falsely(*pair) for pair in across) + sum(altered(*pair) for pair in whole),
        sum(pitch.name in UNUSUAL for pitch in new.values()),
        sum(altered(*pair) for pair in across) + sum(altered(*pair) for pair in beside),
        uneven,
        sum(abs(pitch.accidental) for pitch in new.values()),
        sum(pitch.accidental < 0 for pitch in new.values()),
    )


def falsely(one: Pitch, other: Pitch) -> bool:
    """A consonance is called augmented or diminished, or anything so twice."""
    if not Interval.between(one, other).plain:
        return True
    return altered(one, other) and abs(one.midi - other.midi) % OCTAVE in CONSONANT


def altered(one: Pitch, other: Pitch) -> bool:
    """An interval is called augmented or diminished that has a plain name; a tritone has none."""
    between = Interval.between(one, other)
    return between.semitones % OCTAVE != TRITONE and not between.usual
