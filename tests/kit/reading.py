"""What a drill is, read from its notes alone: another way to the truth than the planner's."""

from collections.abc import Sequence
from dataclasses import dataclass, field, fields
from itertools import pairwise

from bookgen.model.event import Begins, Event
from bookgen.model.stop import Stop

OCTAVE = 12


@dataclass(frozen=True)
class Reading:
    """The dimensions of a pair of fingers, as the stops show them."""

    pair: frozenset[int]
    spacing: int
    place: int
    heights: dict[int, int] = field(compare=False)
    strings: frozenset[int]
    lead: bool
    back: bool
    stage: int


def reading(events: Sequence[Event]) -> Reading:
    """Read a drill of two fingers."""
    turn = next(index for index, event in enumerate(events) if event.begins is Begins.TURN)
    up, down = walk(events[:turn]), walk(events[turn:])
    stops = set(up + down)
    heights = {stop.finger: stop.semitones for stop in stops}
    assert len(heights) == 2
    assert len({(stop.finger, stop.semitones) for stop in stops}) == 2, "one hand, one place"
    low, high = sorted(heights)
    mirrored = down == up[::-1]
    return Reading(
        pair=frozenset(heights),
        spacing=heights[high] - heights[low],
        place=heights[low],
        heights=dict(heights),
        strings=frozenset(stop.string for stop in stops),
        lead=up[0].finger == low,
        back=mirrored and not (crosses_always(up) and again(up, down)),
        stage=stage(events, up),
    )


def walk(events: Sequence[Event]) -> list[Stop]:
    """The stops as the fingers come to them, whether or not they sound on."""
    found: list[Stop] = []
    for event in events:
        for note in event.notes:
            if not note.held and (not found or found[-1] != note.stop or len(event.notes) == 1):
                found.append(note.stop)
    return found


def stage(events: Sequence[Event], up: Sequence[Stop]) -> int:
    """How soon the player crosses."""
    if any(len(event.notes) > 1 for event in events):
        return 4 if any(note.held for event in events for note in event.notes) else 5
    if up[0].string == up[1].string:
        return 1
    return 2 if grouped(events) else 3


def grouped(events: Sequence[Event]) -> bool:
    """The way up falls into several layings of the hand, or has one of two strings."""
    turn = next(index for index, event in enumerate(events) if event.begins is Begins.TURN)
    return any(event.begins is Begins.GROUP for event in events[:turn])


def crosses_always(up: Sequence[Stop]) -> bool:
    """Every note lies on another string than the one before it."""
    return all(one.string != other.string for one, other in pairwise(up))


def again(up: Sequence[Stop], down: Sequence[Stop]) -> bool:
    """The way back begins with the finger that led the way up."""
    return up[0].finger == down[0].finger


def differing(one: Reading, other: Reading) -> set[str]:
    """The names of the dimensions in which two readings differ."""
    names = {
        f.name for f in fields(one) if f.compare and getattr(one, f.name) != getattr(other, f.name)
    }
    shared = set(one.heights.items()) & set(other.heights.items())
    if one.pair != other.pair and shared:
        names -= {"place"}
    if abs(one.place - other.place) == OCTAVE:
        names = names - {"place"} | {"octave"}
    return {{"back": "return"}.get(name, name) for name in names}
