"""What cannot be planned."""

from dataclasses import replace

import pytest
from planner.knowing import short
from planning import request_for
from shorthand import VIOLA, VIOLIN

REQUEST = request_for(VIOLIN)


@pytest.mark.parametrize("minutes", [3, 120])
def test_three_minutes_to_two_hours(minutes: int) -> None:
    assert replace(REQUEST, minutes=minutes).minutes == minutes


@pytest.mark.parametrize("minutes", [-1, 0, 2, 121])
def test_other_times_are_refused(minutes: int) -> None:
    with pytest.raises(ValueError, match=f"{minutes} is no practice time"):
        replace(REQUEST, minutes=minutes)


def test_the_start_lies_in_the_area() -> None:
    far = short("12W9 4321 1")

    with pytest.raises(ValueError, match=f"the start, {far.key}, lies outside the area"):
        replace(REQUEST, start=far)


def test_the_start_is_one_of_the_instrument() -> None:
    with pytest.raises(ValueError, match="lies outside the area"):
        replace(REQUEST, instrument=VIOLA)
