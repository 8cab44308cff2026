"""A drill's stops in the order of play: its route, laid where the hand stands."""

from collections.abc import Iterable
from dataclasses import dataclass

from bookgen.model.drill import Drill
from bookgen.model.route import route, shift_route
from bookgen.model.stop import Stop
from bookgen.model.units import Semitones

Group = tuple[Stop, ...]
"""The stops of one laying of the hand, or of one string of a hand that shifts."""


@dataclass(frozen=True, slots=True)
class Way:
    """The stops of the way up and of the way back, in groups."""

    up: tuple[Group, ...]
    down: tuple[Group, ...]


def way_of(drill: Drill) -> Way:
    """Every stop of a drill.

    >>> key = "violin-1-place2to4-strings21-stage1-low-same"
    >>> [stop.semitones for group in way_of(Drill.parse_key(key)).up for stop in group]
    [2, 4, 4, 2]
    """
    if not drill.frame.shift:
        way = route(drill.strings, drill.order, drill.stage, drill.back)
        return Way(
            *(
                tuple(
                    tuple(Stop(string, finger, drill.height(finger)) for string, finger in group)
                    for group in half
                )
                for half in (way.up, way.down)
            )
        )
    shifting = shift_route(drill.strings, drill.order, drill.stage, drill.back)
    return Way(
        *(
            tuple(
                tuple(
                    Stop(string, finger, Semitones(drill.height(finger) + at * drill.frame.shift))
                    for string, finger, at in group
                )
                for group in half
            )
            for half in (shifting.up, shifting.down)
        )
    )


def place_under(drill: Drill, stop: Stop) -> Semitones:
    """Where the hand of a drill is laid when it takes a stop."""
    return Semitones(stop.semitones - drill.frame.offset(stop.finger))


def shifts(drill: Drill, here: Stop, there: Stop) -> Semitones:
    """How far the hand moves between two stops: up is positive, 0 is where it stays."""
    return Semitones(place_under(drill, there) - place_under(drill, here))


def in_turn(way: Way) -> Iterable[Stop]:
    """The stops of a way, up and back, one after the other."""
    return (stop for group in (*way.up, *way.down) for stop in group)
