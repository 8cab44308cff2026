"""Which days a booklet has: a month, or from one day to another, without the rest days."""

import re
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from bookgen.errors import BookgenError, Finding, told
from bookgen.plan.calendar import NO_HOLIDAYS, Calendar, practice_days_of

LONGEST: Final = 366
"""Days in one booklet; a year of them is more than anyone binds."""

MONTH: Final = re.compile(r"(?P<year>[0-9]{4})-(?P<month>[0-9]{2})")


@dataclass(frozen=True, slots=True)
class Span:
    """From the first day to the last one, both included.

    month: the span is a whole month and was asked for as one.
    """

    first: date
    last: date
    month: bool

    @property
    def name(self) -> str:
        """The span as it stands in a file's name."""
        if self.month:
            return f"{self.first:%Y-%m}"
        if self.first == self.last:
            return self.first.isoformat()
        return f"{self.first.isoformat()}-to-{self.last.isoformat()}"

    def days(self, practice_days: frozenset[int], calendar: Calendar = NO_HOLIDAYS) -> list[date]:
        """The days to practise, without those away; all of them where nobody says which.

        practice_days: weekdays, 0 is Monday.
        """
        return practice_days_of(self.first, self.last, practice_days, calendar)


def span_of(month: str | None, first: str | None, last: str | None) -> Span:
    """The days that were asked for: a month, or from a day to another.

    Raises:
        BookgenError: neither a month nor two days were given, or they are none.
    """
    if month is not None and (first or last) is None:
        return month_span(month)
    if month is not None or first is None or last is None:
        problem = told("the days are not clear")
        mend = told("give --month 2026-12, or --from 2026-12-01 --to 2026-12-13")
        raise BookgenError(Finding(told("command line"), problem, mend))
    return span_between(read_day("--from", first), read_day("--to", last))


def span_between(first: date, last: date) -> Span:
    """From a day to another.

    Raises:
        BookgenError: they do not rise, or are too many for a booklet.
    """
    days = (last - first).days + 1
    if days < 1:
        problem = told("{last} lies before {first}", last=last, first=first)
        raise BookgenError(Finding("--to", problem, told("give a later day")))
    if days > LONGEST:
        problem = told("{number} days are too many for a booklet", number=days)
        raise BookgenError(Finding("--to", problem, told("give at most {most} days", most=LONGEST)))
    return Span(first, last, month=False)


def iso_date(text: str) -> date | None:
    """A calendar date as ISO 8601 writes it with hyphens, or None."""
    try:
        found = date.fromisoformat(text)
    except ValueError:
        return None
    return found if found.isoformat() == text else None


def read_day(option: str, text: str) -> date:
    """The day that was given with an option.

    Raises:
        BookgenError: the text is no date.
    """
    found = iso_date(text)
    if found is None:
        problem = told("{text} is no date", text=repr(text))
        raise BookgenError(Finding(option, problem, told("write year-month-day, e.g. 2026-12-01")))
    return found


def month_span(text: str) -> Span:
    """A month from its first day to its last.

    Raises:
        BookgenError: the text is no month.
    """
    match = MONTH.fullmatch(text)
    first = iso_date(f"{text}-01") if match is not None else None
    if first is None or first.year == date.max.year:
        problem = told("{text} is no month", text=repr(text))
        raise BookgenError(Finding("--month", problem, told("write year-month, e.g. 2026-12")))
    after = (first + timedelta(31)).replace(day=1)
    return Span(first, after - timedelta(1), month=True)
