"""When a player does not practise, and on which weekday the lesson is."""

from collections.abc import Iterator
from datetime import date as Date  # noqa: N812
from datetime import timedelta
from typing import Annotated

import msgspec

from bookgen.plan.facts import Facts


class Away(Facts, frozen=True, kw_only=True):
    """Days without practice, the first and the last one included."""

    first: Date
    last: Date


class Calendar(Facts, omit_defaults=True, frozen=True, kw_only=True):
    """Days away in their order, none of which meet, and the weekday of the lesson, 0 is Monday."""

    away: tuple[Away, ...] = ()
    lesson: Annotated[int, msgspec.Meta(ge=0, le=6)] | None = None

    def away_on(self, date: Date) -> Away | None:
        """The days away among which a day is; None where it is none of them."""
        return next((away for away in self.away if away.first <= date <= away.last), None)

    def is_lesson(self, date: Date) -> bool:
        """Whether the lesson is on that day."""
        return date.weekday() == self.lesson and self.away_on(date) is None

    def between(self, first: Date, last: Date) -> "Calendar":
        """What of it touches these days."""
        here = tuple(away for away in self.away if away.last >= first and away.first <= last)
        return Calendar(away=here, lesson=self.lesson)


NO_HOLIDAYS = Calendar()
"""Nobody is away, and no lesson is told."""


def days_between(first: Date, last: Date) -> Iterator[Date]:
    """The days from a first one to a last one, both included."""
    return (first + timedelta(offset) for offset in range((last - first).days + 1))


def practice_days_of(
    first: Date, last: Date, weekdays: frozenset[int], calendar: Calendar
) -> list[Date]:
    """The days to practise from a first to a last one, both included.

    weekdays: 0 is Monday; where nobody says which, every day is one.

    >>> off = Away(first=Date(2026, 12, 9), last=Date(2026, 12, 11))
    >>> days = practice_days_of(
    ...     Date(2026, 12, 7), Date(2026, 12, 13), frozenset({0, 2}), Calendar(away=(off,))
    ... )
    >>> [str(day) for day in days]
    ['2026-12-07']
    """
    return [
        day
        for day in days_between(first, last)
        if (not weekdays or day.weekday() in weekdays) and calendar.away_on(day) is None
    ]
