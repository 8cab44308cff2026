"""The cost table as values."""

from dataclasses import replace

import pytest
from kit.refusing import refused

from bookgen.model.costs import PARTS, Preference
from bookgen.readers.fingering import read_costs

COSTS = read_costs()


def test_without_a_preference_every_part_counts_once() -> None:
    assert COSTS.scale(None) == dict.fromkeys(PARTS, 1.0)


@pytest.mark.parametrize(
    ("prefer", "dearer"),
    [
        (Preference.LOW, "place"),
        (Preference.ONE_STRING, "string"),
        (Preference.FEW_SHIFTS, "shift"),
        (Preference.FEW_STRETCHES, "stretch"),
    ],
)
def test_a_preference_makes_what_it_avoids_dearer(prefer: Preference, dearer: str) -> None:
    assert COSTS.scale(prefer)[dearer] > 1


def test_no_way_costs_nothing_and_a_half_step_less_than_a_position() -> None:
    shift = COSTS.shift

    assert shift.of(0) == 0
    assert 0 < shift.of(1) < shift.of(2) < shift.of(3)


def test_a_preference_that_is_missing_is_refused() -> None:
    with refused("preferences"):
        replace(COSTS, prefer={Preference.LOW: {}})


def test_a_part_that_there_is_not_is_refused() -> None:
    table = {**COSTS.prefer, Preference.LOW: {"height": 2.0}}

    with refused("low names 'height'; the parts are shift, stretch"):
        replace(COSTS, prefer=table)
