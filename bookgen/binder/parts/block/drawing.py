"""A measured block goes onto paper."""

from collections.abc import Iterator

from bookgen.binder.page.canvas import Canvas
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.piece import Slot
from bookgen.binder.page.placed import Placed, placed
from bookgen.binder.page.signs import draw_return
from bookgen.binder.page.typeset import draw_line
from bookgen.binder.parts.block.measured import Block, Part, PlacedLine
from bookgen.binder.parts.chart.drawing import chart_tag, draw_chart
from bookgen.binder.structure.tag import ARTIFACT, Role, Tag, head, of_drill, paragraph

BLANK_LINE_MM = 0.25


def draw_block(canvas: Canvas, block: Block, desk: Desk, slot: Slot) -> Iterator[Placed]:
    """Draw a block with its upper left corner at the slot's.

    Yields:
        Where its music goes.
    """
    left, top, width = slot.left, slot.top, desk.layout.block.frame_mm
    x, y = block.chart_at
    chart = chart_tag(block.chart, desk, left + x, top - y, block.outline)
    music, said = Tag(Role.FIGURE), tags_of(block)
    first, last = [said[part] for part in Part if part is not Part.BELOW], said[Part.BELOW]
    canvas.reading(*first, chart, music, last)
    for line in block.lines:
        with canvas.tagged(said[line.part]):
            put(canvas, line, left, top)
    with canvas.tagged(ARTIFACT):
        draw_boxes(canvas, block, left, top, width)
    draw_chart(canvas, block.chart, desk, left + x, top - y, chart)
    draw_blanks(canvas, block, left, top)
    if block.music is None:
        return
    x, y = block.music.at
    yield placed(slot.page, block.music.index, (left + x, top - y), music)
    if block.music.turn is not None:
        x, y = block.music.turn
        with canvas.tagged(music):
            draw_return(canvas, (left + x, top - y), desk.layout.music.staff_height_mm)


def tags_of(block: Block) -> dict[Part, Tag]:
    """As what each part of a block's words is read; what it is like leads to that drill."""
    found = {part: paragraph() for part in Part}
    found[Part.TITLE] = head(name=of_drill(block.number))
    if block.to is not None:
        found[Part.LINK] = Tag(Role.LINK, within=paragraph(), goal=of_drill(block.to))
    return found


def draw_boxes(canvas: Canvas, block: Block, left: float, top: float, width: float) -> None:
    """The boxes to tick."""
    for x, y in block.boxes:
        corner = (left + x + width / 2, top - y - block.box_mm)
        canvas.box(corner, (block.box_mm, block.box_mm), width=width)


def draw_blanks(canvas: Canvas, block: Block, left: float, top: float) -> None:
    """Rules on which intervals are to be named, with the strings over them."""
    tag = paragraph()
    for blank in block.blanks:
        x, y = blank.at
        end = (left + x + blank.width, top - y)
        with canvas.tagged(ARTIFACT):
            canvas.line((left + x, top - y), end, width=BLANK_LINE_MM)
        with canvas.tagged(tag):
            put(canvas, blank.words, left, top)


def put(canvas: Canvas, line: PlacedLine, left: float, top: float) -> None:
    """Set a line of words."""
    draw_line(canvas, (left + line.at[0], top - line.at[1]), line.line, line.size)
