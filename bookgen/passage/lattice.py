"""All poses of a phrase in their columns, and the exact cost of going from one to the next."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, field
from math import inf
from typing import Final

from bookgen.passage.cost import Tariff
from bookgen.passage.event import Event
from bookgen.passage.placement import Pose
from bookgen.passage.timing import Gap, Leap, Manner

NOWHERE: Final = 0
"""The place of a hand that has not stopped a note yet."""

WIDTH: Final = 1 << 20
"""More poses than any phrase has: two numbers of poses make one number."""

Tie = tuple[int, int]
"""A note held over: its index in the pose before and in this one."""

Key = tuple[int, bool, bool, bool]
"""All that the hand's way depends on: its place, only open, a harmonic, two or more fingers."""


Kind = tuple[Gap, Leap, bool, bool]
"""A kind of step: its time, how it is made, onto open strings, from nowhere."""


@dataclass(frozen=True, slots=True, eq=False)
class Node:
    """A pose at an event, with the place where the hand is.

    place: the pose's; where only open strings sound, the one at which the hand was last.
    """

    pose: Pose
    place: int

    @property
    def key(self) -> Key:
        """What the hand's way depends on."""
        pose = self.pose
        return self.place, not pose.place, bool(pose.touched), len(pose.stopped) > 1


@dataclass(frozen=True, slots=True, eq=False)
class Bundle:
    """The nodes of a sound; those with the same key together.

    members: indexes into the nodes, by key. kinds: the keys that differ in their place alone
        together, without those from nowhere.
    """

    nodes: tuple[Node, ...]
    members: dict[Key, tuple[int, ...]]
    kinds: tuple[tuple[Key, ...], ...]

    @classmethod
    def of(cls, nodes: tuple[Node, ...]) -> "Bundle":
        """Sort nodes by their keys."""
        found: dict[Key, list[int]] = {}
        for index, node in enumerate(nodes):
            found.setdefault(node.key, []).append(index)
        kinds: dict[tuple[bool, ...], list[Key]] = {}
        for key in found:
            kinds.setdefault((key[0] == NOWHERE, *key[1:]), []).append(key)
        members = {key: tuple(members) for key, members in found.items()}
        return cls(nodes, members, tuple(map(tuple, kinds.values())))


@dataclass(frozen=True, slots=True)
class Column:
    """All nodes of an event.

    own: what each node costs by itself. ties: notes held over from the column before.
    manner: how it comes after the column before.
    kept: the hand may not move from the column before.
    """

    event: Event
    bundle: Bundle
    own: tuple[float, ...]
    ties: tuple[Tie, ...]
    manner: Manner
    kept: bool = False

    @property
    def bound(self) -> bool:
        """Not every step into it is allowed."""
        return self.kept or bool(self.ties)

    @property
    def nodes(self) -> tuple[Node, ...]:
        """The nodes in their order."""
        return self.bundle.nodes


@dataclass(slots=True)
class Steps:
    """What it costs to go from any node of one column to any node of the next.

    A step is the hand's way along the string, which depends on the two keys alone, and the
    change of fingers and strings, which depends on the poses where the hand keeps its place and
    on their stops alone where it does not.
    """

    tariff: Tariff
    changes: dict[Manner, dict[int, float]] = field(default_factory=lambda: defaultdict(dict))
    turns: dict[Manner, dict[int, float]] = field(default_factory=lambda: defaultdict(dict))
    rows: dict[Kind, Sequence[float]] = field(default_factory=dict)

    def change(self, one: Pose, other: Pose, manner: Manner) -> float:
        """What fingers and bow cost between two poses; looked up once for each pair."""
        stays = one.place == other.place
        known = (self.changes if stays else self.turns)[manner]
        key = pair_of(one, other, stays=stays)
        found = known.get(key)
        if found is None:
            found = self.tariff.total(self.tariff.change(one, other, manner, stays=stays))
            known[key] = found
        return found

    def way(self, before: Key, after: Key, gap: Gap) -> float:
        """What the hand's way along the string costs; infinite where there is none.

        gap: the time between.
        """
        return self.ways(before, after, gap)[before[0] - after[0]]

    def ways(self, before: Key, after: Key, gap: Gap) -> Sequence[float]:
        """The same for every difference of the places, negative ones counted from the end.

        While only open strings sound the hand stays at its place in the books: its way is
        counted where it arrives. A hand that has not stopped a note yet may be anywhere.
        """
        place, free, touched, _ = before
        _, only_open, reached, many = after
        kind = (gap, Leap(free, touched or reached, many), only_open, place == NOWHERE)
        found = self.rows.get(kind)
        if found is None:
            found = self.row(kind)
            self.rows[kind] = found
        return found

    def row(self, kind: Kind) -> Sequence[float]:
        """The ways for one kind of step, found out."""
        gap, leap, stays, anywhere = kind
        highest = self.tariff.shape.highest
        if stays:
            return [0.0] + [inf] * (2 * highest)
        if anywhere:
            return [0.0] * (2 * highest + 1)
        up = [self.tariff.shift(way, gap, leap) for way in range(highest + 1)]
        return up + up[:0:-1]

    def held(self, before: Pose, after: Pose, ties: Sequence[Tie]) -> bool:
        """Whether every tied note keeps its stop, and the hand that holds it its place."""
        for early, late in ties:
            stop = after.stops[late]
            if before.stops[early] != stop:
                return False
            if stop.finger and not self.stays(before, after):
                return False
        return True

    def stays(self, before: Pose, after: Pose) -> bool:
        """Whether the hand is not moved between two poses."""
        shape = self.tariff.shape
        return before.place == after.place and shape.stays(before.stopped, after.stopped)

    def step(self, before: tuple[Column, Node], after: tuple[Column, Node]) -> float:
        """What a single step costs; infinite where it breaks a tie or leaves a kept hand."""
        (came, node), (column, other) = before, after
        gap = self.tariff.gap(came.event, column.event)
        return self.way(node.key, other.key, gap) + self.rest(node, other, column)

    def rest(self, before: Node, after: Node, column: Column) -> float:
        """What a step into a column costs beside the hand's way; infinite where it may not be."""
        if column.ties and not self.held(before.pose, after.pose, column.ties):
            return inf
        if column.kept and not self.keeps(before, after):
            return inf
        return self.change(before.pose, after.pose, column.manner)

    def keeps(self, before: Node, after: Node) -> bool:
        """Whether the hand stays where it is, also while only an open string sounds."""
        if NOWHERE not in {before.place, after.place} and before.place != after.place:
            return False
        stopped = before.pose.place and after.pose.place
        return not stopped or self.stays(before.pose, after.pose)


def pair_of(one: Pose, other: Pose, *, stays: bool) -> int:
    """One number for two poses, or for their stops alone where the hand does not stay."""
    if stays:
        return one.number * WIDTH + other.number
    return one.layout * WIDTH + other.layout
