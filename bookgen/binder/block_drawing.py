"""A measured block goes onto paper: one drill with everything that belongs to it."""

from typing import Final

from bookgen.binder.block import (
    HINT_GAP_MM,
    LABEL_GAP_MM,
    PARAGRAPH_GAP_MM,
    TICK_GAP_MM,
    TICKS,
    WIDE_GAP_MM,
    Block,
)
from bookgen.binder.canvas import Canvas, Face, Point, Style
from bookgen.binder.chart_drawing import draw_chart
from bookgen.binder.layout import COLUMN_GAP_MM, Arrangement
from bookgen.binder.pencil import Room, draw_rules
from bookgen.binder.typeset import ASCENT, MM_PER_POINT, draw_line, line_height

UNDER_NUMBER_MM: Final = 0.4
"""White between a drill's number and its minutes."""


def draw_block(canvas: Canvas, block: Block, left: float, top: float, pencil: float) -> Point:
    """Draw a block with its upper left corner there; room for the pencil below its ticks.

    Returns:
        The upper left corner of the music's ink on the page, in millimetres.
    """
    layout, gap = block.layout, block.layout.block.gap
    draw_head(canvas, block, left, top)
    y = top - block.head_height - gap
    draw_chart(canvas, block.chart, left, y)
    beside = left + block.chart.width + COLUMN_GAP_MM
    if block.arrangement in {Arrangement.STACKED, Arrangement.ABREAST}:
        draw_texts(canvas, block, left, y - block.row_height - block.stack_gap)
    else:
        draw_texts(canvas, block, beside, y)
    wide = y - block.middle_height + block.wide_height - WIDE_GAP_MM
    draw_wide(canvas, block, left, wide)
    end = y - block.middle_height
    music = (beside, y) if block.arrangement is Arrangement.ABREAST else (left, end - gap)
    y = end - block.below_height - gap
    draw_ticks(canvas, block, left, y)
    y -= block.ticks_height
    room = Room(left, y, block.column, pencil)
    draw_rules(canvas, room, layout, block.label("pencil"))
    return music


def draw_head(canvas: Canvas, block: Block, left: float, top: float) -> None:
    """Number with the minutes under it, title and link."""
    sizes = block.layout.text
    step = line_height(sizes.title, sizes.leading)
    baseline = top - sizes.title * ASCENT * MM_PER_POINT
    number = Style(Face.BOLD, sizes.number)
    drop = (sizes.number - sizes.title) * ASCENT * MM_PER_POINT
    canvas.text((left, baseline - drop), str(block.number), number)
    for row, line in enumerate(block.title):
        draw_line(canvas, (left + block.indent, baseline - row * step), line, sizes.title)
    minutes = Style(Face.REGULAR, sizes.small)
    under = max(step, drop + line_height(sizes.small, 1.0) + UNDER_NUMBER_MM)
    canvas.text((left, baseline - under), block.label("minutes"), minutes)
    baseline -= len(block.title) * step
    step = line_height(sizes.link, sizes.leading)
    for row, line in enumerate(block.link):
        draw_line(canvas, (left + block.indent, baseline - row * step), line, sizes.link)


def draw_texts(canvas: Canvas, block: Block, left: float, top: float) -> None:
    """What to play and what to listen for."""
    size = block.layout.text.body
    step = line_height(size, block.layout.text.leading)
    baseline = top - size * ASCENT * MM_PER_POINT
    for lines in block.texts:
        for line in lines:
            draw_line(canvas, (left, baseline), line, size)
            baseline -= step
        baseline -= PARAGRAPH_GAP_MM


def draw_wide(canvas: Canvas, block: Block, left: float, top: float) -> None:
    """Words over the whole column."""
    size = block.layout.text.body
    baseline = top - size * ASCENT * MM_PER_POINT
    for row, line in enumerate(block.wide):
        y = baseline - row * line_height(size, block.layout.text.leading)
        draw_line(canvas, (left, y), line, size)


def draw_ticks(canvas: Canvas, block: Block, left: float, top: float) -> None:
    """Boxes for times played, for secure and for not yet, and the hint."""
    layout = block.layout
    side, size = layout.block.tick, layout.text.body
    style = Style(Face.REGULAR, size)
    baseline = top - side / 2 - size * ASCENT * MM_PER_POINT / 2
    x = left
    for part, boxes in zip(TICKS, (block.plays, 1, 1), strict=True):
        words = block.label(part)
        canvas.text((x, baseline), words, style)
        x += canvas.width(words, style) + LABEL_GAP_MM
        for _ in range(boxes):
            canvas.box((x, top - side), (side, side), width=0.3)
            x += side + TICK_GAP_MM
        x += block.group_gap - TICK_GAP_MM
    if not block.hint_beside:
        baseline -= HINT_GAP_MM
    for line in block.unsure:
        if block.hint_beside:
            wide = sum(canvas.width(text, Style(cut, size)) for text, cut in line)
            x = left + block.column - wide
        else:
            baseline -= line_height(size, layout.text.leading)
            x = left
        draw_line(canvas, (x, baseline), line, size)
