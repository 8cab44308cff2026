"""The cheapest way that is really different from the best one, by exact dynamic programming."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from math import inf
from typing import Final

from bookgen.passage.cheapest import Searched, Way
from bookgen.passage.lattice import Column, Node, Steps
from bookgen.passage.relax import Relaxed, ahead

ROUNDING: Final = 1e-9
"""Sums of the same amounts in another order differ by less."""


@dataclass(frozen=True, slots=True)
class Window:
    """Columns in which another way has to differ: first and last, both included."""

    first: int
    last: int


def differs(node: Node, best: Node) -> bool:
    """Whether the hand lies elsewhere than in the best way, with another stop."""
    return node.place != best.place and node.pose.layout != best.pose.layout


def choices(column: Column, best: Node) -> list[bool]:
    """Which nodes of a column another way may take inside its window.

    All of them where the best way plays open strings alone, or where nothing differs: given
    marks and the ends of the instrument can leave a note no other stop.
    """
    free = [bool(best.pose.place) and differs(node, best) for node in column.nodes]
    return free if any(free) else [True] * len(free)


def elsewhere(steps: Steps, searched: Searched, best: Way, windows: Sequence[Window]) -> Way | None:
    """The cheapest way that differs from the best one in all columns of one window or more.

    What is to come after a window is known from the search. What comes before it is first taken
    from the best way: that gives a way that differs, and so a limit. Then one pass from the
    beginning finds the least cost up to every node that a way within the limit can touch, and
    the windows are tried again. The windows do not overlap, so each pass goes once over the
    columns.
    """
    quest = Quest(steps, searched, best)
    quest.sweep(windows, along(searched, best))
    quest.sweep(windows, quest.reached())
    return quest.way


@dataclass(slots=True)
class Quest:
    """The search for another way: what is found so far, and its cost as the limit.

    A node is passed over where the least cost before it, its own and the least of all that
    follows are together above the limit: no way through it can be better than the one at hand.
    """

    steps: Steps
    searched: Searched
    best: Way
    limit: float = inf
    way: Way | None = field(default=None)

    def sweep(self, windows: Sequence[Window], before: Sequence[Relaxed]) -> None:
        """Try every window.

        before: by column, the least cost up to each node.
        """
        for window in windows:
            inside = self.apart(window, before)
            later = self.searched.later[window.last].sums
            sums = [came + rest for came, rest in zip(inside[-1].sums, later, strict=True)]
            if min(sums) < self.limit:
                self.limit = min(sums)
                self.way = self.joined(before, window, inside, sums.index(self.limit))

    def reached(self) -> list[Relaxed]:
        """The least cost up to every node within the limit, from the beginning on."""
        columns = self.searched.columns
        before = [beginning(columns[0], self.within(0, 0.0))]
        for index in range(1, len(columns)):
            before.append(self.onto(index, before[-1], [True] * len(columns[index].nodes)))
        return before

    def apart(self, window: Window, before: Sequence[Relaxed]) -> list[Relaxed]:
        """The least cost up to each node inside a window, all of which differ."""
        inside: list[Relaxed] = []
        for index in range(window.first, window.last + 1):
            free = choices(self.searched.columns[index], self.best[index])
            if index:
                inside.append(self.onto(index, inside[-1] if inside else before[index - 1], free))
            else:
                inside.append(beginning(self.searched.columns[0], free))
        return inside

    def onto(self, index: int, came: Relaxed, free: Sequence[bool]) -> Relaxed:
        """One step onto the free nodes of a column that lie within the limit."""
        columns = self.searched.columns
        within = self.within(index, min(came.sums))
        allowed = [one and other for one, other in zip(free, within, strict=True)]
        return ahead(self.steps, columns[index - 1], columns[index], came.sums, allowed)

    def within(self, index: int, floor: float) -> list[bool]:
        """Which nodes of a column a way within the limit can touch.

        floor: the least cost of all that comes before the column.
        """
        own, later = self.searched.columns[index].own, self.searched.later[index].sums
        most = self.limit + ROUNDING - floor
        return [one + rest <= most for one, rest in zip(own, later, strict=True)]

    def joined(
        self, before: Sequence[Relaxed], window: Window, inside: Sequence[Relaxed], node: int
    ) -> Way:
        """The way through a window, ending there at a node, with all before and after it."""
        after = self.searched.onwards(window.last, node)[1:]
        way: list[Node] = []
        for index in range(window.last, -1, -1):
            relaxed = inside[index - window.first] if index >= window.first else before[index]
            way.append(self.searched.columns[index].nodes[node])
            node = relaxed.through[node]
        return (*reversed(way), *after)


def beginning(column: Column, free: Sequence[bool]) -> Relaxed:
    """The free nodes of the first column."""
    sums = [own if one else inf for own, one in zip(column.own, free, strict=True)]
    return Relaxed(sums, [-1] * len(sums))


def along(searched: Searched, best: Way) -> list[Relaxed]:
    """The cost up to each node of the best way alone."""
    found: list[Relaxed] = []
    through = -1
    whole = 0.0
    for column, later, node in zip(searched.columns, searched.later, best, strict=True):
        index = column.nodes.index(node)
        whole = whole or column.own[index] + later.sums[index]
        relaxed = Relaxed([inf] * len(column.nodes), [-1] * len(column.nodes))
        relaxed.sums[index], relaxed.through[index] = whole - later.sums[index], through
        found.append(relaxed)
        through = index
    return found
