"""One page of a book: what it draws, and under which titles the outline leads to it."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from bookgen.binder.page.canvas import Canvas
from bookgen.binder.page.paper import Sheet
from bookgen.binder.page.piece import Mark, Page, Piece, Slot
from bookgen.binder.page.placed import Placed
from bookgen.binder.structure.tag import ARTIFACT

RULE_MM: Final = 0.2
RULE_GRAY: Final = 0.45
"""The thin rules between pieces and between columns."""


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
    signs: on the page, for the key at its foot.
    bare: without head and foot.
    """

    running: str
    marks: tuple[Mark, ...]
    draw: Draw
    bare: bool = False
    signs: frozenset[str] = frozenset()


BLANK: Final = Leaf("", (), lambda _canvas, _side: (), bare=True)
"""An empty page."""


def side_of(page: int, folio: str, sheet: Sheet, *, mirrored: bool = True) -> Side:
    """A page's side.

    page: from 0; the first page is a right-hand one.
    mirrored: left-hand pages have their margins exchanged.
    """
    verso = page % 2 == 1
    return Side(page, folio, sheet.mirrored if verso and mirrored else sheet, verso)


def leaves_of(
    pages: Sequence[Page], top: float, running: Callable[[Page], str] | None = None
) -> list[Leaf]:
    """Filled pages, ready to be drawn.

    top: where their columns begin, in millimetres from the paper's lower edge.
    running: what a page's head says; else what its first piece wants, or the last one before it.
    """
    if running is not None:
        return [leaf_of(page, top, running(page)) for page in pages]
    leaves: list[Leaf] = []
    carried = ""
    for page in pages:
        wanted = [piece.running for piece in page.pieces]
        leaves.append(leaf_of(page, top, next(iter(wanted), "") or carried))
        carried = next(filter(None, reversed(wanted)), carried)
    return leaves


def leaf_of(page: Page, top: float, running: str) -> Leaf:
    """One filled page."""
    pieces = page.pieces

    def draw(canvas: Canvas, side: Side) -> Iterator[Placed]:
        return draw_columns(canvas, side, page, top)

    return Leaf(
        running=running,
        marks=tuple(mark for piece in pieces for mark in piece.marks),
        draw=draw,
        bare=not pieces,
        signs=frozenset(sign for piece in pieces for sign in piece.signs),
    )


def draw_columns(canvas: Canvas, side: Side, page: Page, top: float) -> Iterator[Placed]:
    """Draw the pieces of a page and the rules between them.

    Yields:
        Where music goes.
    """
    room, left = page.room, side.left
    for number, column in enumerate(page.columns):
        if number and room.ruled:
            x = left - room.gap / 2
            with canvas.tagged(ARTIFACT):
                canvas.line((x, top), (x, top - room.height), width=RULE_MM, gray=RULE_GRAY)
        for order, put in enumerate(column):
            piece, y = put.piece, top - put.down
            if order and piece.ruled:
                rule = y + piece.above / 2
                end = (left + room.width, rule)
                with canvas.tagged(ARTIFACT):
                    canvas.line((left, rule), end, width=RULE_MM, gray=RULE_GRAY)
            yield from drawn(piece, canvas, Slot(side.page, left, y, room.width, put.extra))
        left += room.width + room.gap


def drawn(piece: Piece, canvas: Canvas, slot: Slot) -> Iterator[Placed]:
    """Draw a piece, with which sections begin that the outline names.

    Yields:
        Where music goes.
    """
    for mark in piece.marks:
        canvas.begin(mark.title, mark.level)
    yield from piece.draw(canvas, slot)


def height_of(over: Sequence[Piece]) -> float:
    """Height of pieces below each other, in millimetres; the first has no white above."""
    return sum(piece.height + piece.above * bool(place) for place, piece in enumerate(over))


def leaf_under(over: Sequence[Piece], leaf: Leaf, frame_top: float) -> Leaf:
    """A page with pieces over the whole width above its own contents.

    frame_top: where the first of them begins, in millimetres from the paper's lower edge.
    """

    def draw(canvas: Canvas, side: Side) -> Iterator[Placed]:
        for place, piece in enumerate(over):
            top = frame_top - height_of(over[: place + 1]) + piece.height
            yield from drawn(piece, canvas, Slot(side.page, side.left, top, side.sheet.column, 0.0))
        yield from leaf.draw(canvas, side)

    marks = (*(mark for piece in over for mark in piece.marks), *leaf.marks)
    return replace(leaf, marks=marks, draw=draw, bare=False)


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
