"""The numbers of a booklet's log, day by day, shared out over columns and pages."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Final

from bookgen.binder.english import short_date
from bookgen.binder.furniture import Furniture
from bookgen.binder.typeset import Line, Paragraph, line_height, wrap
from bookgen.plan.document import Character, Day

LOG_PARTS: Final = frozenset({"outline", "running", "text", "secure", "not-yet", "test"})
COLUMN_MM: Final = 39.0
"""The least width of a column: a number, two boxes and the words over them."""

LEAST_WHITE_MM: Final = 1.4
MOST_WHITE_MM: Final = 3.4
"""Between two rows; as much as the pages have."""

GROUP_WHITE_MM: Final = 1.6
HEAD_WHITE_MM: Final = 1.5
LEAST_ROWS: Final = 2
"""Fewest numbers of a day at the end or the beginning of a column."""


@dataclass(frozen=True, slots=True)
class LogDay:
    """A day's heading and the numbers of its drills."""

    heading: str
    numbers: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Log:
    """The log, filled.

    intro: above the columns, in lines; secure, not_yet: over the boxes.
    white: between two rows, in millimetres.
    """

    furniture: Furniture
    intro: tuple[Line, ...]
    secure: str
    not_yet: str
    days: tuple[LogDay, ...]
    white: float = LEAST_WHITE_MM

    @property
    def columns(self) -> int:
        """How many columns a page has."""
        return max(int(self.furniture.desk.sheet.column // COLUMN_MM), 1)

    @property
    def row(self) -> float:
        """Height of a number's row, in millimetres."""
        return self.furniture.desk.layout.booklet.tick + self.white

    @property
    def line(self) -> float:
        """Height of a line of words."""
        sizes = self.furniture.desk.layout.text
        return line_height(sizes.body, sizes.leading)

    @property
    def head(self) -> float:
        """Height of the words over a column's boxes."""
        return self.line + HEAD_WHITE_MM

    @property
    def intro_height(self) -> float:
        """Height of the words above the first page's columns."""
        return len(self.intro) * self.line + HEAD_WHITE_MM

    def height(self, day: LogDay) -> float:
        """Height of a day in its column."""
        return self.line + len(day.numbers) * self.row + GROUP_WHITE_MM

    def room(self, page: int) -> float:
        """Height of the columns of a page, counted from 0."""
        return self.furniture.room - self.head - (0.0 if page else self.intro_height)


def log_of(days: Sequence[Day], found: Sequence[Paragraph], furniture: Furniture) -> Log:
    """Fill the log.

    found: what log.j2 prints.
    """
    plain = {paragraph.part: paragraph.plain for paragraph in found}
    desk = furniture.desk
    text = next((p.pieces for p in found if p.part == "text"), ())
    test = plain.get("test", "")
    return Log(
        furniture=furniture,
        intro=tuple(wrap(text, desk.sheet.column, desk.layout.text.body, desk.fonts)),
        secure=plain.get("secure", ""),
        not_yet=plain.get("not-yet", ""),
        days=tuple(
            LogDay(
                short_date(day.date) + (f" · {test}" if day.character is Character.TEST else ""),
                tuple(planned.number for planned in day.drills),
            )
            for day in days
        ),
    )


def loosened(log: Log, good: Callable[[Log], bool]) -> Log:
    """The log with its rows as far apart as it stays good."""
    low, high = LEAST_WHITE_MM, MOST_WHITE_MM
    while high - low > 0.05:  # noqa: PLR2004 - far below what the eye sees
        middle = (low + high) / 2
        if good(replace(log, white=middle)):
            low = middle
        else:
            high = middle
    return replace(log, white=low)


Columns = list[list[LogDay]]


def columns_of(log: Log, days: Sequence[LogDay], room: float) -> Columns:
    """Fill columns of that height one after the other; a day may go on in the next."""
    columns: Columns = [[]]
    used = 0.0
    for whole in days:
        day = whole
        while used + log.height(day) - GROUP_WHITE_MM > room:
            count = int((room - used - log.line) // log.row)
            count = min(count, len(day.numbers) - LEAST_ROWS)
            if count >= LEAST_ROWS:
                columns[-1].append(LogDay(day.heading, day.numbers[:count]))
                day = LogDay(day.heading, day.numbers[count:])
            elif not columns[-1]:
                break
            columns.append([])
            used = 0.0
        columns[-1].append(day)
        used += log.height(day)
    return columns


def pages_of(log: Log) -> list[Columns]:
    """Columns of each page; those of the last page are as low as can be."""
    pages: list[Columns] = []
    last: Sequence[LogDay] = log.days
    rest: Sequence[LogDay] = log.days
    while rest:
        last = rest
        pages.append(columns_of(log, rest, log.room(len(pages)))[: log.columns])
        rest = after(rest, pages[-1])
    low, high = 0.0, log.room(len(pages) - 1)
    while high - low > 1.0:
        middle = (low + high) / 2
        if len(columns_of(log, last, middle)) <= log.columns:
            high = middle
        else:
            low = middle
    return [*pages[:-1], columns_of(log, last, high)]


def after(days: Sequence[LogDay], columns: Columns) -> list[LogDay]:
    """What of the days has no place in these columns."""
    count = sum(len(day.numbers) for column in columns for day in column)
    rest: list[LogDay] = []
    for day in days:
        kept = day.numbers[min(count, len(day.numbers)) :]
        count -= len(day.numbers) - len(kept)
        if kept:
            rest.append(LogDay(day.heading, kept))
    return rest
