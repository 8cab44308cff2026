"""What stands on pages: pieces that are not broken, the columns for them, pages filled."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from enum import StrEnum
from math import inf
from typing import Final

from bookgen.binder.page.canvas import Canvas
from bookgen.binder.page.placed import Placed
from bookgen.errors import Said


class Opens(StrEnum):
    """What a piece must begin."""

    NOTHING = "nothing"
    COLUMN = "column"
    PAGE = "page"
    RIGHT = "right"


@dataclass(frozen=True, slots=True)
class Mark:
    """An entry of the outline.

    level: 0 for a part of the book, 1 for what is in it, and so on.
    """

    title: str
    level: int


@dataclass(frozen=True, slots=True)
class Slot:
    """Where a piece is drawn, in millimetres.

    page: of the book, from 0; top: counted from the paper's lower edge.
    extra: spare room below the piece that it has been given.
    """

    page: int
    left: float
    top: float
    width: float
    extra: float


@dataclass(frozen=True, slots=True)
class Piece:
    """Something that is not broken over pages. Lengths are millimetres.

    above: white above it where it does not begin a column; ruled: a thin rule in that white.
    keeps: it stays with the next piece, as long as a column holds both.
    most_extra: how much spare room below it is of use.
    tied: what it costs to begin a column with it; 0 where a break is as good as any.
    again: stands once more above it where it begins a column, as the head of a table.
    marks: in the outline; running: in the head of a page that begins with it.
    signs: what the page's key tells, a `Sign` or the label of an interval.
    called: the piece in a finding, when it has no room.
    """

    height: float
    draw: Callable[[Canvas, Slot], Iterable[Placed]]
    above: float = 0.0
    keeps: bool = False
    opens: Opens = Opens.NOTHING
    most_extra: float = 0.0
    ruled: bool = False
    tied: float = 0.0
    again: "Piece | None" = None
    marks: tuple[Mark, ...] = ()
    running: str = ""
    signs: frozenset[str] = frozenset()
    called: Said = ""


@dataclass(frozen=True, slots=True)
class Room:
    """The columns of a page, in millimetres.

    gap: white between two columns; ruled: a thin rule in it.
    """

    columns: int
    width: float
    gap: float
    height: float
    ruled: bool = False


@dataclass(frozen=True, slots=True)
class Costs:
    """What a way to fill pages costs beside its pages.

    even: times the square of a column's empty share; 0 fills column after column.
    end: times that of the column with which a flow ends, and of the empty ones after it; less
        than 1 leaves white for the end.
    column, page, turn: times what a piece is tied, where it begins a column, a page, a page that
        must be turned to.
    leaf: a right-hand page with the one behind it; infinite where the fewest pages are taken,
        whatever else they cost.
    level: the columns of the last page end about level, instead of one full and one empty.
    """

    even: float = 1.0
    end: float = 1.0
    column: float = 1.0
    page: float = 1.0
    turn: float = 1.0
    leaf: float = inf
    level: bool = False


EVEN: Final = Costs()
WHITE_AT_END: Final = Costs(end=0.7)
WHITE_COLUMNS: Final = Costs(end=0.3)
FULL: Final = Costs(even=0.0)
"""Columns that are as full as each other; the same, but the last one, or the last column of a page,
is sooner left with white (own choices); columns that are filled one after the other."""

LINKED: Final = Costs(column=0.02, page=0.05)
CHAPTER: Final = Costs(end=0.7, column=0.02, page=0.05, leaf=2.5, level=True)
"""Drills tied by their links, on the fewest pages; and in a chapter, where a leaf more is taken if
three links fewer are turned over. Own choices, weighed in docs/why/pages.md."""


@dataclass(frozen=True, slots=True)
class Put:
    """A piece in its column.

    down: from the column's top to the piece's; extra: spare room below it, in millimetres.
    """

    piece: Piece
    down: float
    extra: float


@dataclass(frozen=True, slots=True)
class Page:
    """The columns of a page, filled; a blank page has none."""

    room: Room
    columns: tuple[tuple[Put, ...], ...] = ()

    @property
    def pieces(self) -> tuple[Piece, ...]:
        """The pieces as they are read."""
        return tuple(put.piece for column in self.columns for put in column)
