"""Sheets for somebody of whom no file says anything: the laws of a first sheet."""

from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from kit.drills import VIOLA, VIOLIN

from bookgen.plan.document import Plan
from bookgen.tasks.plans import planned
from bookgen.tasks.roster import NOBODY
from bookgen.tasks.wish import Wish, asked_of

START = date(2026, 1, 1)
dates = st.integers(0, 20_000).map(lambda days: START + timedelta(days))
seeds = st.integers(-3, 1000)
LAWS = settings(max_examples=40, deadline=None)


def sheet(day: date, minutes: int = 10, seed: int = 0, instrument: str = "violin") -> Plan:
    asked = asked_of(NOBODY, Wish(instrument=instrument, minutes=str(minutes), seed=seed))
    return planned(asked, [day], None, Wish()).plan


@LAWS
@given(dates, seeds, st.sampled_from([VIOLIN.key, VIOLA.key]))
def test_a_sheet_of_ten_minutes(day: date, seed: int, instrument: str) -> None:
    plan = sheet(day, seed=seed, instrument=instrument)
    (made,) = plan.days
    last = made.items[-2:]
    one, other = (plan.by_number[item.number].drill for item in last)
    first, *others = plan.drills

    assert 4 <= len(made.items) <= 6
    assert 9.0 <= sum(item.minutes for item in made.items) <= 10.0
    assert first.stage == 1
    assert any(entry.link.to == 1 and entry.stage == first.stage + 1 for entry in others), (
        "it shows how crossings come sooner"
    )
    assert not all(item.role.first_time for item in last) or len(one.changes_to(other)) > 1, (
        "the last two are no near-twins"
    )
    assert sheet(day, seed=seed, instrument=instrument) == plan


@LAWS
@given(dates, seeds, st.integers(3, 60))
def test_minutes_fit_and_every_drill_is_linked_to_one_before_it_on_the_same_sheet(
    day: date, seed: int, minutes: int
) -> None:
    made = sheet(day, minutes, seed)

    assert 0.8 * minutes <= sum(item.minutes for item in made.days[0].items) <= minutes
    assert [item.number for item in made.days[0].items] == list(range(1, len(made.drills) + 1))
    assert made.drills[0].link.to is None
    for entry in made.drills[1:]:
        assert isinstance(entry.link.to, int)
        assert entry.link.to < entry.number
        before = made.by_number[entry.link.to]
        assert before.drill.changes_to(entry.drill) == (entry.link.changes,)


@pytest.mark.parametrize("seed", [0, 5])
def test_no_opening_comes_again_before_all_have_been(seed: int) -> None:
    openings = [sheet(START + timedelta(day), seed=seed).drills[0].drill for day in range(60)]

    assert len(set(openings)) == 60
    assert {drill.stage for drill in openings} == {1}
