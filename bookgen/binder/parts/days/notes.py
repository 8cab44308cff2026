"""What a plan of days tells between its days: days away, lessons on free days, bars to play."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from typing import Final

from bookgen.binder.page.canvas import Canvas, Face, Style
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.typeset import shorten
from bookgen.binder.parts.days.grid import LEAST_WHITE_MM, Grid, draw_date, ring_radius
from bookgen.binder.parts.days.signs import FIGURE
from bookgen.plan.calendar import NO_HOLIDAYS, Calendar, days_between
from bookgen.plan.document import Binding, Day
from bookgen.words.ahead import play_the_bars
from bookgen.words.days import away, lesson

ROW_SHARE: Final = 0.6
"""Height of a note's row, as a share of a line of items."""


@dataclass(frozen=True, slots=True)
class Note:
    """Words between the days.

    date: below whose row, or where that day would stand; last: of the days of which they tell.
    beside: its date stands beside them.
    """

    date: Date
    last: Date
    words: str
    beside: bool = False


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
        x, face = self.left, Face.BOLD
        if self.note.beside:
            draw_date(canvas, (x, y), self.date, self.grid, desk)
            x, face = x + self.grid.dates, Face.REGULAR
        style = Style(face, measures.weekday_pt)
        room = self.room - (x - self.left)
        canvas.text((x, y), shorten(self.note.words, room, style, canvas), style)


def note_height(grid: Grid) -> float:
    """Height of a note's row: one line, and the ring round a date."""
    return max(ROW_SHARE * grid.level.row_mm, 2 * ring_radius(grid.level) + LEAST_WHITE_MM)


def calendar_of(binding: Binding | None) -> Calendar:
    """The calendar with which a plan was bound."""
    return (binding.calendar if binding else None) or NO_HOLIDAYS


def notes_of(
    days: Sequence[Day], binding: Binding | None, span: tuple[Date, Date], desk: Desk
) -> list[Note]:
    """The notes to some days of a plan in their order.

    span: first and last day for which they are meant.
    """
    calendar, speech = calendar_of(binding), desk.speech
    practised = {day.date for day in days}
    found = [
        Note(run.first, run.last, away(run.first, run.last, speech))
        for run in calendar.between(*span).away
    ]
    found += [
        Note(date, date, lesson(speech), beside=True)
        for date in days_between(*span)
        if calendar.is_lesson(date) and date not in practised
    ]
    deadlines = binding.deadlines if binding else ()
    found += [
        Note(day.date, day.date, play_the_bars(one, desk.clean(one.title), speech))
        for day in days
        for one in deadlines
        if one.is_close(day.date)
    ]
    return sorted(found, key=lambda note: note.date)
