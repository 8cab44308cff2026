"""The first sheet: its laws."""

from datetime import date, timedelta
from itertools import pairwise

import pytest
from drills import VIOLA, VIOLIN
from hypothesis import given
from hypothesis import strategies as st

from bookgen.model.dimension import Dimension
from bookgen.plan.document import Day, Kind
from bookgen.planner.first_sheet import first_area, first_sheet, openings

START = date(2026, 1, 1)
dates = st.integers(0, 20_000).map(lambda days: START + timedelta(days))
instruments = st.sampled_from([VIOLIN, VIOLA])
seeds = st.integers(-3, 1000)


def day_of(day: date, minutes: int = 10, seed: int = 0, instrument: object = VIOLIN) -> Day:
    plan = first_sheet(instrument, "4/4", date=day, minutes=minutes, seed=seed)  # type: ignore[arg-type]
    return plan.days[0]


@given(dates, seeds, instruments)
def test_ten_minutes_hold_four_to_six_drills_and_are_used(
    day: date, seed: int, instrument: object
) -> None:
    sheet = day_of(day, seed=seed, instrument=instrument)

    assert 4 <= len(sheet.drills) <= 6
    assert 9.0 <= sum(drill.minutes for drill in sheet.drills) <= 10.0


@given(dates, seeds, st.integers(3, 120))
def test_links_are_true_and_nothing_comes_twice(day: date, seed: int, minutes: int) -> None:
    sheet = day_of(day, minutes, seed)

    drills = {entry.number: entry.drill for entry in sheet.drills}
    assert list(drills) == list(range(1, len(drills) + 1))
    assert len(set(drills.values())) == len(drills)
    for entry in sheet.drills[1:]:
        assert isinstance(entry.link.to, int)
        assert entry.link.to < entry.number
        assert drills[entry.link.to].changes_to(entry.drill) == (entry.link.changes,)
        assert f"As No. {entry.link.to}:" in entry.link.text


@given(dates, seeds, st.integers(3, 120))
def test_minutes_fit_the_day(day: date, seed: int, minutes: int) -> None:
    used = sum(drill.minutes for drill in day_of(day, minutes, seed).drills)

    assert 0.8 * minutes <= used <= minutes


@given(dates, seeds)
def test_a_later_stage_comes_only_after_the_one_before(day: date, seed: int) -> None:
    sheet = day_of(day, seed=seed)

    assert sheet.drills[0].kind is Kind.OPENING
    assert sheet.drills[0].drill.stage == 1
    for entry in sheet.drills[1:]:
        if entry.link.changes is Dimension.STAGE:
            before = sheet.drills[int(str(entry.link.to)) - 1]
            assert entry.drill.stage == before.drill.stage + 1


@given(dates, seeds)
def test_the_page_does_not_end_with_two_new_near_twins(day: date, seed: int) -> None:
    *_, one, other = day_of(day, seed=seed).drills

    assert one.kind is Kind.OPENING or len(one.drill.changes_to(other.drill)) > 1


@given(dates, seeds)
def test_the_same_day_and_seed_give_the_same_sheet(day: date, seed: int) -> None:
    assert day_of(day, seed=seed) == day_of(day, seed=seed)


def test_no_opening_comes_again_before_all_have_been() -> None:
    every = openings(VIOLIN, first_area(VIOLIN))
    keys = [day_of(START + timedelta(days)).drills[0].drill.key for days in range(len(every))]

    assert sorted(keys) == sorted(drill.key for drill in every)
    assert all(here != there for here, there in pairwise(keys))


def test_another_seed_opens_otherwise() -> None:
    assert len({day_of(START, seed=seed).drills[0].drill.key for seed in range(20)}) > 10


@pytest.mark.parametrize("minutes", [2, 121, -5])
def test_no_practice_time_is_refused(minutes: int) -> None:
    with pytest.raises(ValueError, match="is no practice time"):
        day_of(START, minutes)


def test_an_unknown_size_is_refused() -> None:
    with pytest.raises(ValueError, match="'9/9' is no size of the violin"):
        first_sheet(VIOLIN, "9/9", date=START, minutes=10, seed=0)
