"""The way back to a drill that was not yet secure: one step easier, then the drill again."""

from collections.abc import Callable, Iterator
from datetime import date as Date  # noqa: N812
from typing import Final

from bookgen.model.drill import Drill
from bookgen.planner.knowledge import Knowledge

Fits = Callable[[Drill], bool]
"""Whether a drill can stand on the day: there is time, and its link and stage before are there."""

LONGEST: Final = 3
"""Steps down from a drill within which a rung is looked for; our own bound."""


def rungs(knowledge: Knowledge, fits: Fits) -> Iterator[tuple[Drill, Drill]]:
    """The next rung towards each drill that was not yet secure, and the drill itself.

    The drill that waits longest comes first.

    That is an easier neighbour of it; or the drill itself, once such a neighbour has been
    secure since. Where the area has nothing easier the drill itself comes again.
    """
    waiting = sorted(knowledge.failed.items(), key=lambda entry: (entry[1], entry[0].key))
    for drill, since in waiting:
        if knowledge.graph.holds(drill):
            rung = next_rung(knowledge, drill, since, fits)
            if rung is not None:
                yield rung, drill


def next_rung(knowledge: Knowledge, drill: Drill, since: Date, fits: Fits) -> Drill | None:
    """What to play next on the way to a drill; None where a rung below waits itself.

    since: the day on which the drill was not yet secure.
    """
    easier = easier_neighbours(knowledge, drill)
    if not easier:
        return drill if fits(drill) else None
    if any(knowledge.secured.get(other, since) > since for other in easier):
        return drill if fits(drill) else None
    if any(knowledge.failed.get(other, since) > since for other in easier):
        return None
    return nearest(knowledge, drill, easier, fits)


def nearest(knowledge: Knowledge, drill: Drill, easier: list[Drill], fits: Fits) -> Drill | None:
    """The first rung that fits, looked for from the drill downwards.

    Every rung is easier than the drill and was not itself not yet secure; one that the player
    has not met comes before one that is secure.

    easier: the rungs next to the drill.
    """
    graph = knowledge.graph
    limit = graph.difficulty(drill)
    layer, seen = easier, {drill, *easier}
    for _ in range(LONGEST):
        open_to = [rung for rung in layer if rung not in knowledge.failed and fits(rung)]
        if open_to:
            return next((rung for rung in open_to if rung not in knowledge.secure), open_to[0])
        below = (other for rung in layer for _, other in graph.neighbours(rung))
        found = {other: None for other in below if graph.difficulty(other) < limit}
        layer = [other for other in found if other not in seen]
        seen.update(layer)
    return None


def easier_neighbours(knowledge: Knowledge, drill: Drill) -> list[Drill]:
    """Neighbours with less difficulty, the nearest to the drill first."""
    graph = knowledge.graph
    limit = graph.difficulty(drill)
    found = [other for _, other in graph.neighbours(drill) if graph.difficulty(other) < limit]
    return sorted(found, key=lambda other: -graph.difficulty(other))
