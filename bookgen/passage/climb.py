"""The way from what is secure to a drill that a passage needs, one change a step."""

from collections.abc import Collection, Iterable, Iterator, Mapping
from heapq import heappop, heappush
from itertools import count
from typing import Final

from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.model.spacing import Frame
from bookgen.planner.area import Area, string_sets
from bookgen.planner.graph import Graph

EVERYWHERE: Final = 2
"""The fewest strings that a drill crosses."""

STEP: Final = 1.0
"""What a step costs beside the difficulty of the drill it leads to; own choice."""

HIGHEST: Final = 5
"""The last stage."""


def open_area(instrument: Instrument) -> Area:
    """Everything that the hand of an instrument takes, stretches too."""
    reaches = instrument.hand.reaches
    frames = (Frame.pair(reach.low, reach.high, reach.spacing) for reach in reaches)
    return Area(
        tuple(dict.fromkeys(frames)),
        None,
        string_sets(instrument, EVERYWHERE),
        HIGHEST,
        stretches=True,
    )


def way_to(target: Drill, graph: Graph, known: Collection[Drill]) -> list[Drill]:
    """The easiest chain of links from what is known to a drill; empty where there is none.

    A hand is entered at stage 1 and climbs from there; so only the way to the hand itself is
    looked for, from all that is known at stage 1.
    """
    climb: list[Drill] = []
    here: Drill | None = target
    while here is not None and here not in known:
        climb.append(here)
        here = graph.gate(here)
    if here is not None:
        return climb[::-1]
    way = on_one_string(climb[-1], graph, known)
    return [*way, *climb[-2::-1]] if way else []


def on_one_string(target: Drill, graph: Graph, known: Collection[Drill]) -> list[Drill]:
    """The easiest chain of drills of stage 1, from one that is known to the target.

    Its cost is a step and the difficulty for each drill in it (Dijkstra's algorithm). The search
    runs backwards, for links go both ways: so it ends where it first meets what is known. What a
    drill costs counts before its neighbours, so that each is reached once, at the least cost.
    """
    known_here = {drill for drill in known if drill.stage == 1}
    if not graph.holds(target) or not any(may_lead(drill, target) for drill in known_here):
        return []
    entries = entries_from_outside(known_here, graph)
    order = count()
    after: dict[Drill, Drill | None] = {target: None}
    ahead = [(graph.difficulty(target), next(order), target)]
    while ahead:
        cost, _, drill = heappop(ahead)
        beside = graph.neighbours(drill)
        if drill in entries or any(other in known_here for _, other in beside):
            return list(chain(drill, after))
        for _, other in beside:
            if other.stage == 1 and other not in after:
                after[other] = drill
                further = cost + STEP + graph.difficulty(other)
                heappush(ahead, (further, next(order), other))
    return []


def may_lead(known: Drill, target: Drill) -> bool:
    """No chain begins up or down the hand and ends in an order that runs to and fro."""
    return target.plain_order or not known.plain_order


def entries_from_outside(known: Iterable[Drill], graph: Graph) -> frozenset[Drill]:
    """The drills of the area to which a known one leads that lies outside of it."""
    outside = (drill for drill in known if not graph.holds(drill))
    return frozenset(other for drill in outside for _, other in graph.neighbours(drill))


def chain(drill: Drill, after: Mapping[Drill, Drill | None]) -> Iterator[Drill]:
    """A drill and what comes after it, up to the target."""
    here: Drill | None = drill
    while here is not None:
        yield here
        here = after[here]
