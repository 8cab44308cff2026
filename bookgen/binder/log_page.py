"""The log at the end of a booklet: a box for secure and one for not yet, number by number."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from bookgen.binder.canvas import Canvas, Face, Style
from bookgen.binder.leaf import Leaf, Mark, Side
from bookgen.binder.log_columns import GROUP_WHITE_MM, Log, LogDay, loosened, pages_of
from bookgen.binder.overlay import Placed
from bookgen.binder.summary import Summary, draw_summary
from bookgen.binder.typeset import ASCENT, MM_PER_POINT, Paragraph, draw_line

NUMBER_SHARE: Final = 0.32
BOX_SHARE: Final = 0.3
SUMMARY_GAP_MM: Final = 6.0
LINES: Final = 4
"""Ruled lines below the summary that go before wider rows."""


def log_leaves(log: Log, summary: Summary, found: Sequence[Paragraph]) -> list[Leaf]:
    """The log's pages, and the summary below it or on a page of its own.

    The rows are as far apart as leaves the summary where it is and the pages as many.
    """
    plain = {paragraph.part: paragraph.plain for paragraph in found}
    count, below = len(pages_of(log)), has_room(log, summary)
    lines = LINES * log.furniture.desk.layout.pencil.line if below else 0.0
    log = loosened(
        log,
        lambda wider: len(pages_of(wider)) == count and has_room(wider, summary, lines) == below,
    )
    pages = log_pages(log)
    if below:
        pages[-1] = replace(pages[-1], summary=summary)
    running = plain.get("running", "")
    marks: list[tuple[Mark, ...]] = [
        (Mark(plain.get("outline", ""), 0),),
        *((),) * (len(pages) - 1),
    ]
    end = (Mark(summary.outline, 0),)
    if below:
        marks[-1] = (*marks[-1], *end)
    leaves = [Leaf(running, mark, page.draw) for page, mark in zip(pages, marks, strict=True)]

    def draw(canvas: Canvas, side: Side) -> Iterator[Placed]:
        draw_summary(canvas, side, summary, log.furniture.top, log.furniture.bottom)
        return iter(())

    return leaves if below else [*leaves, Leaf(summary.running, end, draw)]


def log_pages(log: Log) -> list["LogPage"]:
    """The log's pages, without the summary."""
    return [
        LogPage(log, columns, first=number == 0, summary=None)
        for number, columns in enumerate(pages_of(log))
    ]


def has_room(log: Log, summary: Summary, lines: float = 0.0) -> bool:
    """Whether the summary fits below the last page's columns.

    lines: height of ruled lines beyond the fewest.
    """
    return summary.height + lines <= log_pages(log)[-1].left_over - SUMMARY_GAP_MM


@dataclass(frozen=True, slots=True)
class LogPage:
    """One page of the log; the last may have the summary below."""

    log: Log
    columns: Sequence[Sequence[LogDay]]
    first: bool
    summary: Summary | None

    @property
    def used(self) -> float:
        """Height of the words above and of the highest column."""
        log = self.log
        intro = log.intro_height if self.first else 0.0
        return intro + log.head + max(sum(map(log.height, column)) for column in self.columns)

    @property
    def left_over(self) -> float:
        """Height below the columns."""
        return self.log.furniture.room - self.used

    def draw(self, canvas: Canvas, side: Side) -> Iterator[Placed]:
        """Draw words, columns and summary."""
        log, top = self.log, self.log.furniture.top
        size = log.furniture.desk.layout.text.body
        if self.first:
            for row, line in enumerate(log.intro):
                y = top - row * log.line - size * ASCENT * MM_PER_POINT
                draw_line(canvas, (side.left, y), line, size)
            top -= log.intro_height
        width = (side.right - side.left) / log.columns
        for index, column in enumerate(self.columns):
            draw_column(canvas, log, column, (side.left + index * width, top), width)
            if index:
                x = side.left + index * width - 2.5
                bottom = log.furniture.top - self.used
                canvas.line((x, top), (x, bottom), width=0.15)
        if self.summary:
            y = log.furniture.top - self.used - SUMMARY_GAP_MM
            canvas.line((side.left, y + 3.0), (side.right, y + 3.0), width=0.9)
            draw_summary(canvas, side, self.summary, y, log.furniture.bottom)
        return iter(())


def draw_column(
    canvas: Canvas, log: Log, days: Sequence[LogDay], corner: tuple[float, float], width: float
) -> None:
    """Draw one column: the words over the boxes, then day by day."""
    left, top = corner
    desk = log.furniture.desk
    size, tick = desk.layout.text.body, desk.layout.booklet.tick
    small, bold = Style(Face.REGULAR, desk.layout.text.small), Style(Face.BOLD, size + 1)
    boxes = [left + width * (NUMBER_SHARE + BOX_SHARE * index) for index in range(2)]
    baseline = top - small.size * ASCENT * MM_PER_POINT
    for x, words in zip(boxes, (log.secure, log.not_yet), strict=True):
        canvas.text((x + tick / 2 - canvas.width(words, small) / 2, baseline), words, small)
    y = top - log.head
    for day in days:
        canvas.text((left, y - size * ASCENT * MM_PER_POINT), day.heading, Style(Face.ITALIC, size))
        y -= log.line
        for number in day.numbers:
            middle = y - log.row / 2
            drop = bold.size * ASCENT * MM_PER_POINT / 2
            words = str(number)
            x = left + width * (NUMBER_SHARE - 0.08) - canvas.width(words, bold)
            canvas.text((x, middle - drop), words, bold)
            for corner_x in boxes:
                canvas.box((corner_x, middle - tick / 2), (tick, tick), width=0.3)
            y -= log.row
        y -= GROUP_WHITE_MM
