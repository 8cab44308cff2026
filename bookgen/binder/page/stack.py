"""Pieces below each other, measured: which of them fill a column."""

from collections.abc import Iterator, Sequence
from math import inf
from typing import Final

from bookgen.binder.page.paper import NoRoomError
from bookgen.binder.page.piece import Opens, Piece, Put

TINY_MM: Final = 1e-6
"""Sums of heights may be off by so much."""

LEVEL_MM: Final = 8.0
"""Columns that differ by less look level (own choice)."""


class Stack:
    """Pieces below each other."""

    def __init__(self, pieces: Sequence[Piece], tallest: float) -> None:
        """Measure the pieces.

        tallest: height of the tallest column, in millimetres.

        Raises:
            NoRoomError: a piece is higher than that.
        """
        self.pieces = pieces
        self.opened = [*(piece.opens is not Opens.NOTHING for piece in pieces), True]
        self.tops = [0.0]
        for piece in pieces:
            self.tops.append(self.tops[-1] + piece.above + piece.height)
        for index, piece in enumerate(pieces):
            if self.height(index, index + 1) > tallest + TINY_MM:
                raise NoRoomError(piece.called, self.height(index, index + 1), tallest)
        self.cuts = self.cuts_of(tallest)

    def height(self, start: int, end: int) -> float:
        """Height of a column with these pieces, in millimetres."""
        if start == len(self.pieces):
            return 0.0
        piece = self.pieces[start]
        again = piece.again.height + piece.above if piece.again and start else 0.0
        return self.tops[end] - self.tops[start] - piece.above + again

    def cuts_of(self, tallest: float) -> list[bool]:
        """Where a column may end; what keeps together is cut only where no column holds it."""
        cuts = [True] * (len(self.pieces) + 1)
        chain = 0
        for index, piece in enumerate(self.pieces[:-1], start=1):
            cuts[index] = (
                self.opened[index]
                or not piece.keeps
                or self.height(chain, index + 1) > tallest + TINY_MM
            )
            if cuts[index]:
                chain = index
        return cuts

    def ends(self, start: int, height: float) -> Iterator[tuple[int, float]]:
        """Where a column that begins with that piece may end, with its height there.

        Where nothing fits, or nothing is left, it stays empty.
        """
        stays, over = True, self.tops[start] - self.height(start, start)
        for end in range(start + 1, len(self.pieces) + 1):
            filled = self.tops[end] - over
            if filled > height + TINY_MM:
                break
            if self.cuts[end]:
                yield end, filled
                stays = False
            if self.opened[end]:
                break
        if stays:
            yield start, 0.0

    def level(self, start: int, columns: int, height: float) -> list[int]:
        """Where columns of that height end that hold all from a piece on, the tallest one low.

        Of those that are about as low, the first ones are fuller. All of it fits.
        """
        return self.lowest(start, columns, height)[1]

    def lowest(self, start: int, columns: int, height: float) -> tuple[float, list[int]]:
        """How high the tallest of these columns is, and where they end; infinite where none fit."""
        if start == len(self.pieces):
            return 0.0, []
        if not columns:
            return inf, []
        ways = [
            (max(filled, rest), [end, *ends])
            for end, filled in self.ends(start, height)
            for rest, ends in [self.lowest(end, columns - 1, height)]
        ]
        least = min(tallest for tallest, _ in ways)
        return next(way for way in reversed(ways) if way[0] <= least + LEVEL_MM)

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
