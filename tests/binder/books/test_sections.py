"""Sections of a long booklet: every day and every drill once, about even."""

import pytest
from kit.month_plan import a_month

from bookgen.binder.books.sections import sections_of

PLAN = a_month(60)


@pytest.mark.parametrize("count", [1, 2, 3, 4])
def test_every_day_and_every_drill_stands_in_one_section(count: int) -> None:
    found = sections_of(PLAN, count)
    assert len(found) == count
    assert [day for section in found for day in section.days] == list(PLAN.days)
    drills = [entry for section in found for entry in section.entries]
    assert sorted(drills, key=lambda entry: entry.number) == list(PLAN.drills)


@pytest.mark.parametrize("count", [2, 3])
def test_a_drill_stands_where_it_is_first_met(count: int) -> None:
    known: set[int] = set()
    for section in sections_of(PLAN, count):
        known |= {entry.number for entry in section.entries}
        assert {item.number for day in section.days for item in day.items} <= known


def test_sections_are_about_even() -> None:
    sizes = [len(section.entries) for section in sections_of(PLAN, 2)]
    assert max(sizes) - min(sizes) <= 12


def test_a_section_begins_with_a_week_where_one_is_near() -> None:
    second = sections_of(PLAN, 2)[1]
    assert second.days[0].date.weekday() == 0


def test_there_are_no_more_sections_than_days() -> None:
    assert [len(section.days) for section in sections_of(a_month(12, days=3), 9)] == [1, 1, 1]
