"""What a plan reaches of the passages that are to be ready by a day, and what it would take."""

from collections.abc import Iterable
from datetime import date as Date  # noqa: N812
from math import ceil
from typing import TYPE_CHECKING, Final

from msgspec.structs import replace

from bookgen.model.instrument import Instrument
from bookgen.plan.ahead import Deadline
from bookgen.tasks.plans import Printing

if TYPE_CHECKING:
    from bookgen.planner.request import Goal

ROUND: Final = 5
"""Minutes a day are told in steps of so many."""

MOST_MINUTES: Final = 120
"""No longer day can be planned."""


def deadlines_of(printing: Printing, minutes: int, instrument: Instrument) -> tuple[Deadline, ...]:
    """Every passage that is to be ready within a plan, or so soon after it that it is played there.

    minutes: of an ordinary day.
    """
    dates = [day.date for day in printing.plan.days]
    found = (
        with_music(deadline_of(goal, reached(goal, printing), minutes), goal, dates, instrument)
        for goal in printing.goals
    )
    return tuple(one for one in found if one.music or one.ready_by <= max(dates))


def close_deadlines(printing: Printing, date: Date, instrument: Instrument) -> tuple[Deadline, ...]:
    """The passages whose bars are played on a day, for their own day is close."""
    found = (
        (Deadline(title=goal.title, bars=goal.bars, ready_by=goal.ready_by), goal)
        for goal in printing.goals
    )
    return tuple(
        with_music(deadline, goal, [date], instrument)
        for deadline, goal in found
        if deadline.is_close(date)
    )


def with_music(
    deadline: Deadline, goal: "Goal", dates: Iterable[Date], instrument: Instrument
) -> Deadline:
    """A deadline with the bars themselves, where some of the days is close to it."""
    if goal.passage is None or not any(map(deadline.is_close, dates)):
        return deadline
    from bookgen.notation.musicxml import passage_musicxml  # noqa: PLC0415  where wanted

    return replace(deadline, music=passage_musicxml(goal.passage, instrument).decode())


def reached(goal: "Goal", printing: Printing) -> int:
    """How many of a goal's drills stand on a day before it is to be ready, or on that day."""
    plan = printing.plan
    days = (day for day in plan.days if day.date <= goal.ready_by)
    placed = {plan.by_number[item.number].drill for day in days for item in day.items}
    return len(placed & set(goal.drills))


def deadline_of(goal: "Goal", placed: int, minutes: int) -> Deadline:
    """What is reached of a goal, and the minutes a day that would do."""
    total = len(goal.drills)
    needed = ceil(minutes * total / max(placed, 1) / ROUND) * ROUND
    return Deadline(
        title=goal.title,
        bars=goal.bars,
        ready_by=goal.ready_by,
        drills=total,
        placed=placed,
        minutes=None if needed > MOST_MINUTES else needed,
    )
