"""The days of a booklet as a calendar: which numbers come on which day, and a box to tick."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from datetime import timedelta
from typing import Final

from bookgen.binder.canvas import Canvas, Face, Style
from bookgen.binder.desk import Desk
from bookgen.binder.english import MONTHS, WEEKDAYS, numbers_name
from bookgen.binder.typeset import ASCENT, MM_PER_POINT, line_height, shorten
from bookgen.plan.document import Character, Day

COLUMNS: Final = 7
LEAST_ROW_MM: Final = 11.5
MOST_ROW_MM: Final = 22.0
MOST_WEEKS: Final = 10
"""A calendar of more weeks than that tells less than the weeks' own pages."""

BOX_MM: Final = 3.2
INSET_MM: Final = 1.1


@dataclass(frozen=True, slots=True)
class Calendar:
    """Weeks from Monday to Sunday.

    words: for days of rest, lighter days and tests.
    """

    desk: Desk
    span: tuple[Date, Date]
    days: Mapping[Date, Day]
    words: Mapping[str, str]

    @property
    def weeks(self) -> list[list[Date]]:
        """All dates of the weeks that the booklet touches."""
        first, last = self.span
        monday = first - timedelta(days=first.weekday())
        count = (last - monday).days // COLUMNS + 1
        return [
            [monday + timedelta(days=COLUMNS * week + day) for day in range(COLUMNS)]
            for week in range(count)
        ]

    @property
    def head(self) -> float:
        """Height of the weekdays' names."""
        sizes = self.desk.layout.text
        return line_height(sizes.small, sizes.leading) + 0.6

    def height(self, row: float) -> float:
        """Height with rows of that height."""
        return self.head + len(self.weeks) * row

    def row_in(self, room: float) -> float | None:
        """The height of a row in that room, or None where it would be too low."""
        row = min((room - self.head) / len(self.weeks), MOST_ROW_MM)
        return row if row >= LEAST_ROW_MM and len(self.weeks) <= MOST_WEEKS else None


def calendar_of(
    days: Sequence[Day], span: tuple[Date, Date], desk: Desk, words: Mapping[str, str]
) -> Calendar:
    """The calendar of a booklet's days."""
    first, last = min(span[0], days[0].date), max(span[1], days[-1].date)
    return Calendar(desk, (first, last), {day.date: day for day in days}, words)


def draw_calendar(canvas: Canvas, found: Calendar, left: float, top: float, row: float) -> None:
    """Draw a calendar with its upper left corner there.

    row: height of a week, in millimetres.
    """
    desk = found.desk
    width = desk.sheet.column / COLUMNS
    small = Style(Face.BOLD, desk.layout.text.small)
    baseline = top - small.size * ASCENT * MM_PER_POINT
    for column, name in enumerate(WEEKDAYS):
        canvas.text((left + column * width + INSET_MM, baseline), name[:3], small)
    y = top - found.head
    bottom = y - row * len(found.weeks)
    for week, dates in enumerate(found.weeks):
        canvas.line((left, y - week * row), (left + COLUMNS * width, y - week * row), width=0.2)
        for column, date in enumerate(dates):
            if found.span[0] <= date <= found.span[1]:
                corner = (left + column * width, y - week * row)
                draw_date(canvas, found, date, corner, width)
    canvas.line((left, bottom), (left + COLUMNS * width, bottom), width=0.2)
    for column in range(1, COLUMNS):
        x = left + column * width
        canvas.line((x, y), (x, bottom), width=0.1)


def draw_date(
    canvas: Canvas, found: Calendar, date: Date, corner: tuple[float, float], width: float
) -> None:
    """One date: its number, a box, the numbers of its drills, what sort of day it is."""
    sizes = found.desk.layout.text
    left, top = corner[0] + INSET_MM, corner[1] - INSET_MM
    bold, small = Style(Face.BOLD, sizes.body), Style(Face.REGULAR, sizes.small * 0.9)
    number = str(date.day)
    if date.day == 1 or date == found.span[0]:
        number = f"{number} {MONTHS[date.month - 1][:3]}"
    canvas.text((left, top - bold.size * ASCENT * MM_PER_POINT), number, bold)
    day = found.days.get(date)
    words = [numbers_name([p.number for p in day.drills])] if day else [found.words["rest"]]
    if day and day.character is not Character.ORDINARY:
        words.append(found.words[day.character.value])
    step = line_height(small.size, sizes.leading)
    y = top - line_height(sizes.body, sizes.leading) - small.size * ASCENT * MM_PER_POINT
    room = width - 2 * INSET_MM
    for row, text in enumerate(words):
        shown = shorten(text, room, small, found.desk.fonts)
        canvas.text((left, y - row * step), shown, small)
    if day:
        x = corner[0] + width - INSET_MM - BOX_MM
        canvas.box((x, top - BOX_MM), (BOX_MM, BOX_MM), width=0.25)
