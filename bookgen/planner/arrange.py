"""The order of a day's drills: what links need, and no two near-twins while both are new."""

from collections.abc import Sequence
from dataclasses import replace
from functools import partial

from bookgen.plan.document import Kind
from bookgen.planner.knowledge import Knowledge
from bookgen.planner.outline import Item

HEAD = frozenset({Kind.OPENING, Kind.TEST})
"""What a day begins with; it stays where it is."""


def arranged(items: Sequence[Item], knowledge: Knowledge) -> list[Item]:
    """Put a day in order; where it would end with two near-twins, another drill goes to its end.

    That is tried with each drill in turn; if none parts the two they stay.

    items: in an order in which every drill's link and stage before are there.
    """
    done = [item for item in items if item.kind in HEAD]
    rest = [item for item in items if item.kind not in HEAD]
    while rest:
        open_to = [item for item in rest if ready(item, done, knowledge)]
        kept = last_known(rest)
        item = min(open_to, key=partial(rank, last=done[-1], kept=kept))
        done.append(item)
        rest.remove(item)
    return as_they_stand(mended(done, knowledge), knowledge)


def ready(item: Item, before: Sequence[Item], knowledge: Knowledge) -> bool:
    """Whether a drill's link and its stage before are secure or stand before it.

    A variant waits for the drills that bring its moves.
    """
    secure, graph = knowledge.secure, knowledge.graph
    gate, neighbours = graph.gate(item.drill), graph.neighbours(item.drill)
    waits = gate is not None and gate not in secure
    loose = not any(other in secure for _, other in neighbours)
    if waits or loose:
        here = {other.drill for other in before}
        if waits and gate not in here:
            return False
        if loose and not any(other in here for _, other in neighbours):
            return False
    return item.kind is not Kind.VARIANT or not brings(item, before, knowledge)


def brings(item: Item, before: Sequence[Item], knowledge: Knowledge) -> bool:
    """Whether a drill has a move that neither the player nor the day before it has met."""
    moves = knowledge.graph.moves
    here = [moves(other.drill) for other in before]
    return bool(moves(item.drill).difference(knowledge.covered, *here))


def as_they_stand(items: Sequence[Item], knowledge: Knowledge) -> list[Item]:
    """New drills whose moves all come before them in this order are variants after all."""
    return [
        replace(item, kind=Kind.VARIANT)
        if item.kind is Kind.NEW and not brings(item, items[:index], knowledge)
        else item
        for index, item in enumerate(items)
    ]


def last_known(rest: Sequence[Item]) -> Item | None:
    """The one known drill that is left among others, to be kept for the end; None if none is."""
    known = [item for item in rest if not item.kind.first_time]
    return known[0] if len(known) == 1 and len(rest) > 1 else None


def rank(item: Item, last: Item, kept: Item | None) -> tuple[bool, bool, int]:
    """How well a drill comes next: ladders first, first times and known ones by turns.

    last: the drill before it; kept: the known one that is kept for the end.
    """
    twins = near_twins(last, item)
    same_sort = last.kind.first_time == item.kind.first_time
    return item.kind is not Kind.LADDER, twins or item == kept, int(same_sort)


def near_twins(one: Item, other: Item) -> bool:
    """Two drills are both played for the first time and differ in one thing only."""
    both = one.kind.first_time and other.kind.first_time
    return both and len(one.drill.changes_to(other.drill)) == 1


def ends_in_twins(items: Sequence[Item]) -> bool:
    """The last two drills of a day are near-twins."""
    return len(items) > 1 and near_twins(items[-2], items[-1])


def mended(items: list[Item], knowledge: Knowledge) -> list[Item]:
    """The order itself, or one with another drill at its end if that parts two near-twins."""
    if not ends_in_twins(items):
        return items
    for index in range(len(items) - 2, -1, -1):
        if items[index].kind in HEAD:
            break
        other = [*items[:index], *items[index + 1 :], items[index]]
        if not ends_in_twins(other) and in_order(other, knowledge):
            return other
    return items


def in_order(items: Sequence[Item], knowledge: Knowledge) -> bool:
    """Every drill after the head has its link and its stage before."""
    return all(
        item.kind in HEAD or ready(item, items[:index], knowledge)
        for index, item in enumerate(items)
    )
