"""How long drills take."""

from fractions import Fraction

import pytest
from kit.drills import entry

from bookgen.planner.minutes import cold_minutes_of, minutes_of, shared_out


@pytest.mark.parametrize(
    ("key", "minutes"),
    [
        ("12-whole-place2-strings4321-stage1-low-same", 2.0),  # 16 quarters
        ("12-whole-place2-strings4321-stage3-low-same", 1.5),  # 8 quarters
        ("12-whole-place2-strings4321-stage5-low-same", 1.5),  # 6 half notes
    ],
)
def test_reading_and_four_slow_runs(key: str, minutes: float) -> None:
    drill = entry(key)
    quarters = 4 * float(sum(Fraction(event.duration) for event in drill.events))

    assert minutes_of(drill.drill) == minutes
    assert minutes - 0.5 < 0.5 + 4 * quarters / 60 <= minutes


def test_an_item_of_a_cold_test_is_played_once() -> None:
    drill = entry("12-whole-place2-strings4321-stage1-low-same").drill  # 16 quarters

    assert cold_minutes_of(drill) == 1.0


def test_no_drill_gets_more_than_its_most() -> None:
    assert shared_out([1.0, 2.0], [2.0, 2.0], 60.0) == [2.0, 2.0]


def test_a_full_day_gives_nothing_more() -> None:
    assert shared_out([1.0, 2.0], [2.0, 4.0], 3.2) == [1.0, 2.0]
