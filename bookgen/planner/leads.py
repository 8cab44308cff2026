"""What of a wish is not open yet, and what leads there."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812

from bookgen.model.drill import Drill
from bookgen.plan.wished import Wished
from bookgen.planner.graphs import graph_of
from bookgen.planner.knowledge import Knowledge
from bookgen.planner.request import Request
from bookgen.planner.way import way_to


@dataclass(frozen=True, slots=True)
class Lead:
    """A part of a wish that is not open yet.

    steps: the drills that lead there, a night each, of which the last is wished; none where the
        area has no way.
    """

    wished: Wished
    steps: tuple[Drill, ...]


def leads_of(request: Request, first: Date) -> Iterator[Lead]:
    """What of a wish is neither secure nor the next step, before a day.

    Each hand that is wished is asked for by itself.
    """
    if request.wished is None:
        return
    graph = graph_of(request.instrument, request.area, request.weights)
    knowledge = Knowledge(graph)
    knowledge.trust(request.secure)
    knowledge.read(request.records, first)
    known = [*knowledge.secure] or [request.start]
    for part in request.wished.parts():

        def wanted(drill: Drill, part: Wished = part) -> bool:
            return part.holds(drill, request.instrument)

        if not any(wanted(drill) for drill in known if graph.holds(drill)):
            steps = way_to(graph, known, wanted)
            if len(steps) != 1:
                yield Lead(part, tuple(steps))
