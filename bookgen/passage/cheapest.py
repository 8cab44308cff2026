"""The cheapest way through the columns of a phrase, by exact dynamic programming."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import inf

from bookgen.passage.lattice import Column, Node, Steps
from bookgen.passage.relax import Relaxed, back

Way = tuple[Node, ...]
"""One node for each column."""


@dataclass(slots=True)
class Searched:
    """What the search from the end of a phrase has found.

    later: by column and node, the least cost of all columns after it and the next node.
    broken: indexes of columns whose ties no hand can hold, or which no hand can reach without
        moving where the player wants it kept; they were searched without.
    """

    columns: list[Column]
    later: list[Relaxed]
    broken: list[int]

    @property
    def sums(self) -> list[float]:
        """The least cost of a way from each node of the first column."""
        return [
            own + later for own, later in zip(self.columns[0].own, self.later[0].sums, strict=True)
        ]

    @property
    def least(self) -> float:
        """The cost of the cheapest way."""
        return min(self.sums)

    def best(self) -> Way:
        """The cheapest way; of equal ones the one whose nodes come first."""
        return self.onwards(0, self.sums.index(self.least))

    def onwards(self, index: int, node: int) -> Way:
        """The cheapest way from a node to the end."""
        way: list[Node] = []
        while index < len(self.columns):
            way.append(self.columns[index].nodes[node])
            node = self.later[index].through[node]
            index += 1
        return tuple(way)


def search(steps: Steps, columns: Sequence[Column]) -> Searched:
    """Find the least cost from every node to the end.

    The cost of a way is the sum of its nodes and steps, so what follows a node does not depend
    on what came before it (Bellman's principle): one pass over the columns is exact. Where no
    node of a column can hold the ties into the next one, or keep the hand, that is given up: the
    hand first, then the ties.
    """
    known = list(columns)
    broken: list[int] = []
    last = Relaxed([0.0] * len(known[-1].nodes), [-1] * len(known[-1].nodes))
    later = [last]
    for index in range(len(known) - 2, -1, -1):
        column, after = known[index], known[index + 1]
        found = back(steps, column, after, later[-1].sums)
        if min(found.sums) == inf and after.bound:
            for freer in (replace(after, kept=False), replace(after, kept=False, ties=())):
                after = freer
                found = back(steps, column, after, later[-1].sums)
                if min(found.sums) < inf:
                    break
            known[index + 1] = after
            broken.append(index + 1)
        later.append(found)
    return Searched(known, later[::-1], broken[::-1])


def cost_of(steps: Steps, columns: Sequence[Column], way: Way) -> float:
    """The cost of a way, added up by itself."""
    whole = sum(
        column.own[column.nodes.index(node)] for column, node in zip(columns, way, strict=True)
    )
    taken = zip(columns, way, strict=True)
    return whole + sum(steps.step(before, after) for before, after in pairwise(taken))
