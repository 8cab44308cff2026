"""What stands on every page of a booklet: running head, page number, the caution."""

from dataclasses import dataclass
from typing import Final

from bookgen.binder.canvas import Canvas, Face, Style
from bookgen.binder.desk import Desk
from bookgen.binder.leaf import Side
from bookgen.binder.names import in_visual_order
from bookgen.binder.typeset import (
    ASCENT,
    MM_PER_POINT,
    Line,
    Paragraph,
    draw_line,
    line_height,
    shorten,
    wrap,
)

RULE_MM: Final = 0.35
HEAD_WHITE_MM: Final = 3.2
"""Between the head's line of words and what stands below its rule."""

FOOT_WHITE_MM: Final = 3.0
FOLIO_ROOM_MM: Final = 12.0
DROP_MM: Final = 1.1
"""From a line of words down to the rule below it."""


@dataclass(frozen=True, slots=True)
class Furniture:
    """Head and foot of a booklet's pages, measured.

    whose: player and booklet, at the head's inner end; caution: in lines.
    """

    desk: Desk
    whose: str
    caution: tuple[Line, ...]

    @property
    def head(self) -> float:
        """Height from the upper margin to the contents."""
        sizes = self.desk.layout.text
        return line_height(sizes.body, sizes.leading) + HEAD_WHITE_MM

    @property
    def foot(self) -> float:
        """Height from the contents to the lower margin."""
        sizes = self.desk.layout.text
        rows = max(len(self.caution), 1)
        return rows * line_height(sizes.small, sizes.leading) + DROP_MM + FOOT_WHITE_MM

    @property
    def room(self) -> float:
        """Height of the contents."""
        sheet = self.desk.sheet
        return sheet.top - sheet.bottom - self.head - self.foot

    @property
    def top(self) -> float:
        """Where the contents begin, from the paper's lower edge."""
        return self.desk.sheet.top - self.head

    @property
    def bottom(self) -> float:
        """Where the contents end, from the paper's lower edge."""
        return self.desk.sheet.bottom + self.foot

    def draw(self, canvas: Canvas, side: Side, running: str) -> None:
        """Draw head and foot; the page's number and what it holds stand at the outer edge."""
        self.draw_head(canvas, side, running)
        self.draw_foot(canvas, side)

    def draw_head(self, canvas: Canvas, side: Side, running: str) -> None:
        """What the page holds outside, whose it is inside."""
        size = self.desk.layout.text.body
        outer, inner = Style(Face.BOLD, size), Style(Face.REGULAR, size)
        baseline = side.sheet.top - size * ASCENT * MM_PER_POINT
        outer_x = side.left if side.verso else side.right - canvas.width(running, outer)
        inner_x = side.right - canvas.width(self.whose, inner) if side.verso else side.left
        canvas.text((outer_x, baseline), running, outer)
        canvas.text((inner_x, baseline), self.whose, inner)
        y = self.top + HEAD_WHITE_MM - DROP_MM
        canvas.line((side.left, y), (side.right, y), width=RULE_MM)

    def draw_foot(self, canvas: Canvas, side: Side) -> None:
        """The caution, and the page's number at the outer edge."""
        sizes = self.desk.layout.text
        step = line_height(sizes.small, sizes.leading)
        top = side.sheet.bottom + max(len(self.caution), 1) * step
        canvas.line((side.left, top + DROP_MM), (side.right, top + DROP_MM), width=RULE_MM)
        first = top - sizes.small * ASCENT * MM_PER_POINT - 0.3
        left = side.left + (FOLIO_ROOM_MM if side.verso else 0.0)
        for row, line in enumerate(self.caution):
            draw_line(canvas, (left, first - row * step), line, sizes.small)
        style = Style(Face.BOLD, sizes.link)
        x = side.left if side.verso else side.right - canvas.width(side.folio, style)
        drop = (sizes.link - sizes.small) * ASCENT * MM_PER_POINT
        canvas.text((x, first - drop), side.folio, style)


def furniture_of(desk: Desk, whose: str, caution: Paragraph | None) -> Furniture:
    """Measure head and foot.

    whose: player and booklet, in printable characters.
    """
    width = desk.sheet.column - FOLIO_ROOM_MM
    size = desk.layout.text.small
    style = Style(Face.REGULAR, desk.layout.text.body)
    whose = shorten(whose, desk.sheet.column / 2, style, desk.fonts)
    lines = wrap(caution.pieces, width, size, desk.fonts) if caution else []
    return Furniture(desk, in_visual_order(whose), tuple(lines))
