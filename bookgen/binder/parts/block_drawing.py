"""A measured block goes onto paper."""

from collections.abc import Iterator

from bookgen.binder.page.canvas import Canvas
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.piece import Slot
from bookgen.binder.page.placed import Placed, placed
from bookgen.binder.page.signs import draw_return
from bookgen.binder.page.typeset import draw_line
from bookgen.binder.parts.block import Block, PlacedLine
from bookgen.binder.parts.chart_drawing import draw_chart

BLANK_LINE_MM = 0.25


def draw_block(canvas: Canvas, block: Block, desk: Desk, slot: Slot) -> Iterator[Placed]:
    """Draw a block with its upper left corner at the slot's.

    Yields:
        Where its music goes.
    """
    left, top, width = slot.left, slot.top, desk.layout.block.frame_mm
    for line in block.lines:
        put(canvas, line, left, top)
    for x, y in block.boxes:
        corner = (left + x + width / 2, top - y - block.box_mm)
        canvas.box(corner, (block.box_mm, block.box_mm), width=width)
    x, y = block.chart_at
    draw_chart(canvas, block.chart, desk, left + x, top - y)
    for blank in block.blanks:
        x, y = blank.at
        end = (left + x + blank.width, top - y)
        canvas.line((left + x, top - y), end, width=BLANK_LINE_MM)
        put(canvas, blank.words, left, top)
    if block.music is None:
        return
    x, y = block.music.at
    yield placed(slot.page, block.music.index, (left + x, top - y))
    if block.music.turn is not None:
        x, y = block.music.turn
        draw_return(canvas, (left + x, top - y), desk.layout.music.staff_height_mm)


def put(canvas: Canvas, line: PlacedLine, left: float, top: float) -> None:
    """Set a line of words."""
    draw_line(canvas, (left + line.at[0], top - line.at[1]), line.line, line.size)
