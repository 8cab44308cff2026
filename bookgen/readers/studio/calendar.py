"""A player's calendar in studio.toml: days away as intervals of ISO 8601, the lesson's weekday."""

import re
from collections.abc import Iterable
from datetime import date as Date  # noqa: N812
from datetime import timedelta
from typing import Final

from bookgen.errors import Finding, Said, told, within
from bookgen.plan.calendar import Away, Calendar
from bookgen.readers.shown import shown
from bookgen.readers.studio.tables import WEEKDAYS

INTERVAL: Final = re.compile(r"(\d{4}-\d{2}-\d{2})(?:/(.+))?")
DURATION: Final = re.compile(r"P(\d{1,3})([DW])")
END: Final = re.compile(r"(?:(?:\d{4}-)?\d{2}-)?\d{2}")
"""An end that leaves out the year, or year and month, has those of the first day."""


def read_calendar(
    away: Iterable[str], lesson: str | None, place: Said, findings: list[Finding]
) -> Calendar:
    """Days away and lesson; everything that is wrong with them is added to the findings.

    lesson: a weekday as studio.toml writes it.
    place: file and player as the user knows them.
    """
    found = []
    for text in away:
        span = interval_of(text)
        if span is None:
            problem = told("{value} is no run of days", value=shown(text))
            mend = told('write first and last day, e.g. "2026-12-21/2027-01-03"')
            findings.append(Finding(within(place, "away"), problem, mend))
        elif span[1] < span[0]:
            problem = told("{last} lies before {first}", last=span[1], first=span[0])
            mend = told("write the first day first")
            findings.append(Finding(within(place, "away"), problem, mend))
        else:
            found.append(span)
    weekday = None if lesson is None else WEEKDAYS.index(lesson)
    return Calendar(away=tuple(joined(found)), lesson=weekday)


def interval_of(text: str) -> tuple[Date, Date] | None:
    """First and last day of an interval of whole days, both included; None where it is none.

    A day alone is one of a day; a duration counts the first day.

    >>> [str(day) for day in interval_of("2026-12-21/2027-01-03") or ()]
    ['2026-12-21', '2027-01-03']
    >>> interval_of("2026-12-21/P2W") == interval_of("2026-12-21/2027-01-03")
    True
    >>> interval_of("2026-12-21/24") == interval_of("2026-12-21/12-24")
    True

    Source: ISO 8601-1:2019, 5.5.2: start and end, start and duration, end with parts left out.
    """
    match = INTERVAL.fullmatch(text)
    if match is None:
        return None
    start, end = match[1], match[2]
    try:
        first = Date.fromisoformat(start)
        length = DURATION.fullmatch(end or "P1D")
        if length is not None:
            days = int(length[1]) * (7 if length[2] == "W" else 1)
            return (first, first + timedelta(days - 1)) if days else None
        if END.fullmatch(end) is None:
            return None
        return first, Date.fromisoformat(start[: -len(end)] + end)
    except (ValueError, OverflowError):
        return None


def joined(spans: Iterable[tuple[Date, Date]]) -> list[Away]:
    """The same days in order; what meets or follows at once is one run."""
    runs: list[tuple[Date, Date]] = []
    for first, last in sorted(spans):
        if runs and first <= runs[-1][1] + timedelta(1):
            runs[-1] = runs[-1][0], max(runs[-1][1], last)
        else:
            runs.append((first, last))
    return [Away(first=first, last=last) for first, last in runs]
