"""A page to copy, on which a teacher or a player writes what is to be played: week by week."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise
from typing import Final

from bookgen.binder.page.canvas import Canvas, Face, Style
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.flow import flow
from bookgen.binder.page.frame import Frame
from bookgen.binder.page.leaf import Leaf, leaves_of
from bookgen.binder.page.piece import WHITE_AT_END, Mark, Piece, Room, Slot
from bookgen.binder.page.placed import Placed
from bookgen.binder.page.prose import Look, piece_of, words_of
from bookgen.binder.page.typeset import ASCENT, MM_PER_POINT, line_height
from bookgen.binder.parts.log_page import BOX_MM, BOX_RULE_MM, RULE_GRAY, RULE_MM, WHITE_MM
from bookgen.binder.structure.tag import ARTIFACT, Role, Tag, paragraph
from bookgen.words import supplement as words

NEW: Final = 3
AGAIN: Final = 4
"""Lines of a day for drills that are new, and for those that come again (own choice)."""

MOST_WEEKS: Final = 4
GAP_MM: Final = 2.0
"""Beside the names of the rows, and beside a box."""

BETWEEN_MM: Final = 5.0
LINE_MM: Final = 0.5
DATE_MM: Final = 34.0
"""Between two weeks at least; the line under the days and between the kinds of rows; to write a
date on."""

LEAST: Final = 0.78
"""Of the height of a line of the log: the lines of a day may be so low."""


def plan_leaves(frame: Frame) -> list[Leaf]:
    """The page: as many weeks as it has room for."""
    desk = frame.desk
    title, column = words.plan_title(desk.speech), desk.sheet.column
    look = Look(desk.layout.text.body_pt)
    intro = piece_of([words_of(words.plan_intro(desk.speech), look, column, desk)], WHITE_MM)
    over = replace(intro, marks=(Mark(title, 0),), keeps=True)
    room = frame.room - intro.height - GAP_MM
    row = desk.layout.supplement.row_mm * LEAST
    weeks = int((room + BETWEEN_MM) // (week_mm(row, desk) + BETWEEN_MM))
    weeks = max(min(weeks, MOST_WEEKS), 1)
    spare = (room + BETWEEN_MM) / weeks - BETWEEN_MM - week_mm(row, desk)
    row = min(row + spare / rows(), desk.layout.supplement.row_mm)
    week = week_piece(row, desk)
    pieces = [over, *(replace(week, above=BETWEEN_MM * bool(at)) for at in range(weeks))]
    columns = Room(1, column, 0.0, frame.room)
    return leaves_of(flow(pieces, lambda _: columns, WHITE_AT_END), frame.top, lambda _: title)


def rows() -> int:
    """Lines of a day: its drills and its minutes."""
    return NEW + AGAIN + 1


def head_mm(desk: Desk) -> float:
    """Height of a week's date and of the names of its days."""
    text = desk.layout.text
    return (
        line_height(text.body_pt, text.leading) + line_height(text.small_pt, text.leading) + GAP_MM
    )


def week_mm(row: float, desk: Desk) -> float:
    """Height of a week whose lines are that high."""
    return head_mm(desk) + rows() * row


def week_piece(row: float, desk: Desk) -> Piece:
    """A week: its days beside each other, each with lines for its drills and a box for each.

    row: height of a line, in millimetres.
    """
    text, speech = desk.layout.text, desk.speech
    bold = Style(Face.BOLD, text.small_pt)
    names, days = words.plan_rows(speech), words.weekdays(speech)
    left = max(desk.fonts.width(name, bold) for name in names) + GAP_MM

    def draw(canvas: Canvas, slot: Slot) -> Iterator[Placed]:
        wide = (slot.width - left) / len(days)
        edges = [slot.left + left + wide * at for at in range(len(days) + 1)]
        table = Tag(Role.TABLE)
        draw_head(canvas, slot, edges, days, desk, table)
        top = slot.top - head_mm(desk)
        with canvas.tagged(ARTIFACT):
            draw_lines(canvas, slot.left, top, edges, row)
        for line, name in zip((0, NEW, NEW + AGAIN), names, strict=True):
            y = top - (line + 0.5) * row - bold.size * ASCENT * MM_PER_POINT / 2
            whole = Tag(Role.ROW, within=table)
            cells = [Tag(Role.CELL, within=whole) for _ in days]
            with canvas.tagged(Tag(Role.OVER, within=whole, scope="Row")):
                canvas.text((slot.left, y), name, bold)
            canvas.reading(*cells)
        with canvas.tagged(ARTIFACT):
            draw_boxes(canvas, top, edges, row)
        return iter(())

    return Piece(week_mm(row, desk), draw, called=words.plan_title(speech))


def draw_lines(canvas: Canvas, left: float, top: float, edges: list[float], row: float) -> None:
    """The lines of a week: those under days and between kinds of rows strong."""
    for line in range(rows() + 1):
        y = top - line * row
        strong = line in {0, NEW, NEW + AGAIN, rows()}
        ends = (left if strong else edges[0], y), (edges[-1], y)
        width, gray = (LINE_MM, 0.0) if strong else (RULE_MM, RULE_GRAY)
        canvas.line(*ends, width=width, gray=gray)
    for x in edges:
        ends = (x, top), (x, top - rows() * row)
        canvas.line(*ends, width=RULE_MM, gray=RULE_GRAY)


def draw_boxes(canvas: Canvas, top: float, edges: list[float], row: float) -> None:
    """A box for each drill of each day."""
    for line in range(NEW + AGAIN):
        y = top - (line + 0.5) * row - BOX_MM / 2
        for _, right in pairwise(edges):
            canvas.box((right - GAP_MM / 2 - BOX_MM, y), (BOX_MM, BOX_MM), width=BOX_RULE_MM)


def draw_head(
    canvas: Canvas, slot: Slot, edges: list[float], days: list[str], desk: Desk, table: Tag
) -> None:
    """A line for the date of the week, and the names of its days.

    table: as what the week is read.
    """
    text = desk.layout.text
    plain, bold = Style(Face.REGULAR, text.body_pt), Style(Face.BOLD, text.small_pt)
    baseline = slot.top - plain.size * ASCENT * MM_PER_POINT
    said = words.week_from(desk.speech)
    with canvas.tagged(paragraph()):
        canvas.text((slot.left, baseline), said, plain)
    start = slot.left + canvas.width(said, plain) + GAP_MM
    with canvas.tagged(ARTIFACT):
        canvas.line((start, baseline), (start + DATE_MM, baseline), width=RULE_MM, gray=RULE_GRAY)
    over = Tag(Role.ROW, within=table)
    canvas.reading(Tag(Role.CELL, within=over))
    below = slot.top - head_mm(desk) + GAP_MM / 2
    for (left, right), day in zip(pairwise(edges), days, strict=True):
        middle = (left + right - canvas.width(day, bold)) / 2
        with canvas.tagged(Tag(Role.OVER, within=over)):
            canvas.text((middle, below), day, bold)
