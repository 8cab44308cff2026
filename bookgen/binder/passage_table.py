"""The table of a passage's groups, measured: its rows, and the heads of its columns."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from bookgen.binder.canvas import Canvas
from bookgen.binder.desk import Desk
from bookgen.binder.leaf import Side
from bookgen.binder.overlay import Placed
from bookgen.binder.prose import Look, Set, draw_prose, height_of, set_prose
from bookgen.binder.typeset import Paragraph

COLUMNS: Final[Mapping[str, float]] = {
    "letter": 0.06,
    "bars": 0.11,
    "hand": 0.27,
    "spacings": 0.27,
    "moves": 0.29,
}
"""Columns in their order, with their share of the width."""

GAP_MM: Final = 2.5
ROW_WHITE_MM: Final = 1.0
"""Above and below the words of a row."""

RULE_MM: Final = 0.2


@dataclass(frozen=True, slots=True)
class Row:
    """One row: the words of each column."""

    cells: tuple[Sequence[Set], ...]
    widths: tuple[float, ...]

    @property
    def height(self) -> float:
        """Height with the white around the words."""
        return max(map(height_of, self.cells), default=0.0) + 2 * ROW_WHITE_MM

    def draw(self, canvas: Canvas, side: Side, top: float, pencil: float) -> Iterator[Placed]:
        """Draw the row with a rule below it."""
        del pencil
        left = side.left
        for cell, width in zip(self.cells, self.widths, strict=True):
            draw_prose(canvas, cell, left, top - ROW_WHITE_MM)
            left += width
        y = top - self.height
        canvas.line((side.left, y), (side.right, y), width=RULE_MM)
        return iter(())


def row_of(found: Sequence[Paragraph], desk: Desk, size: float) -> Row:
    """Measure a row.

    found: paragraphs by the names of the columns; size: of the type, in points.
    """
    widths = tuple(desk.sheet.column * share for share in COLUMNS.values())
    cells = tuple(
        set_prose(found, {part: Look(size)}, width - GAP_MM, desk.layout.text.leading, desk.fonts)
        for part, width in zip(COLUMNS, widths, strict=True)
    )
    return Row(cells, widths)
