"""A move: from one stop of the hand to another; the unit in which coverage is counted."""

from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from bookgen.errors import RefusedError
from bookgen.model.drill import Drill
from bookgen.model.finger import sign_of
from bookgen.model.route import Return, route
from bookgen.model.spacing import Frame
from bookgen.model.stop import Stop
from bookgen.model.units import Semitones, StringNumber
from bookgen.model.way import in_turn, shifts, way_of

EVERY_DRILL = 65_536
"""More drills than the widest area of an instrument has."""


@dataclass(frozen=True, slots=True, order=True)
class Move:
    """Two different stops, one played after the other or both together.

    first, then: in the order in which the fingers come; the place and the spacing of the hand
        follow from the stops.
    shifts: the hand moves to another place between them.
    """

    first: Stop
    then: Stop
    shifts: bool = False

    def __post_init__(self) -> None:
        """Refuse a finger that stays where it is.

        Raises:
            RefusedError: both stops are one and the same.
        """
        if self.first == self.then:
            raise RefusedError("move-none", finger=sign_of(self.first.finger))

    @property
    def crosses(self) -> bool:
        """The two stops lie on different strings."""
        return self.first.string != self.then.string


@lru_cache(maxsize=EVERY_DRILL)
def moves_of(drill: Drill) -> frozenset[Move]:
    """Every move of a drill, up, back and at the turn, whether its notes overlap or not.

    >>> key = "violin-12-whole-place2-strings21-stage1-low-mirror"
    >>> len(moves_of(Drill.parse_key(key)))
    6
    """
    if drill.frame.shift:
        stops = in_turn(way_of(drill))
        return frozenset(
            Move(here, there, shifts(drill, here, there) != 0)
            for here, there in pairwise(stops)
            if here != there
        )
    return laid(drill.frame, drill.place, steps_of(drill))


Steps = tuple[tuple[StringNumber, int], ...]
"""Strings with the finger on each, in the order of play."""


def steps_of(drill: Drill) -> Steps:
    """A drill's strings and fingers in the order in which they are played."""
    return walk(drill.strings, drill.order, drill.stage, drill.back)


@lru_cache(maxsize=EVERY_DRILL)
def walk(
    strings: tuple[StringNumber, ...], order: tuple[int, ...], stage: int, back: Return
) -> Steps:
    """A route's steps without its groups; there are few routes, so each is walked once."""
    found = route(strings, order, stage, back)
    return tuple(step for group in (*found.up, *found.down) for step in group)


def laid(frame: Frame, place: Semitones, steps: Steps) -> frozenset[Move]:
    """The moves of a walk where the frame is laid at a place."""
    stops = {step: stop_at(frame, place, *step) for step in set(steps)}
    return frozenset(
        Move(stops[here], stops[there]) for here, there in pairwise(steps) if here != there
    )


def stop_at(frame: Frame, place: Semitones, string: StringNumber, finger: int) -> Stop:
    """Where a finger of a frame stands."""
    return Stop(string, finger, Semitones(place + frame.offset(finger)))
