"""What is to be ready by a day is worked into the days before it."""

from dataclasses import replace
from datetime import date

import pytest
from kit.planning import area_of, dates_from, request_for
from kit.shorthand import VIOLIN

from bookgen.model.drill import Drill
from bookgen.plan.document import Plan, Role, Towards
from bookgen.planner.month import plan_days, practice_days_between
from bookgen.planner.request import Goal

HIGHER = tuple(
    Drill.parse_key(f"violin-12-whole-place{place}-strings4321-stage1-low-mirror")
    for place in (3, 5, 7, 8, 10)
)
READY = date(2026, 12, 11)
GOAL = Goal("Minuet", ("5", "8"), READY, HIGHER)


def plan_with(
    goal: Goal, minutes: int = 12, practice: frozenset[int] = frozenset(range(6))
) -> Plan:
    area = area_of(VIOLIN, frozenset({"1st"}), fewest=4)
    request = request_for(VIOLIN, area, minutes=minutes, practice_days=practice)
    start = Drill.parse_key("violin-12-whole-place2-strings4321-stage1-low-mirror")
    request = replace(request, goals=(goal,), start=start, secure=(start,))
    return plan_days(request, dates_from(date(2026, 11, 30), 12, practice))


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
    assert practice_days_between(date(2026, 12, 7), date(2026, 12, 13), practice) == days
    assert practice_days_between(date(2026, 12, 7), date(2026, 12, 6), practice) == 0
