"""The order of a day's drills: what links need, and no two near-twins while both are new."""

from collections.abc import Collection, Sequence
from dataclasses import replace
from functools import partial

from bookgen.model.drill import Drill
from bookgen.plan.document import Role
from bookgen.planner.knowledge import Knowledge
from bookgen.planner.outline import Pick
from bookgen.planner.sparing import comes_after

HEAD = frozenset({Role.START, Role.COLD})
"""What a day begins with; it stays where it is."""


def arranged(picks: Sequence[Pick], knowledge: Knowledge) -> list[Pick]:
    """Put a day in order; where it would end with two near-twins, another drill goes to its end.

    That is tried with each drill in turn; if none parts the two they stay.

    picks: in an order in which every drill's link and stage before are there.
    """
    waits, graph = waiting(picks, knowledge), knowledge.graph
    done = [pick for pick in picks if pick.role in HEAD]
    rest = [pick for pick in picks if pick.role not in HEAD]
    while rest:
        open_to = [pick for pick in rest if ready(pick, done, knowledge, waits)]
        kept = last_known(rest)
        restful = [one for one in open_to if comes_after(one.drill, done[-1].drill, graph)]
        pick = min(restful or open_to, key=partial(rank, last=done[-1], kept=kept))
        done.append(pick)
        rest.remove(pick)
    return as_they_stand(spaced(mended(done, knowledge, waits), knowledge), knowledge)


def spaced(picks: list[Pick], knowledge: Knowledge) -> list[Pick]:
    """The order itself; a drill is left out that would tire the hand just after another one.

    What hung on it alone is left out too.
    """
    kept, whole = picks[:1], True
    for pick in picks[1:]:
        stands = whole or pick.role in HEAD or ready(pick, kept, knowledge, ())
        if stands and comes_after(pick.drill, kept[-1].drill, knowledge.graph):
            kept.append(pick)
        else:
            whole = False
    return kept


def waiting(picks: Sequence[Pick], knowledge: Knowledge) -> frozenset[Drill]:
    """Drills whose moves others bring: variants, and what has none of its own as it was chosen."""
    return frozenset(
        pick.drill
        for index, pick in enumerate(picks)
        if pick.role is Role.OTHER_WAY or not brings(pick, picks[:index], knowledge)
    )


def ready(
    pick: Pick, before: Sequence[Pick], knowledge: Knowledge, waits: Collection[Drill]
) -> bool:
    """Whether a drill's link and its stage before are secure or stand before it.

    waits: drills that wait for those that bring their moves.
    """
    secure, graph = knowledge.secure, knowledge.graph
    gate, neighbours = graph.gate(pick.drill), graph.neighbours(pick.drill)
    gated = gate is not None and gate not in secure
    loose = not any(other in secure for _, other in neighbours)
    if gated or loose:
        here = {other.drill for other in before}
        if gated and gate not in here:
            return False
        if loose and not any(other in here for _, other in neighbours):
            return False
    return pick.drill not in waits or not brings(pick, before, knowledge)


def brings(pick: Pick, before: Sequence[Pick], knowledge: Knowledge) -> bool:
    """Whether a drill has a move that neither the player nor the day before it has met."""
    moves = knowledge.graph.moves
    here = [moves(other.drill) for other in before]
    return bool(moves(pick.drill).difference(knowledge.covered, *here))


def as_they_stand(picks: Sequence[Pick], knowledge: Knowledge) -> list[Pick]:
    """New drills whose moves all come before them in this order are variants after all."""
    return [
        replace(pick, role=Role.OTHER_WAY)
        if pick.role is Role.NEW and not brings(pick, picks[:index], knowledge)
        else pick
        for index, pick in enumerate(picks)
    ]


def last_known(rest: Sequence[Pick]) -> Pick | None:
    """The one known drill that is left among others, to be kept for the end; None if none is."""
    known = [pick for pick in rest if not pick.role.first_time]
    return known[0] if len(known) == 1 and len(rest) > 1 else None


def rank(pick: Pick, last: Pick, kept: Pick | None) -> tuple[bool, bool, int]:
    """How well a drill comes next: ladders first, first times and known ones by turns.

    last: the drill before it; kept: the known one that is kept for the end.
    """
    twins = near_twins(last, pick)
    same_sort = last.role.first_time == pick.role.first_time
    return pick.role is not Role.STEP_BACK, twins or pick == kept, int(same_sort)


def near_twins(one: Pick, other: Pick) -> bool:
    """Two drills are both played for the first time and differ in one thing only."""
    both = one.role.first_time and other.role.first_time
    return both and len(one.drill.changes_to(other.drill)) == 1


def ends_in_twins(picks: Sequence[Pick]) -> bool:
    """The last two drills of a day are near-twins."""
    return len(picks) > 1 and near_twins(picks[-2], picks[-1])


def mended(picks: list[Pick], knowledge: Knowledge, waits: Collection[Drill]) -> list[Pick]:
    """The order itself, or one with another drill at its end if that parts two near-twins."""
    if not ends_in_twins(picks):
        return picks
    for index in range(len(picks) - 2, -1, -1):
        if picks[index].role in HEAD:
            break
        other = [*picks[:index], *picks[index + 1 :], picks[index]]
        if not ends_in_twins(other) and in_order(other, knowledge, waits):
            return other
    return picks


def in_order(picks: Sequence[Pick], knowledge: Knowledge, waits: Collection[Drill]) -> bool:
    """Every drill after the head has its link and its stage before."""
    return all(
        pick.role in HEAD or ready(pick, picks[:index], knowledge, waits)
        for index, pick in enumerate(picks)
    )
