"""Where the pages of a week end: as few as can be, and each day where it is best played from."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from bookgen.binder.layout import NoRoomError


@dataclass(frozen=True, slots=True)
class Piece:
    """A drill's block on its way to a page.

    height: in millimetres; opens: it is the first of its day.
    """

    height: float
    opens: bool


@dataclass(frozen=True, slots=True)
class Run:
    """The pages that a week may take.

    room: height of a page; gap: between two blocks; bar: a day's heading, all in millimetres.
    verso: the first page is a left-hand one.
    """

    room: float
    gap: float
    bar: float
    verso: bool


Cost = tuple[int, int, int, float]
"""Pages; days that go on overleaf; days that begin below another; unevenness."""


@dataclass(frozen=True, slots=True)
class Way:
    """Counts of blocks on the pages so far, and what they cost."""

    cost: Cost
    counts: tuple[int, ...]


def run_on(pieces: Sequence[Piece], run: Run) -> list[int]:
    """How many blocks each page takes, in their order.

    The fewest pages; among these the fewest days for which a page must be turned; then the
    most days that begin a page; then the most even pages.

    Raises:
        NoRoomError: a block is higher than its page.
    """
    best: dict[tuple[int, bool], Way] = {(0, run.verso): Way((0, 0, 0, 0.0), ())}
    for start in range(len(pieces)):
        for verso in (False, True):
            way = best.get((start, verso))
            if way is None:
                continue
            for end, spare in ends(pieces, start, run):
                cost = added(way.cost, cost_of(pieces, (start, end), spare, verso=verso))
                found = Way(cost, (*way.counts, end - start))
                key = (end, not verso)
                if key not in best or found.cost < best[key].cost:
                    best[key] = found
    last = [best[len(pieces), side] for side in (False, True) if (len(pieces), side) in best]
    if not last:
        highest = max(piece.height + run.bar * piece.opens for piece in pieces)
        msg = f"the highest drill, {highest:.0f} mm, does not fit on a page of {run.room:.0f} mm"
        raise NoRoomError(msg)
    return list(min(last, key=lambda way: way.cost).counts)


def ends(pieces: Sequence[Piece], start: int, run: Run) -> Iterator[tuple[int, float]]:
    """Where a page that begins with that block may end, and what it leaves empty."""
    used = -run.gap
    for end in range(start + 1, len(pieces) + 1):
        piece = pieces[end - 1]
        used += piece.height + run.gap + run.bar * piece.opens
        if used > run.room:
            return
        yield end, run.room - used


def cost_of(pieces: Sequence[Piece], page: tuple[int, int], spare: float, *, verso: bool) -> Cost:
    """What one page costs."""
    start, end = page
    overleaf = not verso and end < len(pieces) and not pieces[end].opens
    middle = sum(piece.opens for piece in pieces[start + 1 : end])
    return (1, int(overleaf), middle, spare**2)


def added(one: Cost, other: Cost) -> Cost:
    """Two costs together."""
    return (one[0] + other[0], one[1] + other[1], one[2] + other[2], one[3] + other[3])
