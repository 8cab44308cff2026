"""Drills joined where two differ in one thing: a way through them, and the link of each."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Final

from bookgen.model.dimension import Dimension
from bookgen.model.drill import Drill
from bookgen.plan.document import Link
from bookgen.plan.link import change, kept

OCTAVE_STEP: Final = 2
"""A leap of an octave is followed as gladly as a whole step; own choice."""


class Linked:
    """Some drills, of which it is asked which others differ in one thing."""

    def __init__(self, drills: Sequence[Drill]) -> None:
        """Sort them by all but one of their dimensions."""
        self.alike: dict[object, list[Drill]] = {}
        self.known: dict[Drill, tuple[Drill, ...]] = {}
        for drill in drills:
            for key in all_but_one(drill):
                self.alike.setdefault(key, []).append(drill)

    def of(self, drill: Drill) -> tuple[Drill, ...]:
        """Those that differ from one of them in one thing."""
        if drill not in self.known:
            near = dict.fromkeys(
                other for key in all_but_one(drill) for other in self.alike.get(key, ())
            )
            self.known[drill] = tuple(
                other for other in near if other != drill and len(drill.changes_to(other)) == 1
            )
        return self.known[drill]


def all_but_one(drill: Drill) -> Iterator[tuple[object, ...]]:
    """What two drills have in common that may differ in one thing."""
    hand, way = (drill.frame, drill.place), (drill.stage, drill.order, drill.back)
    yield "place", drill.frame, drill.strings, way
    yield "strings", hand, way
    yield "stage", hand, drill.strings, drill.order, drill.back
    yield "return", hand, drill.strings, drill.stage, drill.order
    yield "lead", hand, drill.strings, drill.stage, drill.back
    yield "hand", drill.strings, drill.stage, drill.back


def step(before: Drill, after: Drill) -> int:
    """How far it is from a drill to one that differs in one thing: half steps, stages, or 1."""
    match change(before, after):
        case Dimension.PLACE:
            return abs(after.place - before.place)
        case Dimension.OCTAVE:
            return OCTAVE_STEP
        case Dimension.STAGE:
            return abs(after.stage - before.stage)
        case _:
            return 1


def way_through(
    drills: Sequence[Drill], effort: Callable[[Drill], float], before: Sequence[Drill] = ()
) -> Iterator[Drill]:
    """All drills so that as few as can be follow from none that came earlier.

    Each follows from the last one if one is open there, by the shortest step and then the
    easiest; else from the last one before it that has one. Where none has, the way jumps to the
    easiest drill left. So it jumps once for each group of drills that no link joins to another:
    no order of them has fewer jumps.

    before: drills that stand earlier.
    """
    linked = Linked([*before, *drills])
    left = dict.fromkeys(drills)
    trail = [*before]
    while left:
        open_to: list[Drill] = []
        while trail and not open_to:
            last = trail[-1]
            open_to = [other for other in linked.of(last) if other in left]
            open_to.sort(key=lambda other: (step(last, other), effort(other), other.key))
            if not open_to:
                trail.pop()
        found = open_to[0] if open_to else min(left, key=lambda one: (effort(one), one.key))
        del left[found]
        trail.append(found)
        yield found


def links_of(numbers: Mapping[Drill, int]) -> dict[Drill, Link]:
    """The link of each drill to the nearest of those before it; of two as near the later one.

    numbers: of the drills in their order, rising.
    """
    linked = Linked([*numbers])
    return {drill: link_to_earlier(drill, numbers, linked) for drill in numbers}


def link_to_earlier(drill: Drill, numbers: Mapping[Drill, int], linked: Linked) -> Link:
    """The link of a drill; one to nothing where none before it differs in one thing only."""
    earlier = [other for other in linked.of(drill) if numbers[other] < numbers[drill]]
    if not earlier:
        return Link(to=None, changes=None)
    before = min(earlier, key=lambda other: (step(other, drill), -numbers[other]))
    return Link(to=numbers[before], changes=change(before, drill), keeps=kept(before, drill))
