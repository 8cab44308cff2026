"""Which positions and fingers of an area a run of days does not reach, and how far off they are."""

from collections.abc import Iterable

from bookgen.model.drill import Drill
from bookgen.model.place import place_label
from bookgen.plan.ahead import Unreached
from bookgen.planner.coverage import Cell, cells
from bookgen.planner.graphs import graph_of
from bookgen.planner.request import Request
from bookgen.planner.way import next_layer


def unreached(request: Request, planned: Iterable[Drill]) -> list[Unreached]:
    """What of the area is not met when some drills are played, from the nut upwards.

    What the player knows, or has a result of, counts as met. A hand begins at stage 1, so steps
    are counted there.
    """
    instrument = request.instrument
    told = (one.drill for one in request.records if one.results)
    own = [one for one in (*request.secure, *told, *planned) if one.instrument == instrument.key]
    met = {cell_of(drill, request) for drill in own}
    left = dict.fromkeys(
        cell for cell in cells(instrument, request.area).values() if cell not in met
    )
    found: dict[Cell, int] = {}
    layer, steps = list(dict.fromkeys(own)), 0
    before: dict[Drill, Drill | None] = dict.fromkeys(layer)
    graph = graph_of(instrument, request.area, request.weights)
    while layer and len(found) < len(left):
        opened = next_layer(graph, layer, before)
        layer, steps = [drill for drill in opened if drill.stage == 1], steps + 1
        for cell in {cell_of(drill, request) for drill in layer} & left.keys():
            found.setdefault(cell, steps)
    return [
        Unreached(position=cell.position, fingers=cell.fingers, steps=found.get(cell))
        for cell in left
    ]


def cell_of(drill: Drill, request: Request) -> Cell:
    """Where a drill counts."""
    return Cell(place_label(drill, request.instrument), drill.frame.fingers)
