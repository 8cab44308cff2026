"""Which drills a chapter of a book asks for, and in which order they stand."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum

from bookgen.model.drill import Drill, Lead
from bookgen.model.instrument import Instrument
from bookgen.model.route import Return
from bookgen.planner.area import Area
from bookgen.planner.pool import pool


class By(StrEnum):
    """By what drills are sorted."""

    EASIEST = "easiest"
    HAND = "hand"
    POSITION = "position"
    STRINGS = "strings"
    STAGE = "stage"
    LEAD = "lead"
    RETURN = "return"


USUAL = (By.HAND, By.POSITION, By.STRINGS, By.STAGE, By.LEAD, By.RETURN)
"""In this order, as far as a chapter does not say otherwise."""


@dataclass(frozen=True, slots=True)
class Query:
    """What drills have in common.

    area: hands, positions and strings, up to the highest stage.
    backs: a drill whose two ways back are one is found by either.
    """

    area: Area
    stages: frozenset[int]
    leads: frozenset[Lead]
    backs: frozenset[Return]

    def finds(self, drill: Drill) -> bool:
        """Whether it asks for a drill of its area."""
        back = drill.back in self.backs or (bool(self.backs) and drill.turns_alike)
        return drill.stage in self.stages and drill.lead in self.leads and back


def chosen(query: Query, instrument: Instrument) -> Iterator[Drill]:
    """Every drill that a query asks for, in a fixed order."""
    return filter(query.finds, pool(instrument, query.area))


def in_order(
    drills: Sequence[Drill], order: Sequence[By], effort: Callable[[Drill], float]
) -> list[Drill]:
    """Drills sorted by what is named, first things first; what is left is sorted as usual."""
    every = (*order, *(by for by in USUAL if by not in order))

    def rank(drill: Drill) -> tuple[tuple[float, ...], ...]:
        return tuple(ranked(drill, by, effort) for by in every)

    return sorted(drills, key=rank)


def ranked(drill: Drill, by: By, effort: Callable[[Drill], float]) -> tuple[float, ...]:
    """Where a drill stands by one thing: small before large, low before high.

    Many strings come before few.
    """
    found: tuple[float, ...]
    match by:
        case By.EASIEST:
            found = (round(effort(drill), 6),)
        case By.HAND:
            fingers = drill.frame.fingers
            steps = (spacing.semitones for spacing in drill.frame.spacings)
            found = (len(fingers), *fingers, *steps, drill.frame.shift)
        case By.POSITION:
            found = (drill.place,)
        case By.STRINGS:
            found = (-len(drill.strings), *(-string for string in drill.strings))
        case By.STAGE:
            found = (drill.stage,)
        case By.LEAD:
            found = (drill.lead is Lead.HIGH, *drill.order)
        case By.RETURN:
            found = (drill.back is Return.MIRROR,)
    return found
