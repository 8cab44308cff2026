"""The frames of a passage: runs of sounds in which every finger has one height on each string."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Final

from bookgen.model.stop import Stop
from bookgen.passage.shape import Shape
from bookgen.passage.sounds import Sounds

Spot = tuple[int, int]
"""A string and a finger on it."""

HandMap = dict[Spot, int]
"""Where fingers stand, in semitones above the open string."""

PASSING: Final = 2
"""Stopped sounds of another frame that are only passing; own choice."""

REST, OPEN, BAR, CROSSING = 4.0, 2.0, 2.0, 1.5
"""Where a hand changes its frame soonest: after a rest, at an open string, at a bar line, at a
crossing; own choice."""

LATER: Final = 0.01
"""Of places that are as good the last one is taken."""


@dataclass(slots=True)
class Run:
    """A run of sounds in one map.

    first, last: both included; place: of the hand, 0 where only open strings sound.
    """

    first: int
    last: int
    place: int
    map: HandMap = field(default_factory=dict)


def spots_of(stops: Iterable[Stop]) -> HandMap:
    """Where these fingers stand."""
    return {(stop.string, stop.finger): stop.semitones for stop in stops}


def runs_of(sounds: Sounds, shape: Shape) -> list[Run]:
    """The runs of a passage, passing changes taken in."""
    cuts = [
        start
        for first, last in placements(sounds, shape)
        for start in (first, *cuts_between(sounds, first, last))
    ]
    runs = [run_of(sounds, first, end - 1) for first, end in pairwise([*cuts, len(sounds)])]
    return joined(bridged(runs, sounds, shape), sounds)


def run_of(sounds: Sounds, first: int, last: int) -> Run:
    """The run of these sounds."""
    places = [place for at in range(first, last + 1) if (place := sounds.place(at)) is not None]
    run = Run(first, last, places[0] if places else 0)
    for at in range(first, last + 1):
        run.map |= spots_of(sounds.stopped(at))
    return run


def placements(sounds: Sounds, shape: Shape) -> Iterator[tuple[int, int]]:
    """First and last sound of every placement: the hand keeps its place, no finger crosses another.

    Open strings, and what cannot be played, belong to the placement before; at the beginning to
    the first one.
    """
    cuts = [0]
    here: int | None = None
    for index in range(len(sounds)):
        if sounds.place(index) is None:
            continue
        if here is not None and laid_anew(sounds, here, index, shape):
            cuts.append(index)
        here = index
    for first, end in pairwise([*cuts, len(sounds)]):
        if end > first:
            yield first, end - 1


def laid_anew(sounds: Sounds, before: int, index: int, shape: Shape) -> bool:
    """Whether the hand is laid anew between two sounds with fingers down.

    Over an open string no finger has to cross another.
    """
    if sounds.place(before) != sounds.place(index):
        return True
    beside = before == index - 1
    return beside and not shape.stays(sounds.stopped(before), sounds.stopped(index))


def cuts_between(sounds: Sounds, first: int, last: int) -> Iterator[int]:
    """Where a finger needs another height on a string, as seldom as can be.

    A cut may lie anywhere after the last sound that needs the old height, up to the first that
    needs the new one, but not so early that one more becomes due: it goes to where a hand would
    change.
    """
    start, map_, seen = first, HandMap(), dict[Spot, int]()
    earliest = iter(earliest_cuts(sounds, first, last))
    for index in range(first, last + 1):
        here = spots_of(sounds.stopped(index))
        if clash := clashes(map_, here):
            lowest = max(start, *(seen[spot] for spot in clash)) + 1
            start = best_cut(sounds, max(lowest, next(earliest)), index)
            yield start
            map_ = run_of(sounds, start, index).map
        map_ |= here
        seen |= dict.fromkeys(here, index)


def earliest_cuts(sounds: Sounds, first: int, last: int) -> list[int]:
    """How early each of the fewest cuts may lie: from the end, the longest runs are the fewest."""
    cuts, map_ = list[int](), HandMap()
    for index in range(last, first - 1, -1):
        here = spots_of(sounds.stopped(index))
        if clashes(map_, here):
            cuts.append(index + 1)
            map_ = HandMap()
        map_ |= here
    return cuts[::-1]


def clashes(one: Mapping[Spot, int], other: Mapping[Spot, int]) -> list[Spot]:
    """The fingers that stand at one height in a map, at another in the other."""
    return [spot for spot, height in other.items() if one.get(spot, height) != height]


def best_cut(sounds: Sounds, lowest: int, highest: int) -> int:
    """The best place for a cut between two sounds, both included."""

    def worth(index: int) -> float:
        strings = {stop.string for stop in sounds.stopped(index)}
        before = {stop.string for stop in sounds.stopped(index - 1)}
        return (
            REST * (sounds.events[index].silence > 0)
            + OPEN * (not strings)
            + BAR * sounds.opens_bar(index)
            + CROSSING * (strings != before)
            + LATER * (index - lowest)
        )

    return max(range(lowest, highest + 1), key=worth)


def fits(one: Mapping[Spot, int], other: Mapping[Spot, int], shape: Shape) -> bool:
    """Two maps of one place are one hand: no finger differs, and the hand holds each string."""
    if clashes(one, other):
        return False
    both = {**one, **other}
    strings = {string for string, _ in both}
    rows = [
        sorted((finger, height) for (at, finger), height in both.items() if at == string)
        for string in strings
    ]
    return all(len(row) == 1 or shape.hold(row) is not None for row in rows)


def few(run: Run, sounds: Sounds) -> bool:
    """So few stopped sounds that a change is only passing."""
    return sum(bool(sounds.stopped(at)) for at in range(run.first, run.last + 1)) <= PASSING


def bridged(runs: Sequence[Run], sounds: Sounds, shape: Shape) -> list[Run]:
    """Runs in which a short change between two maps that fit together is taken in."""
    found: list[Run] = []
    for run in runs:
        found.append(run)
        while len(found) > PASSING:
            before, here, after = found[-3:]
            same = before.place == here.place == after.place
            if not same or not few(here, sounds) or not fits(before.map, after.map, shape):
                break
            found[-3:] = [Run(before.first, after.last, here.place, {**before.map, **after.map})]
    return found


def joined(runs: Sequence[Run], sounds: Sounds) -> list[Run]:
    """Runs in which one that is too short belongs to its longer neighbour in the same place."""
    found = list(runs)
    at = 0
    while at < len(found):
        here = found[at]
        beside = [
            other
            for other in (*found[max(0, at - 1) : at], *found[at + 1 : at + 2])
            if other.place == here.place and not few(other, sounds)
        ]
        if few(here, sounds) and beside:
            host = max(beside, key=lambda run: run.last - run.first)
            host.first, host.last = min(host.first, here.first), max(host.last, here.last)
            del found[at]
            at = 0
        else:
            at += 1
    return found


@dataclass(slots=True)
class Whole:
    """A frame in all its runs."""

    place: int
    map: HandMap
    runs: list[Run]


def wholes(runs: Sequence[Run], shape: Shape) -> list[Whole]:
    """The different frames of a passage, by their first runs; the fullest runs found them."""
    found: list[Whole] = []
    for run in sorted(runs, key=lambda run: (-len(run.map), run.first - run.last, run.first)):
        alike = [one for one in found if one.place == run.place and fits(one.map, run.map, shape)]
        if alike:
            whole = max(alike, key=lambda one: len(one.map.items() & run.map.items()))
            whole.map |= run.map
            whole.runs.append(run)
        else:
            found.append(Whole(run.place, dict(run.map), [run]))
    return sorted(found, key=lambda one: min(run.first for run in one.runs))
