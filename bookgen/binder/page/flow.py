"""Where pieces stand on pages: the one way in which books are filled.

Pieces stand below each other in columns, which are read downwards. The fewest pages are taken,
or more where these cost less than what they save; among these the way that costs least, where
uneven columns cost and so do columns that begin with a piece that is tied to the one before.
"""

from collections.abc import Callable, Iterator, Sequence
from itertools import count, islice, pairwise

from bookgen.binder.page.breaks import PROBED, cheapest
from bookgen.binder.page.piece import (
    EVEN,
    FULL,
    Costs,
    Mark,
    Opens,
    Page,
    Piece,
    Put,
    Room,
    Slot,
)
from bookgen.binder.page.stack import Stack

__all__ = [
    "EVEN",
    "FULL",
    "Costs",
    "Mark",
    "Opens",
    "Page",
    "Piece",
    "Put",
    "Room",
    "Slot",
    "flow",
]


def flow(
    pieces: Sequence[Piece], room: Callable[[int], Room], costs: Costs = EVEN, *, first: int = 0
) -> list[Page]:
    """Fill pages.

    A piece that opens a page begins anew: what stands before it takes its fewest pages.

    room: of a page by its number in this flow, from 0.
    first: number of the first page in the book, from 0; even ones are right-hand pages.

    Raises:
        NoRoomError: a piece is higher than a page.
    """
    pages: list[Page] = []
    for part in parts_of(pieces):
        if part[0].opens is Opens.RIGHT and (first + len(pages)) % 2:
            pages.append(Page(room(len(pages))))
        pages += part_on_pages(part, room, costs, first, len(pages))
    return pages


def parts_of(pieces: Sequence[Piece]) -> Iterator[Sequence[Piece]]:
    """Runs of pieces, of which the first opens a page."""
    starts = [
        index
        for index, piece in enumerate(pieces)
        if not index or piece.opens in {Opens.PAGE, Opens.RIGHT}
    ]
    for start, end in pairwise([*starts, len(pieces)]):
        yield pieces[start:end]


def part_on_pages(
    pieces: Sequence[Piece], room: Callable[[int], Room], costs: Costs, first: int, done: int
) -> Iterator[Page]:
    """Fill pages with what stands on pages of its own, in the cheapest way.

    first: number of the flow's first page in the book; done: pages of the flow before these.

    Raises:
        NoRoomError: a piece is higher than a page.
    """

    def own(page: int) -> Room:
        return room(done + page)

    stack = Stack(pieces, max(own(page).height for page in range(PROBED)))
    runs = pairwise([0, *cheapest(stack, own, costs, first + done)])
    for here in map(own, count()):
        filled = [*islice(runs, here.columns)]
        if not filled:
            return
        if costs.level and filled[-1][1] == len(pieces):
            start = filled[0][0]
            filled = [*pairwise([start, *stack.level(start, here.columns, here.height)])]
        columns = [stack.column(*run, here.height) for run in filled]
        yield Page(here, (*columns, *[()] * (here.columns - len(columns))))
