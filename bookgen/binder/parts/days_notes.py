"""What a plan of days tells between its days: when nobody practises, and lessons on free days."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from typing import Final

from bookgen.binder.page.canvas import Canvas, Face, Style
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.typeset import shorten
from bookgen.binder.parts.days_grid import LEAST_WHITE_MM, Grid, draw_date, ring_radius
from bookgen.binder.parts.days_signs import FIGURE
from bookgen.plan.calendar import NO_HOLIDAYS, Calendar, days_between
from bookgen.plan.document import Day, Plan
from bookgen.words.days import away, lesson

ROW_SHARE: Final = 0.6
"""Height of a note's row, as a share of a line of items."""


@dataclass(frozen=True, slots=True)
class Note:
    """Days away, or a lesson on a day without practice: then the first day is the last."""

    first: Date
    last: Date
    lesson: bool = False

    @property
    def date(self) -> Date:
        """Where it stands among the days."""
        return self.first


@dataclass(frozen=True, slots=True)
class PlacedNote:
    """A note on its page; measures as those of a day.

    room: width of the whole line.
    """

    note: Note
    grid: Grid
    left: float
    top: float
    extra: float
    new_week: bool
    room: float

    @property
    def date(self) -> Date:
        """When it begins."""
        return self.note.date

    @property
    def bottom(self) -> float:
        """Its lower edge."""
        return self.top - note_height(self.grid) - self.extra

    def draw(self, canvas: Canvas, desk: Desk) -> None:
        """Draw the words on one line, beside its date where it has only one."""
        measures, level = desk.layout.days, self.grid.level
        high = level.number_pt * FIGURE
        y = (self.top + self.bottom - high) / 2
        style = Style(Face.BOLD, measures.weekday_pt)
        if self.note.lesson:
            draw_date(canvas, (self.left, y), self.note.date, self.grid, desk)
            x = self.left + self.grid.dates
            canvas.text((x, y), lesson(desk.speech), Style(Face.REGULAR, measures.weekday_pt))
        else:
            words = away(self.note.first, self.note.last, desk.speech)
            canvas.text((self.left, y), shorten(words, self.room, style, canvas), style)


def note_height(grid: Grid) -> float:
    """Height of a note's row: one line, and the ring round a date."""
    return max(ROW_SHARE * grid.level.row_mm, 2 * ring_radius(grid.level) + LEAST_WHITE_MM)


def calendar_of(plan: Plan) -> Calendar:
    """The calendar with which a plan was bound."""
    return (plan.binding.calendar if plan.binding else None) or NO_HOLIDAYS


def notes_of(days: Sequence[Day], calendar: Calendar, span: tuple[Date, Date]) -> Iterator[Note]:
    """The notes of a plan in their order.

    span: first and last day for which it is meant.
    """
    practised = {day.date for day in days}
    for run in calendar.between(*span).away:
        yield Note(run.first, run.last)
    for date in days_between(*span):
        if calendar.is_lesson(date) and date not in practised:
            yield Note(date, date, lesson=True)
