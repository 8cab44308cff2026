"""A table of figures: words at the left, figures flush right, as wide as they ask for."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from bookgen.binder.page.canvas import Canvas, Face, Style
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.piece import Piece, Slot
from bookgen.binder.page.placed import Placed
from bookgen.binder.page.typeset import ASCENT, MM_PER_POINT, line_height, shorten

FIRST_SHARE: Final = 0.22
"""Most of the width for the first column."""

LEAST_MM: Final = 25.0
"""For the second column."""

GAP_MM: Final = 3.2
WHITE_MM: Final = 1.6
LINE_MM: Final = 0.2


@dataclass(frozen=True, slots=True)
class Columns:
    """Two columns of words and then those of figures; widths in millimetres."""

    first: float
    second: float
    figures: tuple[float, ...]


def columns_of(rows: Sequence[Sequence[str]], desk: Desk) -> Columns | None:
    """As wide as first words and figures ask for; the second column has the rest.

    None where that is too little: what the rows say is told in lines then.

    rows: the head first.
    """
    size = desk.layout.text.body_pt
    italic, bold = Style(Face.ITALIC, size), Style(Face.BOLD, size)
    figures = tuple(
        max(desk.fonts.width(cells[at], italic) for cells in rows) + GAP_MM
        for at in range(2, len(rows[0]))
    )
    over = [desk.fonts.width(word, italic) + GAP_MM for word in rows[0]]
    widest = max(desk.fonts.width(cells[0], bold) for cells in rows) + GAP_MM
    first = max(min(widest, desk.sheet.column * FIRST_SHARE), over[0])
    second = desk.sheet.column - first - sum(figures)
    if second < max(LEAST_MM, over[1]):
        return None
    return Columns(first, second, figures)


def row_height(desk: Desk) -> float:
    """Height of a row with one line of words, in millimetres."""
    sizes = desk.layout.text
    return line_height(sizes.body_pt, sizes.leading) + 2 * WHITE_MM


def row_of(cells: Sequence[str], columns: Columns, desk: Desk, faces: tuple[Face, Face]) -> Piece:
    """A row with a rule under it.

    faces: of the first word and of all else.
    """
    size = desk.layout.text.body_pt
    first, plain = (Style(face, size) for face in faces)
    height = row_height(desk)

    def draw(canvas: Canvas, slot: Slot) -> Iterator[Placed]:
        baseline = slot.top - WHITE_MM - size * ASCENT * MM_PER_POINT
        word = shorten(cells[0], columns.first - GAP_MM, first, canvas)
        canvas.text((slot.left, baseline), word, first)
        left = slot.left + columns.first
        word = shorten(cells[1], columns.second - GAP_MM, plain, canvas)
        canvas.text((left, baseline), word, plain)
        right = left + columns.second
        for text, figure in zip(cells[2:], columns.figures, strict=True):
            right += figure
            canvas.text((right - canvas.width(text, plain), baseline), text, plain)
        y = slot.top - height
        canvas.line((slot.left, y), (slot.left + slot.width, y), width=LINE_MM)
        return iter(())

    return Piece(height, draw, called=cells[0])
