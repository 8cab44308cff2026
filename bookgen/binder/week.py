"""A week at a glance: its days with their drills by kind, days of rest, the test, the map."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from datetime import timedelta
from itertools import groupby
from typing import Final

from bookgen.binder.book_words import BookWords
from bookgen.binder.canvas import Canvas
from bookgen.binder.desk import Desk
from bookgen.binder.english import MONTHS, WEEKDAYS, dates_name, minutes_name, numbers_name
from bookgen.binder.furniture import Furniture
from bookgen.binder.leaf import Leaf, Mark, Side
from bookgen.binder.map import Strip, draw_strip, strip_of
from bookgen.binder.overlay import Placed
from bookgen.binder.pencil import Room, draw_rules
from bookgen.binder.prose import Look, Set, draw_prose, height_of, set_prose
from bookgen.binder.typeset import Paragraph
from bookgen.plan.document import Day, Kind, Plan

WEEK: Final = "week.j2"
WEEK_PARTS: Final = frozenset({"outline", "running", "heading", "date", "drills", "pencil"})
"""What week.j2 may print; each `date` begins a row, and its `drills` follow."""

DATE_SHARE: Final = 0.24
STRIP_SHARE: Final = 0.3
"""Of the column's width, for the dates and for the strips of the fingerboard."""

GAP_MM: Final = 4.0
LEAST_ROW_MM: Final = 7.0
PENCIL_LINES: Final = 4
"""Ruled lines that are kept below the days."""

MOST_SPARE_MM: Final = 16.0
"""White that a row takes beyond what its words need, before the pencil gets the rest."""

ROW_WHITE_MM: Final = 2.4
WEEK_DAYS: Final = 7


@dataclass(frozen=True, slots=True)
class Week:
    """A calendar week of a booklet, from Monday.

    number: from 1, within the booklet; dates: all that belong to the booklet.
    """

    number: int
    dates: tuple[Date, ...]
    days: tuple[Day, ...]


@dataclass(frozen=True, slots=True)
class WeekDay:
    """What week.j2 may say of a date.

    drills: numbers by kind, in the order in which the kinds come; none on a day of rest.
    """

    weekday: str
    date: str
    minutes: str
    character: str
    drills: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class WeekWords:
    """What week.j2 may say of a week, as `week`."""

    number: int
    dates: str
    days: tuple[WeekDay, ...]


@dataclass(frozen=True, slots=True)
class Row:
    """A date's row, measured; without a strip on a day of rest."""

    date: list[Set]
    drills: list[Set]
    strip: Strip | None

    @property
    def height(self) -> float:
        """The least height of the row in millimetres."""
        strip = self.strip.height if self.strip else 0.0
        parts = (height_of(self.date), height_of(self.drills), strip, LEAST_ROW_MM - ROW_WHITE_MM)
        return max(parts) + ROW_WHITE_MM


def weeks_of(plan: Plan, span: tuple[Date, Date]) -> list[Week]:
    """The calendar weeks of a plan that hold at least one day of practice."""
    first, last = min(span[0], plan.days[0].date), max(span[1], plan.days[-1].date)
    dates = [first + timedelta(days=day) for day in range((last - first).days + 1)]
    weeks: list[Week] = []
    for _, found in groupby(dates, key=lambda date: date.toordinal() - date.weekday()):
        week = tuple(found)
        days = tuple(day for day in plan.days if week[0] <= day.date <= week[-1])
        if days:
            weeks.append(Week(len(weeks) + 1, week, days))
    return weeks


def week_words(week: Week) -> WeekWords:
    """Say what a week is."""
    by_date = {day.date: day for day in week.days}
    days = tuple(week_day(date, by_date.get(date)) for date in week.dates)
    return WeekWords(week.number, dates_name(week.dates[0], week.dates[-1]), days)


