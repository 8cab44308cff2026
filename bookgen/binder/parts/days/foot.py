"""The foot of a plan of days: tuning, caution, and a word on the squares that judge a photo."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from bookgen.binder.page.canvas import Canvas
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.paper import PAPERS
from bookgen.binder.page.typeset import Line, cut, draw_line, line_height, wrap
from bookgen.binder.parts.days.grid import DESCENT, side_of
from bookgen.binder.parts.days.marks import Marks
from bookgen.binder.parts.days.signs import FIGURE
from bookgen.words.days import leave_squares
from bookgen.words.front import caution
from bookgen.words.tuning import tuning_line

INSIDE_MM: Final = 2.0


@dataclass(frozen=True, slots=True)
class Foot:
    """The words of the foot, measured: another tuning, the caution, and a word on the squares.

    left: where they begin; first: baseline of the first line; top: where the days must end.
    """

    lines: Sequence[Line]
    left: float
    first: float
    top: float


def foot_of(desk: Desk, marks: Marks) -> Foot:
    """Words between the squares, as many lines as these are high; else over them."""
    size, side = desk.layout.text.small_pt, side_of(desk)
    step, corner = line_height(size, desk.layout.text.leading), marks.corners[-1]
    white = desk.layout.days.foot_white_mm
    left, right = marks.inner
    lines = foot_lines(desk, right - left - 2 * INSIDE_MM)
    if len(lines) * step <= max(corner.side, 2 * step):
        free = max(corner.side - len(lines) * step, 0.0)
        last = corner.bottom + free / 2 + DESCENT * size
        top = max(corner.top, corner.bottom + len(lines) * step)
        return Foot(lines, left + INSIDE_MM, last + (len(lines) - 1) * step, top + white)
    lines = foot_lines(desk, PAPERS[desk.paper][0] - 2 * side)
    last = corner.top + INSIDE_MM + DESCENT * size
    top = last + (len(lines) - 1) * step + size * FIGURE
    return Foot(lines, side, last + (len(lines) - 1) * step, top + white)


def foot_lines(desk: Desk, room: float) -> list[Line]:
    """A line for each sentence, or the sentences run on where a line is short."""
    tuned = tuning_line(desk.instrument, desk.speech)
    sentences = [*filter(None, [tuned]), caution(desk.speech), leave_squares(desk.speech)]

    def lines(words: str) -> list[Line]:
        return wrap(cut(words), room, desk.layout.text.small_pt, desk.fonts)

    apart = [line for words in sentences for line in lines(words)]
    return apart if len(apart) == len(sentences) else lines(" ".join(sentences))


def draw_foot(canvas: Canvas, marks: Marks, desk: Desk) -> None:
    """Draw the words of the foot."""
    size, foot = desk.layout.text.small_pt, foot_of(desk, marks)
    step = line_height(size, desk.layout.text.leading)
    for row, line in enumerate(foot.lines):
        draw_line(canvas, (foot.left, foot.first - row * step), line, size)
