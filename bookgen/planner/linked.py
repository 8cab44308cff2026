"""Drills joined where two differ in one thing: a way through them, and the link of each."""

from collections.abc import Callable, Container, Iterator, Mapping, Sequence
from itertools import pairwise
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
    easiest; else from the last one before it that has one. A drill is open when its stage before
    has come, if that is among the drills at all. Where none is open the way takes one that is
    not; where none follows it jumps to the easiest drill left. So it jumps once for each group
    of drills that no link joins to another: no order of them has fewer jumps.

    before: drills that stand earlier.
    """
    linked, gates = Linked([*before, *drills]), gates_of([*before, *drills])
    left = dict.fromkeys(drills)
    trail = [*before]

    def closed(drill: Drill) -> bool:
        return gates.get(drill) in left

    while left:
        trail = [one for one in trail if any(other in left for other in linked.of(one))]
        found = next_on(trail, left, linked, closed, effort)
        if found is None:
            found = min(left, key=lambda one: (closed(one), effort(one), one.key))
        del left[found]
        trail.append(found)
        yield found


def next_on(
    trail: Sequence[Drill],
    left: Container[Drill],
    linked: Linked,
    closed: Callable[[Drill], bool],
    effort: Callable[[Drill], float],
) -> Drill | None:
    """The drill with which a way goes on: open, and as near to its end as can be; or None.

    Where all that follow are closed it is the one nearest to the end.
    """
    shut: Drill | None = None
    for last in reversed(trail):
        near = [other for other in linked.of(last) if other in left]
        near.sort(key=lambda other: (closed(other), step(last, other), effort(other), other.key))
        if near and not closed(near[0]):
            return near[0]
        shut = shut or next(iter(near), None)
    return shut


def gates_of(drills: Sequence[Drill]) -> dict[Drill, Drill]:
    """The same drill at the nearest lower stage that is among them."""
    alike: dict[object, list[Drill]] = {}
    for drill in drills:
        key = (drill.frame, drill.place, drill.strings, drill.order, drill.back)
        alike.setdefault(key, []).append(drill)
    rising = (sorted(group, key=lambda one: one.stage) for group in alike.values())
    return {after: before for group in rising for before, after in pairwise(group)}


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
