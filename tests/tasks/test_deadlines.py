"""What a plan reaches of a passage that is to be ready by a day."""

from datetime import date, timedelta

import pytest
from kit.drills import plan_of
from kit.shorthand import VIOLIN

from bookgen.planner.request import Goal
from bookgen.tasks.deadlines import close_deadlines, deadlines_of
from bookgen.tasks.plans import Printing
from bookgen.words.ahead import reached
from bookgen.words.speech import ENGLISH

KEYS = (
    "12-whole-place2-strings4321-stage1-low-same",
    "12-half-place2-strings4321-stage1-low-same",
    "23-whole-place4-strings21-stage3-low-same",
)


def lines(wanted: int, ready_by: date, minutes: int = 10) -> list[str]:
    """What is told of a goal of so many drills, where a plan has two of them."""
    plan = plan_of(*KEYS[:2])
    drills = tuple(entry.drill for entry in plan_of(*KEYS).drills)[:wanted]
    goal = Goal("Minuet", ("5", "8"), ready_by, drills)
    found = deadlines_of(Printing(plan, goals=(goal,)), minutes, VIOLIN)
    return [ENGLISH.line(reached(one, one.ready_by)) for one in found]


DAY = plan_of(*KEYS[:2]).days[-1].date


@pytest.mark.parametrize(
    ("wanted", "minutes", "said"),
    [
        (2, 10, f"Minuet: all 2 drills have room by {DAY}"),
        (3, 10, f"Minuet: 2 of 3 drills have room by {DAY}; all would take about 15 minutes a day"),
        (3, 90, f"Minuet: 2 of 3 drills have room by {DAY}; begin sooner, or choose fewer bars"),
    ],
)
def test_what_has_room_and_what_it_would_take(wanted: int, minutes: int, said: str) -> None:
    assert lines(wanted, DAY, minutes) == [said]


def test_what_is_to_be_ready_after_the_booklet_is_not_told_yet() -> None:
    assert lines(3, date(2030, 1, 1)) == []


@pytest.mark.parametrize(("before", "close"), [(0, True), (2, True), (3, False), (-1, False)])
def test_the_bars_themselves_come_on_the_last_three_days(before: int, close: bool) -> None:  # noqa: FBT001
    plan = plan_of(*KEYS)
    drills = tuple(entry.drill for entry in plan.drills)
    goal = Goal("Minuet", ("5", "8"), DAY + timedelta(before), drills)

    assert bool(close_deadlines(Printing(plan, goals=(goal,)), DAY, VIOLIN)) is close
