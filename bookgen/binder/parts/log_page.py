"""A page to copy, on which a player writes what was played."""

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from bookgen.binder.page.canvas import Canvas, Face, Style
from bookgen.binder.page.flow import FULL, flow
from bookgen.binder.page.frame import Frame
from bookgen.binder.page.leaf import Leaf, leaves_of
from bookgen.binder.page.piece import Mark, Piece, Room, Slot
from bookgen.binder.page.placed import Placed
from bookgen.binder.page.prose import Look, piece_of, words_of
from bookgen.binder.page.typeset import ASCENT, MM_PER_POINT, line_height, shorten
from bookgen.binder.structure.tag import ARTIFACT, Role, Tag
from bookgen.words import supplement as words

RULE_MM: Final = 0.2
RULE_GRAY: Final = 0.45
BOX_MM: Final = 4.5
"""Side of a tick box; a pencil needs it."""

BOX_RULE_MM: Final = 0.3
DAY: Final = 0.14
REMARKS: Final = 0.3
"""Shares of the column for the day and for remarks; the drills have what is between."""

NUMBER_MM: Final = 11.0
"""To write a number in, beside its box."""

WHITE_MM: Final = 4.0
HEAD_MM: Final = 2.0


def log_leaves(frame: Frame) -> list[Leaf]:
    """The page: a line for each day, with boxes for the drills."""
    desk, sizes = frame.desk, frame.desk.layout.supplement
    title, column = words.log_title(desk.speech), desk.sheet.column
    intro = piece_of(
        [words_of(words.log_intro(desk.speech), Look(desk.layout.text.body_pt), column, desk)],
        WHITE_MM,
    )
    head = line_height(desk.layout.text.small_pt, desk.layout.text.leading) + HEAD_MM
    rows = int((frame.room - intro.height - head) // sizes.row_mm)
    over = replace(intro, marks=(Mark(title, 0),), keeps=True)
    pieces = [over, grid_piece(frame, rows, head)]
    room = Room(1, column, 0.0, frame.room)
    return leaves_of(flow(pieces, lambda _: room, FULL), frame.top, lambda _: title)


def grid_piece(frame: Frame, rows: int, head: float) -> Piece:
    """The lines; head: height of the names of the columns."""
    desk, row = frame.desk, frame.desk.layout.supplement.row_mm
    style = Style(Face.BOLD, desk.layout.text.small_pt)
    names = words.log_columns(desk.speech)

    def draw(canvas: Canvas, slot: Slot) -> Iterator[Placed]:
        starts = (0.0, DAY * slot.width, (1 - REMARKS) * slot.width, slot.width)
        baseline = slot.top - style.size * ASCENT * MM_PER_POINT
        over = Tag(Role.ROW, within=Tag(Role.TABLE))
        for name, left, right in zip(names, starts, starts[1:], strict=False):
            shown = shorten(name, right - left, style, canvas)
            with canvas.tagged(Tag(Role.OVER, within=over)):
                canvas.text((slot.left + left, baseline), shown, style)
        with canvas.tagged(ARTIFACT):
            draw_grid(canvas, replace(slot, top=slot.top - head), rows, row, starts)
        return iter(())

    return Piece(head + rows * row, draw, called=names[0])


def draw_grid(canvas: Canvas, slot: Slot, rows: int, row: float, starts: tuple[float, ...]) -> None:
    """Lines to write on, with boxes to tick.

    row: from line to line; starts: of the columns, in millimetres from the left.
    """
    for line in range(rows + 1):
        y = slot.top - line * row
        ends = (slot.left, y), (slot.left + slot.width, y)
        canvas.line(*ends, width=RULE_MM, gray=RULE_GRAY)
    pitch = NUMBER_MM + BOX_MM
    count = int((starts[2] - starts[1]) // pitch)
    for line in range(rows):
        y = slot.top - (line + 0.5) * row - BOX_MM / 2
        for at in range(count):
            x = slot.left + starts[1] + at * pitch + NUMBER_MM - WHITE_MM / 2
            canvas.box((x, y), (BOX_MM, BOX_MM), width=BOX_RULE_MM)
