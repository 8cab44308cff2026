"""Where columns and pages end: the cheapest of all ways to fill them."""

from collections.abc import Callable, Iterator
from math import inf
from typing import Final, NamedTuple

from bookgen.binder.page.paper import NoRoomError
from bookgen.binder.page.piece import Costs, Room
from bookgen.binder.page.stack import Stack

PROBED: Final = 4
"""Pages that may differ in their room; all later ones are alike."""


class Space(NamedTuple):
    """An empty column.

    tied: times what the piece is tied that begins it; page: 1 where it begins a page.
    price: of that page; after: columns after it on its page; then: the number of the next column.
    """

    height: float
    tied: float
    page: int
    price: float
    after: int
    then: int


class Way(NamedTuple):
    """Columns filled so far; of two ways the lesser is taken.

    pages: counted where the fewest are wanted; before: the way without its last column.
    """

    pages: int
    cost: float
    end: int
    before: "Way | None" = None


def cheapest(stack: Stack, room: Callable[[int], Room], costs: Costs, first: int) -> list[int]:
    """Where each column ends in the cheapest way to fill whole pages.

    Of all ways that come equally far on equal pages one is followed: what can come after is the
    same for all. Of those that cost the same it is the one with fuller columns first. A column is
    left empty only where nothing fits.

    room: of a page by its number, from 0; first: number of the first page in the book.

    Raises:
        NoRoomError: a piece is higher than the pages that are left for it.
    """
    spaces = spaces_of(room, costs, first)
    ways: list[dict[int, Way]] = [{} for _ in range(len(stack.pieces) + 1)]
    ways[0][0] = Way(0, 0.0, 0)
    for found in ways[:-1]:
        for at, space in enumerate(spaces):
            if at not in found:
                continue
            for way in longer(found[at], space, stack, costs):
                other = ways[way.end].get(space.then)
                if other is None or way[:2] <= other[:2]:
                    ways[way.end][space.then] = way
    if not ways[-1]:
        last = max(start for start, found in enumerate(ways) if found)
        height = stack.height(last, last + 1)
        raise NoRoomError(stack.pieces[last].called, height, spaces[-1].height)
    return ends_of(min(ways[-1].values(), key=lambda way: way[:2]))


def longer(way: Way, space: Space, stack: Stack, costs: Costs) -> Iterator[Way]:
    """A way with one column more, and with the empty ones after it where it is the last."""
    pages, paid, goal = way.pages + space.page, way.cost + space.price, len(stack.pieces)
    if way.end:
        paid += space.tied * stack.pieces[way.end].tied
    for end, height in stack.ends(way.end, space.height):
        empty = (1 - height / space.height) ** 2 if height else 1.0
        white = empty if end < goal else costs.end * (empty + space.after)
        yield Way(pages, paid + costs.even * white, end, way)


def spaces_of(room: Callable[[int], Room], costs: Costs, first: int) -> list[Space]:
    """The columns of the first pages, and of two with which all others are filled in turn."""
    rooms = [room(page) for page in range(PROBED + 2)]
    fewest = costs.leaf == inf
    found: list[Space] = []
    for page, here in enumerate(rooms):
        left = (first + page) % 2 == 1
        tied, price = costs.turn if left else costs.page, 0.0 if left or fewest else costs.leaf
        found.append(Space(here.height, tied, int(fewest), price, here.columns - 1, len(found) + 1))
        for after in reversed(range(here.columns - 1)):
            found.append(Space(here.height, costs.column, 0, 0.0, after, len(found) + 1))
    again = sum(one.columns for one in rooms[:PROBED])
    return [*found[:-1], found[-1]._replace(then=again)]


def ends_of(way: Way) -> list[int]:
    """Where each column of a way ends."""
    found: list[int] = []
    while way.before is not None:
        found.append(way.end)
        way = way.before
    return found[::-1]
