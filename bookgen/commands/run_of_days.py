"""Which days a booklet has: a month, or from one day to another, without the rest days."""

import argparse
import re
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from bookgen.binder.english import MONTHS, date_name, dates_name
from bookgen.commands.arguments import iso_date
from bookgen.errors import BookgenError, Finding

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

    @property
    def title(self) -> str:
        """The span as it stands on a cover."""
        if self.month:
            return f"{MONTHS[self.first.month - 1]} {self.first.year}"
        if self.first == self.last:
            return date_name(self.first)
        start = f" {self.first.year}" if self.first.year != self.last.year else ""
        first, _, last = dates_name(self.first, self.last).partition(" to ")
        return f"{first}{start} to {last} {self.last.year}"

    def days(self, practice_days: frozenset[int]) -> list[date]:
        """The days to practise; all of them where nobody says which.

        practice_days: weekdays, 0 is Monday.
        """
        every = (self.first + timedelta(n) for n in range((self.last - self.first).days + 1))
        return [day for day in every if not practice_days or day.weekday() in practice_days]


def add_span_arguments(parser: argparse.ArgumentParser) -> None:
    """The options that name the days of a booklet."""
    parser.add_argument("--month", metavar="YYYY-MM", help="all practice days of a month")
    parser.add_argument("--from", dest="first", metavar="D", help="the first day, instead")
    parser.add_argument("--to", dest="last", metavar="D", help="the last day")


def read_span(given: argparse.Namespace) -> Span:
    """The days that were asked for.

    Raises:
        BookgenError: neither a month nor two days were given, or they are none.
    """
    if given.month is not None and (given.first or given.last) is None:
        return month_span(given.month)
    if given.month is not None or given.first is None or given.last is None:
        problem = "the days are not clear"
        mend = "give --month 2026-12, or --from 2026-12-01 --to 2026-12-13"
        raise BookgenError(Finding("command line", problem, mend))
    first, last = (
        read_day(option, text) for option, text in (("--from", given.first), ("--to", given.last))
    )
    if last < first:
        raise BookgenError(Finding("--to", f"{last} lies before {first}", "give a later day"))
    if (last - first).days >= LONGEST:
        problem = f"{(last - first).days + 1} days are too many for a booklet"
        raise BookgenError(Finding("--to", problem, f"give at most {LONGEST} days"))
    return Span(first, last, month=False)


def read_day(option: str, text: str) -> date:
    """The day that was given with an option.

    Raises:
        BookgenError: the text is no date.
    """
    found = iso_date(text)
    if found is None:
        mend = "write year-month-day, e.g. 2026-12-01"
        raise BookgenError(Finding(option, f"{text!r} is no date", mend))
    return found


def month_span(text: str) -> Span:
    """A month from its first day to its last.

    Raises:
        BookgenError: the text is no month.
    """
    match = MONTH.fullmatch(text)
    first = iso_date(f"{text}-01") if match is not None else None
    if first is None or first.year == date.max.year:
        mend = "write year-month, e.g. 2026-12"
        raise BookgenError(Finding("--month", f"{text!r} is no month", mend))
    after = (first + timedelta(31)).replace(day=1)
    return Span(first, after - timedelta(1), month=True)
