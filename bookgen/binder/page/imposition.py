"""Which pages lie side by side on sheets that are folded and stapled."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

PAGES_ON_A_SHEET: Final = 4
MOST_SHEETS: Final = 10
"""In one fold: a stapler's reach, and what still lies flat (own choice)."""


@dataclass(frozen=True, slots=True)
class PrintSide:
    """One side of a sheet: two pages, counted from 1.

    sheet: from 1, the outermost; back: the side that comes out of the printer second.
    """

    sheet: int
    back: bool
    left: int
    right: int

    @property
    def label(self) -> str:
        """The bookbinders' name of the side, recto or verso, in the viewer's list of pages."""
        return f"{self.sheet}{'v' if self.back else 'r'}"


def saddle_stitch(pages: int) -> tuple[PrintSide, ...]:
    """The sides in the order of printing, on both sides, turned over on the short edge.

    pages: a multiple of four.

    >>> [(side.left, side.right) for side in saddle_stitch(8)]
    [(8, 1), (2, 7), (6, 3), (4, 5)]

    Raises:
        ValueError: so many pages cannot be folded.

    Source: the printer's rule, sheet s of N pages: front N - 2(s - 1) and 2s - 1, back 2s and
        N - 2s + 1; checked against tables for 4 to 24 pages.
    """
    if pages <= 0 or pages % PAGES_ON_A_SHEET:
        msg = f"{pages} pages cannot be folded; a folded sheet has four"
        raise ValueError(msg)
    sides: list[PrintSide] = []
    for sheet in range(1, pages // PAGES_ON_A_SHEET + 1):
        first, last = 2 * sheet - 1, pages - 2 * (sheet - 1)
        sides += [
            PrintSide(sheet, back=False, left=last, right=first),
            PrintSide(sheet, back=True, left=first + 1, right=last - 1),
        ]
    return tuple(sides)


def padded(count: int, ending: int = 1) -> tuple[int | None, ...]:
    """Pages from 1 with blank ones (None) to a multiple of four.

    Every page stays a right-hand or a left-hand one. So two blank pages go in front of the ending,
    which then lies at the back of the booklet, and a single one becomes the back cover.

    ending: how many pages stay together at the end; the first page always stays the first. With
        none the blank pages are the last ones.

    >>> padded(6)
    (1, 2, 3, 4, 5, None, None, 6)
    >>> padded(7)
    (1, 2, 3, 4, 5, 6, 7, None)

    Raises:
        ValueError: there are no pages, or less than no ending.
    """
    if count < 1 or ending < 0:
        msg = f"{count} pages with an ending of {ending} make no booklet"
        raise ValueError(msg)
    start = max(count - ending, 1)
    pair, single = divmod(-count % PAGES_ON_A_SHEET, 2)
    before, after = (None,) * (2 * pair), (None,) * single
    return (*range(1, start + 1), *before, *range(start + 1, count + 1), *after)


def sections_of(count: int, starts: Sequence[int]) -> list[range]:
    """Cut pages into sections that are each folded by itself: few, with few and even sheets.

    starts: right-hand pages, from 1, with which a section may begin. Where they lie too far apart
        it may begin with any.

    >>> sections_of(48, [1, 5, 21, 41])
    [range(1, 21), range(21, 49)]

    Raises:
        ValueError: a start is no right-hand page.
    """
    left = [page for page in starts if page % 2 == 0]
    if left:
        msg = f"page {left[0]} is a left-hand page; sections begin with right-hand ones"
        raise ValueError(msg)
    found = fewest(count, sorted({1, *(page for page in starts if page <= count)}))
    return found or fewest(count, range(1, count + 1, 2))


def fewest(count: int, starts: Sequence[int]) -> list[range]:
    """The best way to cut pages at some of these starts; none where they lie too far apart."""
    best: dict[int, tuple[tuple[int, int, int], list[range]]] = {1: ((0, 0, 0), [])}
    for start in starts:
        if start not in best:
            continue
        (sections, sheets, squares), ranges = best[start]
        for end in (*(page for page in starts if page > start), count + 1):
            more = -(-(end - start) // PAGES_ON_A_SHEET)
            if more > MOST_SHEETS:
                break
            price = (sections + 1, sheets + more, squares + more**2)
            if end not in best or price < best[end][0]:
                best[end] = (price, [*ranges, range(start, end)])
    return best[count + 1][1] if count + 1 in best else []
