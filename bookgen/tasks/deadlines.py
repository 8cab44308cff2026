"""What a plan reaches of the passages that are to be ready by a day, and what it would take."""

from collections.abc import Iterator
from math import ceil
from typing import TYPE_CHECKING, Final

from bookgen.errors import Message, told
from bookgen.tasks.plans import Printing

if TYPE_CHECKING:
    from bookgen.planner.request import Goal

ROUND: Final = 5
"""Minutes a day are told in steps of so many."""

MOST_MINUTES: Final = 120
"""No longer day can be planned."""


def deadline_lines(printing: Printing, minutes: int) -> Iterator[Message]:
    """For every passage that is to be ready within a plan: how many of its drills have room.

    minutes: of an ordinary day.
    """
    last = max(day.date for day in printing.plan.days)
    for goal in printing.goals:
        if goal.ready_by <= last:
            yield line_of(goal, reached(goal, printing), minutes)


def reached(goal: "Goal", printing: Printing) -> int:
    """How many of a goal's drills stand on a day before it is to be ready, or on that day."""
    plan = printing.plan
    days = (day for day in plan.days if day.date <= goal.ready_by)
    placed = {plan.by_number[item.number].drill for day in days for item in day.items}
    return len(placed & set(goal.drills))


def line_of(goal: "Goal", placed: int, minutes: int) -> Message:
    """What is reached of a goal, and the minutes a day that would do."""
    total = len(goal.drills)
    facts = {"title": goal.title, "date": goal.ready_by, "total": total, "placed": placed}
    if placed == total:
        return told("{title}: all {total} drills have room by {date}", **facts)
    needed = ceil(minutes * total / max(placed, 1) / ROUND) * ROUND
    if needed > MOST_MINUTES:
        return told(
            "{title}: {placed} of {total} drills have room by {date}; begin sooner, or choose fewer"
            " bars",
            **facts,
        )
    return told(
        "{title}: {placed} of {total} drills have room by {date}; all would take about {minutes}"
        " minutes a day",
        **facts,
        minutes=needed,
    )
