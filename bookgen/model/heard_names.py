"""Names of a drill's notes by what is heard: a fourth that is played is called a fourth.

The names of a hand follow from its letters and serve all its drills. Where a hand is chromatic, or
has an augmented second, they can make a third, a fourth or a sixth an augmented or diminished
something else; there the notes are named by the moves that the drill has.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise, product
from operator import add
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


@dataclass(frozen=True, slots=True)
class Meeting:
    """Which notes of a string have to do with each other, and with those of the string below.

    whole: moves on the string by a whole step; beside: neighbours farther apart than a half step.
    across: moves from or to the string below, its note first.
    fingers: one finger's notes on both, and the letters between the open strings.
    """

    whole: Sequence[tuple[Stop, Stop]]
    beside: Sequence[tuple[Stop, Stop]]
    across: Sequence[tuple[Stop, Stop]]
    fingers: Sequence[tuple[Stop, Stop, int]]


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
    lines, below = [Line((0,) * 6, {}, {})], list[Stop]()
    for string in dict.fromkeys(stop.string for stop in played):
        here = [stop for stop in played if stop.string == string]
        meeting = meeting_of(here, below, met, instrument)
        lines, below = [longer(lines, new, meeting) for new in namings(here, names)], here
    best = min(lines, key=lambda line: line.hardness)
    return {**names, **best.names} if best.hardness[0] <= false else names


def meeting_of(
    here: Sequence[Stop], below: Sequence[Stop], met: Met, instrument: Instrument
) -> Meeting:
    """What the notes of a string have to do with each other, and with the string below."""
    moves = [(one, other) for one in here for other in here if (one, other) in met]
    up = [(low, high) for low in below for high in here]
    return Meeting(
        whole=[pair for pair in moves if abs(pair[0].semitones - pair[1].semitones) == WHOLE],
        beside=[pair for pair in pairwise(here) if pair[1].semitones - pair[0].semitones > 1],
        across=[pair for pair in up for way in (pair, pair[::-1]) if way in met],
        fingers=[
            (low, high, instrument.between_open(low.string, high.string).degrees)
            for low, high in up
            if low.finger == high.finger
        ],
    )


def longer(lines: Sequence[Line], new: Names, meeting: Meeting) -> Line:
    """The easiest line that goes on with these names on the next string."""
    own = alone(new, meeting)
    found = []
    for line in lines:
        a, b, c, d, e, f = map(add, line.hardness, own)
        false, misnamed, uneven = together(new, line.last, meeting)
        found.append(((a + false, b, c + misnamed, d + uneven, e, f), line))
    total, line = min(found, key=lambda one: one[0])
    return Line(total, {**line.names, **new}, new)


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


def alone(new: Names, meeting: Meeting) -> Hardness:
    """What names on one string make harder to read by themselves."""
    return (
        sum(Interval.between(new[low], new[high]).misnamed for low, high in meeting.whole),
        sum(pitch.name in UNUSUAL for pitch in new.values()),
        sum(Interval.between(new[low], new[high]).misnamed for low, high in meeting.beside),
        0,
        sum(abs(pitch.accidental) for pitch in new.values()),
        sum(pitch.accidental < 0 for pitch in new.values()),
    )


def together(new: Names, below: Names, meeting: Meeting) -> tuple[int, int, int]:
    """What they make harder beside those of the string below: false, misnamed, uneven letters."""
    across = [(below[low], new[high]) for low, high in meeting.across]
    return (
        sum(falsely(*pair) for pair in across),
        sum(Interval.between(*pair).misnamed for pair in across),
        sum(new[high].degree - below[low].degree != away for low, high, away in meeting.fingers),
    )


def falsely(one: Pitch, other: Pitch) -> bool:
    """A consonance is called augmented or diminished, or anything so twice."""
    between = Interval.between(one, other)
    if not between.plain:
        return True
    return between.misnamed and between.semitones % OCTAVE in CONSONANT
