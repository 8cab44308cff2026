"""Head and foot of a page: who, when, where on the fingerboard, how long; and the caution."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from bookgen.binder.canvas import Canvas, Face, Style
from bookgen.binder.layout import Layout, Sheet
from bookgen.binder.map import Strip, draw_strip
from bookgen.binder.typeset import (
    ASCENT,
    MM_PER_POINT,
    Line,
    Paragraph,
    draw_line,
    line_height,
    wrap,
)

RULE_MM: Final = 0.35
WHITE_MM: Final = 3.5
"""Between the head's rule and the first drill, and between the last one and the foot's."""

STRIP_SHARE: Final = 0.36
"""Of the column's width, for the strip of the fingerboard."""

STRIP_GAP_MM: Final = 6.0


@dataclass(frozen=True, slots=True)
class Frame:
    """What stands around the drills of a page.

    when: date and minutes; today: instrument, positions and strings; both in lines that leave
        room for the strip.
    first: the page is the day's first and has the whole head.
    named: the player has a name; else there is a line to write it.
    """

    words: Mapping[str, Paragraph]
    sheet: Sheet
    layout: Layout
    strip: Strip
    when: tuple[Line, ...]
    today: tuple[Line, ...]
    first: bool
    named: bool

    def line(self, part: str) -> Line:
        """The words of a part as one line; empty where the template leaves it out."""
        found = self.words.get(part)
        return found.pieces if found else ()

    def plain(self, part: str) -> str:
        """The words of a part without weight."""
        found = self.words.get(part)
        return found.plain if found else ""

    @property
    def head_height(self) -> float:
        """From the upper margin to where the drills begin."""
        sizes = self.layout.text
        if not self.first:
            return line_height(sizes.body, sizes.leading) + WHITE_MM
        link = line_height(sizes.link, sizes.leading)
        rows = line_height(sizes.name, sizes.leading) + len((*self.when, *self.today)) * link
        return max(rows, self.strip.height + link) + WHITE_MM

    def foot_lines(self, canvas: Canvas) -> list[Line]:
        """The key of signs on the first page, and the caution, beside the page's number."""
        size = self.layout.text.small
        number = canvas.width(self.plain("page"), Style(Face.BOLD, size))
        room = self.sheet.column - number - 8.0
        key = wrap(self.line("key"), room, size, canvas) if self.first else []
        return [*key, *wrap(self.line("caution"), room, size, canvas)]

    def foot_height(self, canvas: Canvas) -> float:
        """From where the drills end to the lower margin."""
        sizes = self.layout.text
        step = line_height(sizes.small, sizes.leading)
        return len(self.foot_lines(canvas)) * step + 1.2 + WHITE_MM

    def room(self, canvas: Canvas) -> float:
        """Height left for drills."""
        between = self.sheet.top - self.sheet.bottom
        return between - self.head_height - self.foot_height(canvas)


def draw_frame(canvas: Canvas, frame: Frame) -> None:
    """Draw head and foot."""
    (draw_first_head if frame.first else draw_running_head)(canvas, frame)
    rule = frame.sheet.top - frame.head_height + WHITE_MM - 1.0
    draw_rule(canvas, frame.sheet, rule)
    draw_foot(canvas, frame)


def draw_rule(canvas: Canvas, sheet: Sheet, y: float) -> None:
    """A line over the column."""
    left = sheet.margins.left
    canvas.line((left, y), (left + sheet.column, y), width=RULE_MM)


def draw_first_head(canvas: Canvas, frame: Frame) -> None:
    """Name, date, minutes and the strip of the fingerboard."""
    sheet, sizes = frame.sheet, frame.layout.text
    left, right = sheet.margins.left, sheet.margins.left + sheet.column
    name = Style(Face.BOLD, sizes.name)
    baseline = sheet.top - sizes.name * ASCENT * MM_PER_POINT
    if frame.named:
        canvas.text((left, baseline), frame.plain("name"), name)
    else:
        label = Style(Face.REGULAR, sizes.link)
        canvas.text((left, baseline), frame.plain("name"), label)
        start = left + canvas.width(frame.plain("name"), label) + 2.0
        end = right - frame.strip.width - STRIP_GAP_MM
        canvas.line((start, baseline - 0.6), (end, baseline - 0.6), width=0.25)
    step = line_height(sizes.link, sizes.leading)
    baseline -= line_height(sizes.name, sizes.leading)
    for row, line in enumerate((*frame.when, *frame.today)):
        draw_line(canvas, (left, baseline - row * step), line, sizes.link)
    studio, small = frame.plain("studio"), Style(Face.REGULAR, sizes.body)
    top = sheet.top - sizes.body * ASCENT * MM_PER_POINT
    canvas.text((right - canvas.width(studio, small), top), studio, small)
    strip_top = sheet.top - line_height(sizes.link, sizes.leading)
    draw_strip(canvas, frame.strip, right - frame.strip.width, strip_top, sizes.small)


def draw_running_head(canvas: Canvas, frame: Frame) -> None:
    """Who and when, in one line."""
    size = frame.layout.text.body
    baseline = frame.sheet.top - size * ASCENT * MM_PER_POINT
    draw_line(canvas, (frame.sheet.margins.left, baseline), frame.line("running"), size)


def draw_foot(canvas: Canvas, frame: Frame) -> None:
    """The caution and the page's number."""
    sheet, sizes = frame.sheet, frame.layout.text
    lines = frame.foot_lines(canvas)
    step = line_height(sizes.small, sizes.leading)
    top = sheet.bottom + len(lines) * step
    draw_rule(canvas, sheet, top + 1.2)
    first = top - sizes.small * ASCENT * MM_PER_POINT - 0.6
    for row, line in enumerate(lines):
        draw_line(canvas, (sheet.margins.left, first - row * step), line, sizes.small)
    style = Style(Face.BOLD, sizes.small)
    number = frame.plain("page")
    right = sheet.margins.left + sheet.column
    canvas.text((right - canvas.width(number, style), first), number, style)
