"""One step of the search: the least sums of a column from those of the column beside it."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from math import inf

from bookgen.passage.lattice import WIDTH, Column, Key, Node, Steps
from bookgen.passage.timing import Gap


@dataclass(slots=True)
class Relaxed:
    """The least sums of a column, and the node of the other column by which each is reached."""

    sums: list[float]
    through: list[int]


Entry = tuple[float, int, int, int]
"""A node of the other column: its sum, its index, its share in the numbers of a pair."""

Rank = list[Entry]
"""The nodes of one key, the least sum first."""

Ranks = list[tuple[Key, list[tuple[int, float, Rank]]]]
"""By kind of key: place, least sum and the nodes of each key."""

Order = list[tuple[float, float, bool, Rank]]
"""For a key: the ranks of the other column with the least sum, the way there, and whether the
hand stays, the least sum first."""


@dataclass(frozen=True, slots=True)
class Side:
    """The column whose sums are known, looked at from its neighbour.

    into: the later one of the two. gap: the time between.
    """

    steps: Steps
    column: Column
    into: Column
    gap: Gap

    @property
    def onwards(self) -> bool:
        """Whether it comes after its neighbour."""
        return self.into is self.column

    def ranks(self, values: Sequence[float]) -> Ranks:
        """The nodes of each key that can be reached at all."""
        found: Ranks = []
        bundle = self.column.bundle
        for kind in bundle.kinds:
            ranks = []
            for key in kind:
                rank = sorted(self.entries(bundle.members[key], values))
                if rank:
                    ranks.append((key[0], rank[0][0], rank))
            if ranks:
                found.append((kind[0], ranks))
        return found

    def entries(self, members: Sequence[int], values: Sequence[float]) -> Iterator[Entry]:
        """The nodes of a key with their values."""
        weight = 1 if self.onwards else WIDTH
        for index in members:
            if values[index] < inf:
                pose = self.column.nodes[index].pose
                yield values[index], index, pose.number * weight, pose.layout * weight

    def order(self, key: Key, ranks: Ranks) -> Order:
        """The ranks as they lie from a key of the neighbour."""
        found: Order = []
        place, opened = key[:2]
        for other, entries in ranks:
            before, after = (key, other) if self.onwards else (other, key)
            row = self.steps.ways(before, after, self.gap)
            alike = opened == other[1]
            found += [
                (value + row[place - far], row[place - far], alike and place == far, rank)
                for far, value, rank in entries
            ]
        found.sort()
        return found

    def rest(self, node: Node) -> Callable[[int], float]:
        """What a step from or to a node of the neighbour costs beside the hand's way."""
        nodes, steps, into = self.column.nodes, self.steps, self.into
        if self.onwards:
            return lambda far: steps.rest(node, nodes[far], into)
        return lambda far: steps.rest(nodes[far], node, into)

    def least(self, node: Node, order: Order) -> tuple[float, int]:
        """The least sum over all nodes of this column, and which node has it.

        The nodes are tried in the order of what they cost without the rest of the step. The
        rest is never below 0, so as soon as that is no less than the best sum found, no later
        node can be better: leaving out the others changes nothing.
        """
        if self.into.bound:
            return searched(order, self.rest(node))
        steps, manner = self.steps, self.into.manner
        weight = WIDTH if self.onwards else 1
        number, layout = node.pose.number * weight, node.pose.layout * weight
        stay, turn, rest = steps.changes[manner], steps.turns[manner], self.rest(node)
        best, through = inf, -1
        for bound, way, stays, rank in order:
            if bound >= best:
                break
            for value, index, far_number, far_layout in rank:
                whole = value + way
                if whole >= best:
                    break
                known = stay.get(number + far_number) if stays else turn.get(layout + far_layout)
                whole += rest(index) if known is None else known
                if whole < best:
                    best, through = whole, index
        return best, through


def searched(order: Order, rest: Callable[[int], float]) -> tuple[float, int]:
    """The same, each step worked out by itself."""
    best, through = inf, -1
    for bound, way, _, rank in order:
        if bound >= best:
            break
        for value, index, _, _ in rank:
            if value + way >= best:
                break
            whole = value + way + rest(index)
            if whole < best:
                best, through = whole, index
    return best, through


def back(steps: Steps, column: Column, after: Column, sums: Sequence[float]) -> Relaxed:
    """From each node of a column the least cost of all that follows.

    sums: the same for the nodes of the next column.
    """
    values = [own + later for own, later in zip(after.own, sums, strict=True)]
    side = Side(steps, after, after, steps.tariff.gap(column.event, after.event))
    return relaxed(side, column, values, None)


def ahead(
    steps: Steps, before: Column, column: Column, sums: Sequence[float], allowed: Sequence[bool]
) -> Relaxed:
    """To each allowed node of a column the least cost of all up to it, itself included.

    sums: the same for the nodes of the column before.
    """
    side = Side(steps, before, column, steps.tariff.gap(before.event, column.event))
    found = relaxed(side, column, sums, allowed)
    found.sums = [came + own for came, own in zip(found.sums, column.own, strict=True)]
    return found


def relaxed(
    side: Side, column: Column, values: Sequence[float], allowed: Sequence[bool] | None
) -> Relaxed:
    """The least sums over all nodes of a side, for each node of its neighbour that is allowed."""
    ranks = side.ranks(values)
    nodes = column.nodes
    found = Relaxed([inf] * len(nodes), [-1] * len(nodes))
    for key, members in column.bundle.members.items():
        free = [index for index in members if allowed is None or allowed[index]]
        if free:
            order = side.order(key, ranks)
            for index in free:
                found.sums[index], found.through[index] = side.least(nodes[index], order)
    return found
