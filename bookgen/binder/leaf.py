"""One page of a booklet: what it draws, and under which titles the outline leads to it."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace

from bookgen.binder.canvas import Canvas
from bookgen.binder.layout import Sheet
from bookgen.binder.overlay import Placed


@dataclass(frozen=True, slots=True)
class Mark:
    """An entry of the outline.

    level: 0 for a part of the booklet, 1 for a day, 2 for a drill.
    """

    title: str
    level: int


@dataclass(frozen=True, slots=True)
class Side:
    """Where a page lies in the booklet.

    page: from 0; folio: its number as printed; sheet: with the margins of this side.
    verso: a left-hand page.
    """

    page: int
    folio: str
    sheet: Sheet
    verso: bool

    @property
    def left(self) -> float:
        """Where the column begins, in millimetres."""
        return self.sheet.margins.left

    @property
    def right(self) -> float:
        """Where the column ends, in millimetres."""
        return self.sheet.margins.left + self.sheet.column


Draw = Callable[[Canvas, Side], Iterable[Placed]]
"""Draws a page's contents and tells where music goes."""


@dataclass(frozen=True, slots=True)
class Leaf:
    """One page, measured.

    running: in the head; marks: in the outline, in their order.
    bare: without head and foot.
    """

    running: str
    marks: tuple[Mark, ...]
    draw: Draw
    bare: bool = False


def side_of(page: int, folio: str, sheet: Sheet) -> Side:
    """A page's side; left-hand pages have their margins mirrored.

    page: from 0; the first page is a right-hand one.
    """
    verso = page % 2 == 1
    margins = sheet.margins
    mirrored = replace(margins, left=margins.right, right=margins.left)
    return Side(page, folio, replace(sheet, margins=mirrored) if verso else sheet, verso)


ROMAN = ((10, "x"), (9, "ix"), (5, "v"), (4, "iv"), (1, "i"))


def roman(number: int) -> str:
    """A small Roman numeral.

    >>> roman(4), roman(12)
    ('iv', 'xii')
    """
    found = ""
    for value, sign in ROMAN:
        count, number = divmod(number, value)
        found += sign * count
    return found
