"""What leads from what a player knows to a sort of drills: the shortest way, a night a step."""

from collections.abc import Callable, Iterable

from bookgen.model.drill import Drill
from bookgen.planner.graph import Graph

Wanted = Callable[[Drill], bool]
"""Whether a drill is of the sort that is asked for."""


def way_to(graph: Graph, known: Iterable[Drill], wanted: Wanted) -> list[Drill]:
    """Drills one after the other, of which the last is wanted; empty where none can be reached.

    Each is linked to the one before it or to what is known, and its stage before is either of
    them; of several ways of one length the one over the most strings is taken, then the easiest.
    """
    layer = list(dict.fromkeys(known))
    before: dict[Drill, Drill | None] = dict.fromkeys(layer)
    while layer:
        layer = next_layer(graph, layer, before)
        found = [drill for drill in layer if wanted(drill)]
        if found:
            ranked = ((-len(one.strings), graph.difficulty(one), one.key) for one in found)
            (_, best) = min(zip(ranked, found, strict=True), key=lambda entry: entry[0])
            return steps_to(best, before)
    return []


def ways_to(graph: Graph, known: Iterable[Drill], wanted: Wanted) -> list[list[Drill]]:
    """A shortest way to each drill that is wanted and as near as any, or one step farther.

    The nearest first; as `way_to`.
    """
    layer = list(dict.fromkeys(known))
    before: dict[Drill, Drill | None] = dict.fromkeys(layer)
    ways: list[list[Drill]] = []
    while layer:
        nearest = bool(ways)
        layer = next_layer(graph, layer, before)
        ways += [steps_to(drill, before) for drill in layer if wanted(drill)]
        if nearest:
            break
    return ways


def next_layer(
    graph: Graph, layer: Iterable[Drill], before: dict[Drill, Drill | None]
) -> list[Drill]:
    """What opens when a layer is secure.

    before: what each drill hangs on, if anything; the layer's own are added.
    """
    found: dict[Drill, Drill] = {}
    for drill in layer:
        for _, other in graph.neighbours(drill):
            gate = graph.gate(other)
            if other not in before and (gate is None or gate in before):
                found.setdefault(other, drill if gate is None else gate)
    before |= found
    return list(found)


def steps_to(drill: Drill, before: dict[Drill, Drill | None]) -> list[Drill]:
    """The way to a drill, without what was known."""
    steps = []
    last: Drill | None = drill
    while last is not None and before[last] is not None:
        steps.append(last)
        last = before[last]
    return steps[::-1]
