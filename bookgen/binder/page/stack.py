"""Pieces below each other, measured; which of them fill a column, and what that costs."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from bookgen.binder.page.paper import NoRoomError
from bookgen.binder.page.piece import Costs, Opens, Piece, Put

TINY_MM: Final = 1e-6
"""Sums of heights may be off by so much."""


@dataclass(frozen=True, slots=True)
class Space:
    """An empty column.

    height: in millimetres; tied: times what the piece is tied that begins it.
    """

    height: float
    tied: float


class Stack:
    """Pieces below each other."""

    def __init__(self, pieces: Sequence[Piece], tallest: float) -> None:
        """Measure the pieces.

        tallest: height of the tallest column, in millimetres.

        Raises:
            NoRoomError: a piece is higher than that.
        """
        self.pieces = pieces
        self.tops = [0.0]
        for piece in pieces:
            self.tops.append(self.tops[-1] + piece.above + piece.height)
        for index, piece in enumerate(pieces):
            if self.height(index, index + 1) > tallest + TINY_MM:
                raise NoRoomError(piece.called, self.height(index, index + 1), tallest)
        self.cuts = self.cuts_of(tallest)

    def height(self, start: int, end: int) -> float:
        """Height of a column with these pieces, in millimetres."""
        piece = self.pieces[start]
        again = piece.again.height + piece.above if piece.again and start else 0.0
        return self.tops[end] - self.tops[start] - piece.above + again

    def cuts_of(self, tallest: float) -> list[bool]:
        """Where a column may end; what keeps together is cut only where no column holds it."""
        cuts = [True] * (len(self.pieces) + 1)
        chain = 0
        for index, piece in enumerate(self.pieces[:-1], start=1):
            apart = self.pieces[index].opens is not Opens.NOTHING
            cuts[index] = (
                apart or not piece.keeps or self.height(chain, index + 1) > tallest + TINY_MM
            )
            if cuts[index]:
                chain = index
        return cuts

    def ends(self, start: int, height: float) -> Iterator[int]:
        """Where a column that begins with that piece may end."""
        for end in range(start + 1, len(self.pieces) + 1):
            if self.height(start, end) > height + TINY_MM:
                return
            if self.cuts[end]:
                yield end
            if end < len(self.pieces) and self.pieces[end].opens is not Opens.NOTHING:
                return

    def furthest(self, start: int, height: float) -> int:
        """How far a column reaches; nothing may fit at all."""
        return max(self.ends(start, height), default=start)

    def nearest(self, end: int, height: float) -> int:
        """The first piece with which a column may begin that reaches an end."""
        start = end
        while start and self.tops[end] - self.tops[start - 1] - self.pieces[start - 1].above <= (
            height + TINY_MM
        ):
            start -= 1
        return start

    def column(self, start: int, end: int, height: float) -> tuple[Put, ...]:
        """Pieces in a column of that height; what is spare is shared out."""
        if start == end:
            return ()
        extras = shared(
            height - self.height(start, end), [piece.most_extra for piece in self.pieces[start:end]]
        )
        puts: list[Put] = []
        down = 0.0
        again = self.pieces[start].again
        if again and start:
            puts.append(Put(again, 0.0, 0.0))
            down = again.height
        for piece, extra in zip(self.pieces[start:end], extras, strict=True):
            down += piece.above if puts else 0.0
            puts.append(Put(piece, down, extra))
            down += piece.height + extra
        return tuple(puts)


def shared(spare: float, most: Sequence[float]) -> list[float]:
    """Spare room for each piece: the same for all, but for none more than its most.

    >>> shared(12.0, [2.0, 8.0, 8.0, 0.0])
    [2.0, 5.0, 5.0, 0.0]
    """
    found = [0.0] * len(most)
    for left, index in enumerate(sorted(range(len(most)), key=most.__getitem__)):
        found[index] = min(most[index], max(spare, 0.0) / (len(most) - left))
        spare -= found[index]
    return found


@dataclass(frozen=True, slots=True)
class Way:
    """Columns filled so far: what they cost, where the last one ends, the way before it."""

    cost: float
    end: int
    before: "Way | None" = None


def cheapest(stack: Stack, spaces: Sequence[Space], costs: Costs) -> list[int] | None:
    """Where each column ends in the cheapest way to fill them; None where they do not suffice.

    Of ways that cost the same the one with fuller columns first. A column is left empty only
    where nothing fits.
    """
    goal = len(stack.pieces)
    least = [goal]
    for space in reversed(spaces):
        least.append(stack.nearest(least[-1], space.height))
    ways = {0: Way(0.0, 0)}
    for space, low in zip(spaces, reversed(least[:-1]), strict=True):
        longer: dict[int, Way] = {}
        for start in sorted(ways, reverse=True):
            way = ways[start]
            tied = space.tied * stack.pieces[start].tied if 0 < start < goal else 0.0
            for end in [*stack.ends(start, space.height)] or [start]:
                if end < low:
                    continue
                empty = 1 - stack.height(start, end) / space.height if end > start else 1.0
                even = costs.even * (costs.end if end == goal else 1.0)
                cost = way.cost + even * empty**2 + tied
                if end not in longer or cost < longer[end].cost:
                    longer[end] = Way(cost, end, way)
        ways = longer
    return ends_of(ways.get(goal))


def ends_of(way: Way | None) -> list[int] | None:
    """Where each column of a way ends."""
    if way is None:
        return None
    found: list[int] = []
    while way.before is not None:
        found.append(way.end)
        way = way.before
    return found[::-1]
