"""A day as people write it: 1.12.2026, 12/1/26, 1 Dec, in the order of a locale."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from enum import StrEnum
from functools import cached_property
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from babel import Locale

TIME: Final = re.compile(r"[T\s]+\d{1,2}:\d{2}.*")
"""A time of day behind a date, as tables print it."""

YEAR_FIRST: Final = re.compile(r"(\d{4})([./-])(\d{1,2})\2(\d{1,2})")
YEAR_LAST: Final = re.compile(r"(\d{1,2})\s?([./-])\s?(\d{1,2})(?:\s?\2\s?(\d{4}|\d{2})?)?")
WORDS: Final = re.compile(r"[^\W\d_]+|\d+")
LONGEST_DAY: Final = 2
"""Figures of a day; more are a year."""

CENTURY: Final = 2000
"""In which years of two figures are meant."""


class Order(StrEnum):
    """What comes first where a day is written in figures with its year last."""

    DAY = "day/month/year"
    MONTH = "month/day/year"


@dataclass(frozen=True)
class Calendar:
    """How days are written here.

    locale: None where the machine does not say one; the names of months are English then.
    today: the last day that a date without its year can be.
    """

    locale: "Locale | None"
    today: Date

    @classmethod
    def of(cls, locale: str | None, today: Date) -> "Calendar":
        """How days are written in a locale, e.g. "de_DE"; one that CLDR does not know is none."""
        from babel import Locale, UnknownLocaleError  # noqa: PLC0415  slow to import

        try:
            return cls(None if locale is None else Locale.parse(locale), today)
        except (UnknownLocaleError, ValueError):
            return cls(None, today)

    @property
    def usual(self) -> Order | None:
        """The order of the locale by CLDR; None where it is not known."""
        if self.locale is None:
            return None
        pattern = str(self.locale.date_formats["short"].pattern)
        return Order.DAY if pattern.find("d") < pattern.find("M") else Order.MONTH

    @cached_property
    def months(self) -> Mapping[str, int]:
        """Months by their names and short names, in small letters."""
        from babel import Locale  # noqa: PLC0415  slow to import

        spoken = (Locale("en"), self.locale or Locale("en"))
        return {
            name.casefold().rstrip("."): month
            for locale in spoken
            for context in locale.months.values()
            for width in ("abbreviated", "wide")
            for month, name in context.get(width, {}).items()
        }

    @cached_property
    def weekdays(self) -> frozenset[str]:
        """Names of weekdays, in small letters."""
        from babel import Locale  # noqa: PLC0415  slow to import

        spoken = (Locale("en"), self.locale or Locale("en"))
        return frozenset(
            name.casefold().rstrip(".")
            for locale in spoken
            for context in locale.days.values()
            for width in context.values()
            for name in width.values()
        )

    def order_of(self, texts: Iterable[str]) -> Order | None:
        """The order in which most of a table's days can be; the locale's where both can.

        Returns None where both can be and no locale says which.

        >>> here = Calendar(None, Date(2026, 12, 31))
        >>> here.order_of(["3/4/2026", "25/4/2026"]).value, here.order_of(["3/4/2026"])
        ('day/month/year', None)
        """
        figures = list(texts)
        known = {order: sum(self.day(t, order) is not None for t in figures) for order in Order}
        if known[Order.DAY] == known[Order.MONTH]:
            return self.usual
        return max(Order, key=known.__getitem__)

    def day(self, text: str, order: Order) -> Date | None:
        """The day that a text means, or None.

        >>> here = Calendar(None, Date(2026, 12, 31))
        >>> [str(here.day(t, Order.DAY)) for t in ("1.12.26", "1 Dec", "2026-12-01 00:00")]
        ['2026-12-01', '2026-12-01', '2026-12-01']
        """
        bare = TIME.sub("", text.strip())
        if found := YEAR_FIRST.fullmatch(bare):
            return self.dated(int(found[4]), int(found[3]), found[1])
        found = YEAR_LAST.fullmatch(bare)
        if found is None:
            return self.in_words(bare)
        first, second = int(found[1]), int(found[3])
        if found[2] != "." and order is Order.MONTH:
            first, second = second, first
        return self.dated(first, second, found[4])

    def in_words(self, text: str) -> Date | None:
        """A day whose month is written as a word, with or without its weekday and year."""
        words = [word.casefold() for word in WORDS.findall(text)]
        named = [word for word in words if not word.isdigit() and word not in self.weekdays]
        numbers = [word for word in words if word.isdigit()]
        if len(named) != 1 or named[0] not in self.months or len(numbers) not in {1, 2}:
            return None
        if len(numbers[0]) > LONGEST_DAY:
            numbers.reverse()
        day, year = numbers[0], numbers[1] if len(numbers) > 1 else None
        return self.dated(int(day), self.months[named[0]], year)

    def dated(self, day: int, month: int, year: str | None) -> Date | None:
        """The day; without a year the last one of that name up to today."""
        if year is None:
            years = [self.today.year - back for back in range(9)]  # a leap day is no older
            found = [one for one in (made(y, month, day) for y in years) if one is not None]
            return next((one for one in found if one <= self.today), None)
        return made(int(year) + CENTURY * (len(year) == LONGEST_DAY), month, day)


def made(year: int, month: int, day: int) -> Date | None:
    """A day of the calendar, or None where there is no such day."""
    try:
        return Date(year, month, day)
    except ValueError:
        return None
