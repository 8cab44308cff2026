"""How new drills of several lengths share their minutes so that they bring the most moves."""

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, order=True)
class Sort:
    """Drills of one length that all lay a new hand, or all a known one."""

    minutes: float
    new_hand: bool


@dataclass(frozen=True, slots=True)
class Room:
    """What is left of a day for new drills: minutes, and hands that may be new."""

    minutes: float
    hands: int

    def without(self, sort: Sort, count: int) -> "Room":
        """What that many drills leave."""
        hands = self.hands - count * sort.new_hand
        return Room(self.minutes - count * sort.minutes, hands)

    def most(self, sort: Sort) -> int:
        """How many drills of a sort there is room for."""
        fit = int(self.minutes // sort.minutes)
        return max(min(fit, self.hands) if sort.new_hand else fit, 0)


def best_mix(offers: Sequence[tuple[Sort, int]], room: Room) -> tuple[Sort, int] | None:
    """Which sort of drill to take first, and the moves that the best of it brings.

    It is the best drill in the mix that brings the most moves within the room, as if no two
    drills shared any; None where nothing fits.

    offers: sort and moves of each drill.

    >>> four, three = Sort(2.0, new_hand=True), Sort(1.5, new_hand=False)
    >>> best_mix([(four, 14), (four, 14), (three, 6)], Room(4.0, 1))
    (Sort(minutes=2.0, new_hand=True), 14)
    """
    gains: dict[Sort, list[int]] = {}
    for sort, gain in offers:
        gains.setdefault(sort, []).append(gain)
    for found in gains.values():
        found.sort(reverse=True)
    sorts = sorted(gains)
    _, counts = most_moves(sorts, [gains[sort] for sort in sorts], room)
    taken = [(gains[sort][0], sort) for sort, count in zip(sorts, counts, strict=True) if count]
    if not taken:
        return None
    gain, sort = max(taken)
    return sort, gain


def most_moves(
    sorts: Sequence[Sort], gains: Sequence[Sequence[int]], room: Room
) -> tuple[int, tuple[int, ...]]:
    """The most moves within the room, and how many drills of each sort bring them.

    gains: moves of the drills of each sort, falling.
    """
    if not sorts:
        return 0, ()
    found = []
    for count in range(min(room.most(sorts[0]), len(gains[0])) + 1):
        rest, counts = most_moves(sorts[1:], gains[1:], room.without(sorts[0], count))
        found.append((sum(gains[0][:count]) + rest, (count, *counts)))
    return max(found)
