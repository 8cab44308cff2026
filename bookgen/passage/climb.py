"""The way from what is secure to a drill that a passage needs, one change a step."""

from collections.abc import Collection, Mapping
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

    Its cost is a step and the difficulty for each drill in it (Dijkstra's algorithm).
    """
    order = count()
    before: dict[Drill, Drill | None] = {}
    ahead: list[tuple[float, int, Drill, Drill | None]] = []
    for drill in known:
        if drill.stage == 1:
            heappush(ahead, (0.0, next(order), drill, None))
    while ahead:
        cost, _, drill, origin = heappop(ahead)
        if drill in before:
            continue
        before[drill] = origin
        if drill == target:
            return chain(drill, before)
        for _, other in graph.neighbours(drill):
            if other.stage == 1 and other not in before:
                further = cost + STEP + graph.difficulty(other)
                heappush(ahead, (further, next(order), other, drill))
    return []


def chain(drill: Drill, before: Mapping[Drill, Drill | None]) -> list[Drill]:
    """The steps to a drill, without the known one from which they start."""
    found = []
    here: Drill | None = drill
    while here is not None and before[here] is not None:
        found.append(here)
        here = before[here]
    return found[::-1]
