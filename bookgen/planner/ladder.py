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


def all_alike(_: Drill) -> tuple[float, ...]:
    """Nothing hangs on one drill more than on another."""
    return ()


def rungs(
    knowledge: Knowledge, fits: Fits, hangs: Callable[[Drill], tuple[float, ...]] = all_alike
) -> Iterator[tuple[Drill, Drill]]:
    """The next rung towards each drill that was not yet secure, and the drill itself.

    Of several the one comes first on which most hangs, then the one that waits longest. Where a
    rung below waits itself, the way leads on down to that one.

    That is an easier neighbour of it; or the drill itself, once such a neighbour has been
    secure since. Where the area has nothing easier the drill itself comes again.

    hangs: the least for the drill on which most hangs.
    """
    failed = [(hangs(drill), since, drill) for drill, since in knowledge.failed.items()]
    for _, since, goal in sorted(failed, key=lambda one: (*one[:2], one[2].key)):
        if knowledge.graph.holds(goal):
            below: Drill | None = goal
            rung = next_rung(knowledge, goal, since, fits)
            while rung is None and below is not None:
                below = waiting_below(knowledge, below)
                if below is not None:
                    rung = next_rung(knowledge, below, knowledge.failed[below], fits)
            if rung is not None:
                yield rung, goal


def waiting_below(knowledge: Knowledge, drill: Drill) -> Drill | None:
    """The hardest rung next to a drill that was not yet secure after it; None where none was."""
    failed, since = knowledge.failed, knowledge.failed[drill]
    found = (other for other in easier_neighbours(knowledge, drill) if other in failed)
    return next((other for other in found if failed[other] > since), None)


def next_rung(knowledge: Knowledge, drill: Drill, since: Date, fits: Fits) -> Drill | None:
    """What to play next on the way to a drill; None where a rung below waits itself.

    No rung is climbed twice: once it was secure the drill itself comes.

    since: the day on which the drill was not yet secure.
    """
    easier = easier_neighbours(knowledge, drill)
    if not easier:
        return drill if fits(drill) else None
    if any(knowledge.secured.get(other, since) > since for other in easier):
        return drill if fits(drill) else None
    if any(knowledge.failed.get(other, since) > since for other in easier):
        return None
    rung = nearest(knowledge, drill, easier, fits)
    climbed = rung is not None and knowledge.secured.get(rung, since) > since
    return (drill if fits(drill) else None) if climbed else rung


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
