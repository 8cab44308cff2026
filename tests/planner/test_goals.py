"""What is to be ready by a day is worked into the days before it."""

from dataclasses import replace
from datetime import date

import pytest
from kit.planning import area_of, dates_from, request_for
from kit.shorthand import VIOLIN

from bookgen.model.drill import Drill
from bookgen.plan.calendar import NO_HOLIDAYS, Away, Calendar, practice_days_of
from bookgen.plan.document import Plan, Role, Towards
from bookgen.planner.month import Planner, plan_days
from bookgen.planner.request import Goal, Request

HIGHER = tuple(
    Drill.parse_key(f"violin-12-whole-place{place}-strings4321-stage1-low-mirror")
    for place in (3, 5, 7, 8, 10)
)
READY = date(2026, 12, 11)
GOAL = Goal("Minuet", ("5", "8"), READY, HIGHER)


MONDAY = date(2026, 11, 30)
SIX_DAYS = frozenset(range(6))


def request_with(goal: Goal, minutes: int = 12, practice: frozenset[int] = SIX_DAYS) -> Request:
    area = area_of(VIOLIN, frozenset({"1st"}), fewest=4)
    request = request_for(VIOLIN, area, minutes=minutes, practice_days=practice)
    start = Drill.parse_key("violin-12-whole-place2-strings4321-stage1-low-mirror")
    return replace(request, goals=(goal,), start=start, secure=(start,))


def plan_with(goal: Goal, minutes: int = 12, practice: frozenset[int] = SIX_DAYS) -> Plan:
    request = request_with(goal, minutes, practice)
    return plan_days(request, dates_from(MONDAY, 12, practice))


def test_every_step_comes_in_time_and_in_order_also_outside_the_area() -> None:
    found = reversed(list(plan_with(GOAL).items()))
    when = {entry.drill: day.date for day, _, entry in found}

    assert [drill in when for drill in HIGHER] == [True] * len(HIGHER)
    assert all(when[drill] <= READY for drill in HIGHER)
    assert sorted(when[drill] for drill in HIGHER) == [when[drill] for drill in HIGHER]


def test_a_step_says_where_it_leads() -> None:
    steps = [item for _, item, _ in plan_with(GOAL).items() if item.role is Role.PASSAGE]

    assert len(steps) == len(HIGHER)
    assert {item.towards for item in steps} == {Towards(title="Minuet", bars=("5", "8"))}


def test_a_goal_that_has_gone_by_is_left_alone() -> None:
    gone = replace(GOAL, ready_by=date(2026, 11, 29))

    assert plan_with(gone) == plan_with(replace(gone, title="another"))
    assert not [entry for entry in plan_with(gone).drills if entry.drill in HIGHER]


@pytest.mark.parametrize(
    ("practice", "days"), [(frozenset[int](), 7), (frozenset({0, 2}), 2), (frozenset({6}), 1)]
)
def test_days_to_practise_are_counted(practice: frozenset[int], days: int) -> None:
    first = date(2026, 12, 7)
    assert len(practice_days_of(first, date(2026, 12, 13), practice, NO_HOLIDAYS)) == days
    assert practice_days_of(first, date(2026, 12, 6), practice, NO_HOLIDAYS) == []


def test_days_away_leave_more_for_the_others() -> None:
    request = request_with(GOAL)
    planner = Planner(request, MONDAY)
    away = Calendar(away=(Away(first=date(2026, 12, 2), last=READY),))
    busy = Planner(replace(request, calendar=away), MONDAY)

    assert [aim.steps for aim in planner.aims(MONDAY)] == [1], "five drills in eleven days"
    assert [aim.steps for aim in busy.aims(MONDAY)] == [3], "five drills in two days"
    assert not list(busy.aims(date(2026, 12, 2))), "nothing can be done any more"