def week_day(date: Date, day: Day | None) -> WeekDay:
    """Say what a date brings."""
    kinds: dict[Kind, list[int]] = {}
    for planned in day.drills if day else ():
        kinds.setdefault(planned.kind, []).append(planned.number)
    minutes = sum(planned.minutes for planned in day.drills) if day else 0.0
    return WeekDay(
        weekday=WEEKDAYS[date.weekday()],
        date=f"{date.day} {MONTHS[date.month - 1]}",
        minutes=minutes_name(minutes) if day else "",
        character=day.character.value if day else "rest",
        drills=tuple((kind.value, numbers_name(numbers)) for kind, numbers in kinds.items()),
    )


def week_leaf(week: Week, book: BookWords, furniture: Furniture) -> Leaf:
    """The page at the head of a week.

    Raises:
        BookgenError: the template is damaged.
    """
    desk = furniture.desk
    facts = {"book": book, "week": week_words(week)}
    found = desk.words.fill(WEEK, facts, WEEK_PARTS)
    plain = {paragraph.part: paragraph.plain for paragraph in found}
    rows = rows_of(week, furniture)
    text = desk.layout.text
    look = {"heading": Look(text.name)}
    heading = set_prose(found, look, desk.sheet.column, text.leading, desk.fonts)

    def draw(canvas: Canvas, side: Side) -> Iterator[Placed]:
        top = draw_prose(canvas, heading, side.left, furniture.top) - GAP_MM / 2
        canvas.line((side.left, top), (side.right, top), width=0.2)
        draw_rows(canvas, side, furniture, (rows, top), plain.get("pencil", ""))
        return iter(())

    return Leaf(plain.get("running", ""), (Mark(plain.get("outline", ""), 0),), draw)


def rows_of(week: Week, furniture: Furniture) -> list[Row]:
    """Measure the rows of a week.

    Raises:
        BookgenError: the template is damaged.
    """
    desk = furniture.desk
    rows = []
    words = week_words(week)
    by_date = {day.date: day for day in week.days}
    for date, facts in zip(week.dates, words.days, strict=True):
        one = WeekWords(words.number, words.dates, (facts,))
        found = desk.words.fill(WEEK, {"book": None, "week": one}, WEEK_PARTS)
        day = by_date.get(date)
        rows.append(
            Row(
                date=column(found, "date", DATE_SHARE, desk),
                drills=column(found, "drills", 1 - DATE_SHARE - STRIP_SHARE, desk),
                strip=strip(day, desk) if day else None,
            )
        )
    return rows


def column(found: Sequence[Paragraph], part: str, share: float, desk: Desk) -> list[Set]:
    """The paragraphs of a part, in a column of that share of the page."""
    sizes = desk.layout.text
    look = Look(sizes.body, above=0.3)
    width = desk.sheet.column * share - GAP_MM
    return set_prose(found, {part: look}, width, sizes.leading, desk.fonts)


def strip(day: Day, desk: Desk) -> Strip:
    """Where on the fingerboard a day plays."""
    stops = (note.stop for p in day.drills for event in p.events for note in event.notes)
    return strip_of(stops, desk.instrument, desk.sheet.column * STRIP_SHARE)


def draw_rows(
    canvas: Canvas,
    side: Side,
    furniture: Furniture,
    found: tuple[Sequence[Row], float],
    pencil: str,
) -> None:
    """Draw the rows under each other; the pencil gets what they leave.

    found: the rows, and where they begin.
    """
    rows, top = found
    layout, width = furniture.desk.layout, side.right - side.left
    spare = top - furniture.bottom - sum(row.height for row in rows)
    lines = PENCIL_LINES * layout.pencil.line
    each = max(min((spare - lines) / len(rows), MOST_SPARE_MM), 0.0)
    middle = side.left + width * DATE_SHARE
    right = side.left + width * (1 - STRIP_SHARE)
    for row in rows:
        height = row.height + each
        inner = top - (height - row.height) / 2 - ROW_WHITE_MM / 2
        draw_prose(canvas, row.date, side.left, inner)
        draw_prose(canvas, row.drills, middle, inner)
        if row.strip:
            draw_strip(canvas, row.strip, right, inner, layout.text.small)
        top -= height
        canvas.line((side.left, top), (side.right, top), width=0.2)
    rest = Room(side.left, top, width, top - furniture.bottom)
    draw_rules(canvas, rest, layout, pencil)
