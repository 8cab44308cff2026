"""The table of a passage's placements: its rows, and the heads of its columns."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from bookgen.binder.page.canvas import Canvas, Face
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.piece import Piece, Slot
from bookgen.binder.page.placed import Placed
from bookgen.binder.page.prose import (
    Look,
    Words,
    draw_words,
    height_of,
    piece_of,
    widest_word,
    words_of,
)

SHARES: Final = (0.05, 0.1, 0.3, 0.28, 0.27)
"""Of the width: letter, bars, hand, spacings, moves."""

GAP_MM: Final = 2.5
TINY_MM: Final = 0.01
RULE_MM: Final = 0.2


Cells = Sequence[Sequence[str]]
"""The lines of each column."""


@dataclass(frozen=True, slots=True)
class Row:
    """One row: the words of each column; white above and below them, in millimetres."""

    cells: tuple[Sequence[Words], ...]
    widths: tuple[float, ...]
    white: float

    @property
    def height(self) -> float:
        """Height with the white around the words."""
        return max(map(height_of, self.cells), default=0.0) + 2 * self.white

    def draw(self, canvas: Canvas, slot: Slot) -> Iterator[Placed]:
        """Draw the row with a rule below it."""
        left = slot.left
        for cell, width in zip(self.cells, self.widths, strict=True):
            draw_words(canvas, cell, left, slot.top - self.white)
            left += width
        y = slot.top - self.height
        canvas.line((slot.left, y), (slot.left + slot.width, y), width=RULE_MM)
        return iter(())


def widths_of(rows: Sequence[Cells], desk: Desk) -> tuple[float, ...] | None:
    """The widths of the columns: their shares, or what their widest words need.

    None where the words are too wide for a table.
    """
    look, column = Look(desk.layout.text.small_pt), desk.sheet.column
    least = [
        GAP_MM + TINY_MM + max(widest_word(text, look, desk) for row in rows for text in row[at])
        for at in range(len(SHARES))
    ]
    widths = [max(share * column, needs) for share, needs in zip(SHARES, least, strict=True)]
    over, spare = sum(widths) - column, sum(widths) - sum(least)
    if sum(least) > column:
        return None
    taken = over / spare if spare else 0.0
    return tuple(wide - taken * (wide - needs) for wide, needs in zip(widths, least, strict=True))


def row_of(texts: Cells, widths: tuple[float, ...], desk: Desk, face: Face = Face.REGULAR) -> Piece:
    """Measure a row.

    texts: the lines of each column; widths: of the columns in millimetres.
    """
    look = Look(desk.layout.text.small_pt, face)
    cells = tuple(
        [words_of(text, look, width - GAP_MM, desk) for text in cell if text]
        for cell, width in zip(texts, widths, strict=True)
    )
    row = Row(cells, widths, desk.layout.passage.row_white_mm)
    return Piece(row.height, row.draw, called=" ".join(texts[0]))


def in_lines(heads: Sequence[str], texts: Cells, desk: Desk) -> Piece:
    """A row whose columns stand below each other, each under its head."""
    width, size = desk.sheet.column, desk.layout.text.small_pt
    said = []
    for head, cell in zip(heads, texts, strict=True):
        lines = [words_of(text, Look(size, indent=GAP_MM), width, desk) for text in cell if text]
        if lines:
            said += [words_of(head, Look(size, Face.ITALIC), width, desk), *lines]
    return replace(piece_of(said), above=desk.layout.passage.row_white_mm, ruled=True)


def table_pieces(heads: Sequence[str], rows: Sequence[Cells], desk: Desk) -> Iterator[Piece]:
    """The table; its head stands again where a row begins a page.

    The last row stays with the one before it, and with what the table's marks mean below it.
    """
    over = [[head] for head in heads]
    widths = widths_of([over, *rows], desk)
    if widths is None:
        yield from (in_lines(heads, row, desk) for row in rows)
        return
    head = replace(row_of(over, widths, desk, Face.ITALIC), keeps=True)
    yield head
    for number, row in enumerate(rows, start=1):
        yield replace(row_of(row, widths, desk), again=head, keeps=number >= len(rows) - 1)
