"""Drills in the trade's shorthand, and players who know some of them."""

from datetime import date, timedelta

from kit.planning import area_of
from kit.shorthand import SPACINGS, VIOLIN, pair, strings

from bookgen.model.drill import Drill
from bookgen.model.route import Return
from bookgen.model.units import Semitones
from bookgen.plan.document import Role
from bookgen.plan.record import Played, Printed, Record, Result
from bookgen.planner.area import Area
from bookgen.planner.graph import Graph
from bookgen.planner.knowledge import Knowledge
from bookgen.planner.pool import pool
from bookgen.readers.weights import read_weights

TODAY = date(2026, 12, 7)
"""A Monday."""

WEIGHTS = read_weights()
LOW = area_of(VIOLIN, frozenset({"1st", "2nd"}), fewest=3, highest_stage=3)
SMALL = area_of(VIOLIN, frozenset({"1st"}), fewest=4, highest_stage=3)


def day(offset: int) -> date:
    """A day before or after today."""
    return TODAY + timedelta(offset)


def short(text: str) -> Drill:
    """Read `12W2 4321 3 high mirror`: fingers, spacing and place, strings, stage; else low, same.

    >>> short("23H4 432 2 high").key
    'violin-23-half-place4-strings432-stage2-high-same'
    """
    hand, over, stage, *ways = text.split()
    frame = pair(hand[:2], SPACINGS[hand[2]])
    order = frame.fingers[::-1] if "high" in ways else frame.fingers
    back = Return.MIRROR if "mirror" in ways else Return.SAME
    place = Semitones(int(hand[3:]))
    return Drill("violin", frame, order, place, strings(over), int(stage), back)


def shorts(text: str) -> list[Drill]:
    """Read several drills, parted by bars."""
    return [short(part) for part in text.split("|")]


def knowing(*secure: Drill, area: Area = LOW) -> Knowledge:
    """A player who is said to know some drills."""
    knowledge = Knowledge(Graph(VIOLIN, area, WEIGHTS))
    knowledge.trust(secure)
    return knowledge


def pool_of(area: Area) -> list[Drill]:
    """All drills of an area on the violin."""
    return list(pool(VIOLIN, area))


Told = tuple[int, Result | None] | tuple[int, Result | None, int]
"""A day on which a drill was printed, its result, and the day of that if it is another one."""


def record(number: int, drill: Drill, *told: Told, role: Role = Role.NEW) -> Record:
    """A drill with its printings and results, by days before and after today."""
    printed = tuple(Printed(day(one[0]), role) for one in told)
    results = [Played(day(one[2] if len(one) > 2 else one[0]), one[1]) for one in told if one[1]]
    return Record(number, drill, printed, tuple(results))
