"""Where pieces stand on pages: the one way in which books are filled.

Pieces stand below each other in columns, which are read downwards. The fewest pages are taken;
among these the way that costs least, where uneven columns cost and so do columns that begin with
a piece that is tied to the one before.
"""

from collections.abc import Callable, Iterator, Sequence
from itertools import islice, pairwise
from typing import Final

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
from bookgen.binder.page.stack import Space, Stack, cheapest

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

PROBED: Final = 4
"""Pages looked at for the tallest column: rooms differ on the first pages only."""


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
    """Fill the fewest pages that hold everything, in the cheapest way.

    first: number of the flow's first page in the book; done: pages of the flow before these.

    Raises:
        NoRoomError: a piece is higher than a page.
    """
    stack = Stack(pieces, max(room(done + page).height for page in range(PROBED)))
    rooms: list[Room] = []
    spaces: list[Space] = []
    reached, ends = 0, None
    while ends is None:
        page = done + len(rooms)
        rooms.append(room(page))
        begins = costs.turn if (first + page) % 2 else costs.page
        for column in range(rooms[-1].columns):
            spaces.append(Space(rooms[-1].height, costs.column if column else begins))
            reached = stack.furthest(reached, rooms[-1].height)
        if reached == len(pieces):
            ends = cheapest(stack, spaces, costs)
    runs = pairwise([0, *ends])
    for of_page in rooms:
        columns = islice(runs, of_page.columns)
        yield Page(
            of_page, tuple(stack.column(start, end, of_page.height) for start, end in columns)
        )
