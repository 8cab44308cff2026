"""A long booklet in sections that are folded by themselves: runs of days with their drills."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from datetime import timedelta
from itertools import accumulate, pairwise
from typing import Final

from bookgen.plan.document import Day, DrillEntry, Plan

MID_WEEK: Final = 0.11
"""Own choice: a cut in the middle of a week costs as much as this share of all drills."""


@dataclass(frozen=True, slots=True)
class Section:
    """Days that are bound together, with the drills that are first met on them, by number."""

    days: Sequence[Day]
    entries: Sequence[DrillEntry]


def sections_of(plan: Plan, count: int) -> list[Section]:
    """Cut a plan into so many sections, or as many as it has days, with about as many drills each.

    A section begins with a week where that makes none of them much longer than the others.
    """
    if count == 1:
        return [Section(plan.days, plan.drills)]
    first_met = first_days(plan)
    starts = [first_met.get(entry.number, 0) for entry in plan.drills]
    met = [starts.count(at) for at in range(len(plan.days))]
    cuts = [0, *cuts_of(plan.days, met, count), len(plan.days)]
    return [
        Section(
            plan.days[start:end],
            [
                entry
                for entry, first in zip(plan.drills, starts, strict=True)
                if start <= first < end
            ],
        )
        for start, end in pairwise(cuts)
    ]


def spans_of(sections: Sequence[Section], whole: tuple[Date, Date]) -> Iterator[tuple[Date, Date]]:
    """The first and the last day for which each section is meant.

    whole: those of the booklet.
    """
    firsts = [whole[0], *(section.days[0].date for section in sections[1:])]
    lasts = [*(first - timedelta(1) for first in firsts[1:]), whole[1]]
    return zip(firsts, lasts, strict=True)


def first_days(plan: Plan) -> dict[int, int]:
    """For each drill the day, counted from 0, on which it is first played."""
    found: dict[int, int] = {}
    for at, day in enumerate(plan.days):
        for item in day.items:
            found.setdefault(item.number, at)
    return found


def cuts_of(days: Sequence[Day], met: Sequence[int], count: int) -> Iterator[int]:
    """Where sections after the first begin: near the even shares, at a week where one is near.

    met: how many drills are first met on each day.
    """
    before = [0, *accumulate(met)]
    last = 0
    for part in range(1, min(count, len(days))):
        goal = before[-1] * part / count
        places = range(last + 1, len(days) - (min(count, len(days)) - part) + 1)

        def price(at: int, goal: float = goal) -> float:
            week = days[at].date.isocalendar()[:2] == days[at - 1].date.isocalendar()[:2]
            return abs(before[at] - goal) + week * before[-1] * MID_WEEK

        last = min(places, key=price)
        yield last
