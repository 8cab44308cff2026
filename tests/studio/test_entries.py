"""Instants, and runs of numbers."""

from datetime import datetime
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from kit.log_copies import INSTANTS

from bookgen.errors import RefusedError
from bookgen.studio.entries import instant_text, runs


@given(INSTANTS, INSTANTS)
def test_texts_of_instants_sort_as_the_instants_follow(first: datetime, then: datetime) -> None:
    texts = instant_text(first), instant_text(then)

    assert (texts[0] < texts[1]) == (first < then)
    assert datetime.fromisoformat(texts[0]) == first
    assert len(texts[0]) == 32, "the schema counts the letters"


def test_an_instant_without_a_zone_or_a_calendar_is_refused() -> None:
    with pytest.raises(RefusedError, match="log-no-zone"):
        instant_text(datetime(2026, 12, 1))  # noqa: DTZ001
    with pytest.raises(RefusedError, match="log-no-instant"):
        instant_text(datetime.fromisoformat("0001-01-01T00:00:00+09:00"))


@given(st.sets(st.integers(1, 40)))
def test_runs_hold_the_numbers_and_never_touch(numbers: set[int]) -> None:
    found = runs(numbers)

    assert {each for first, last in found for each in range(first, last + 1)} == numbers
    assert all(later[0] > sooner[1] + 1 for sooner, later in pairwise(found))
