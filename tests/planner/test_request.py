"""What cannot be planned."""

from dataclasses import replace

import pytest
from kit.knowing import short
from kit.planning import request_for
from kit.shorthand import VIOLA, VIOLIN

from bookgen.errors import RefusedError
from bookgen.plan.record import Record

REQUEST = request_for(VIOLIN)


@pytest.mark.parametrize("minutes", [3, 120])
def test_three_minutes_to_two_hours(minutes: int) -> None:
    assert replace(REQUEST, minutes=minutes).minutes == minutes


@pytest.mark.parametrize("minutes", [-1, 0, 2, 121])
def test_other_times_are_refused(minutes: int) -> None:
    with pytest.raises(RefusedError, match=rf"plan-minutes \(minutes={minutes}\)"):
        replace(REQUEST, minutes=minutes)


def test_the_start_lies_in_the_area() -> None:
    far = short("12W9 4321 1")

    with pytest.raises(RefusedError, match=f"plan-start .*{far.key}"):
        replace(REQUEST, start=far)


def test_the_start_is_one_of_the_instrument() -> None:
    with pytest.raises(RefusedError, match="plan-start"):
        replace(REQUEST, instrument=VIOLA)


def test_new_numbers_are_above_all_that_are_taken() -> None:
    far = short("12W9 4321 1")

    assert replace(REQUEST, numbers={far: 7}, first_number=8).numbered == {far: 7}
    with pytest.raises(RefusedError, match="plan-first-number"):
        replace(REQUEST, numbers={far: 7}, first_number=7)
    with pytest.raises(RefusedError, match="plan-first-number"):
        replace(REQUEST, records=(Record(7, far, ()),), first_number=7)
