"""The groups of a fingering: the longest runs in one placement, and what is in the hand there."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import pairwise
from string import ascii_uppercase

from bookgen.model.instrument import Instrument
from bookgen.model.interval import interval_label
from bookgen.model.move import Move
from bookgen.model.phrase import Phrase
from bookgen.model.pitch import Pitch
from bookgen.model.spacing import Frame
from bookgen.model.stop import Stop
from bookgen.model.units import Semitones
from bookgen.passage.frames import frames_of
from bookgen.passage.shape import Shape
from bookgen.plan.passage import Fingering, Group, Placed

Played = tuple[Stop, Pitch]
"""A stop with the written note that it is for."""


def grouped(fingering: Fingering, phrase: Phrase, instrument: Instrument) -> Fingering:
    """The same fingering with its groups.

    A group is the longest run of sounds in one placement: the hand keeps its place, and no
    finger has to cross another. Open strings and what cannot be played belong to the group
    before them, at the beginning to the first one.
    """
    shape = Shape(instrument)
    groups: list[Group] = []
    for index, (first, last) in enumerate(runs(fingering.placed, shape)):
        group = described(fingering, phrase, shape, (first, last))
        groups.append(replace(named(group, groups), letter=letter(index)))
    return replace(fingering, groups=tuple(groups))


def runs(placed: Sequence[Placed], shape: Shape) -> Iterator[tuple[int, int]]:
    """First and last index of every group, both included."""
    cuts = [0]
    here: Placed | None = None
    for index, one in enumerate(placed):
        if one.hand is None:
            continue
        if here is not None and moved(here, placed[index - 1], one, shape):
            cuts.append(index)
        here = one
    for first, after in pairwise([*cuts, len(placed)]):
        if after > first:
            yield first, after - 1


def moved(here: Placed, before: Placed, one: Placed, shape: Shape) -> bool:
    """Whether the hand is laid anew.

    here: the last sound with a finger down; before: the last sound.
    """
    if here.hand is None or one.hand is None or here.hand.place != one.hand.place:
        return True
    return here is before and not shape.stays(fingers_of(here), fingers_of(one))


def fingers_of(one: Placed) -> list[Stop]:
    """The stops of a sound that a finger holds."""
    return [stop for stop in one.stops if stop is not None and stop.finger]


def letter(index: int) -> str:
    """The letter of a group by its index: A to Z, then AA, AB and so on.

    >>> letter(0), letter(25), letter(26)
    ('A', 'Z', 'AA')
    """
    rounds, rest = divmod(index, len(ascii_uppercase))
    return (letter(rounds - 1) if rounds else "") + ascii_uppercase[rest]


def described(fingering: Fingering, phrase: Phrase, shape: Shape, run: tuple[int, int]) -> Group:
    """A group without its letter."""
    first, last = run
    sounds = fingering.placed[first : last + 1]
    counts = Counter(stop for one in sounds for stop in fingers_of(one))
    frames = frames_of(counts, shape)
    low = lowest_stop(counts, frames)
    group = Group("", first, last, frames[0] if frames else None, Semitones(0), "", None, 0)
    if low is None:
        return group
    pitch = next(pitch for stop, pitch in played(group, fingering, phrase) if stop == low)
    instrument = shape.instrument
    rule, string = instrument.position_rule, instrument.open_pitch(low.string)
    label = rule.label(low.finger, low.semitones, pitch, string)
    return replace(group, place=low.semitones, position=label, others=tuple(frames[1:]))


def lowest_stop(counts: Mapping[Stop, int], frames: Sequence[Frame]) -> Stop | None:
    """The stop of the lowest finger that plays where it stands most often; of equals the first.

    Where the hand has a frame, it is the frame's lowest finger.
    """
    finger = frames[0].fingers[0] if frames else min((one.finger for one in counts), default=0)
    own = [stop for stop in counts if stop.finger == finger]
    return max(own, key=lambda stop: counts[stop], default=None)


def named(group: Group, earlier: Sequence[Group]) -> Group:
    """The group with the first earlier one that has the same frame."""
    if group.frame is not None:
        for other in earlier:
            if other.frame == group.frame:
                return replace(group, same_as=other.letter, higher=group.place - other.place)
    return group


def played(group: Group, fingering: Fingering, phrase: Phrase) -> Iterator[Played]:
    """Every stop of a group with its written note, in the order of time."""
    for one in fingering.placed[group.first : group.last + 1]:
        notes = phrase.bars[one.bar].sounds[one.sound].notes
        for stop, note in zip(one.stops, notes, strict=True):
            if stop is not None:
                yield stop, note.pitch


def moves_in(group: Group, fingering: Fingering, phrase: Phrase) -> dict[Move, str]:
    """The moves of a group in the order in which they first come, each with its interval.

    Two notes after each other make a move, and two that sound together, from the lower one. Of
    double stops that follow each other the lower notes make one and the upper ones another. An
    interval that has no plain name is told as "".
    """
    found: dict[Move, str] = {}
    before: list[Played] = []
    for index in range(group.first, group.last + 1):
        here = list(played(replace(group, first=index, last=index), fingering, phrase))
        for (one, first), (other, then) in (*joined(before, here), *pairwise(here)):
            if one != other:
                found.setdefault(Move(one, other), told(first, then))
        before = here
    return found


def joined(before: Sequence[Played], here: Sequence[Played]) -> Iterator[tuple[Played, Played]]:
    """The notes of two sounds that follow each other, voice by voice."""
    if len(before) == len(here):
        yield from zip(before, here, strict=True)
    else:
        yield from ((early, late) for early in before for late in here)


def told(one: Pitch, other: Pitch) -> str:
    """The interval of two notes, or "" where spelling makes it more than twice augmented."""
    try:
        return interval_label(one, other)
    except ValueError:
        return ""
