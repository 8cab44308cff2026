"""Instants, runs of numbers, and drills in the words of their day."""

from datetime import UTC, datetime
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from log_copies import INSTANTS
from printed import EVENING

from bookgen.model.drill import KEY_EXAMPLE, Drill
from bookgen.plan.record import Result
from bookgen.studio.entries import Marking, PrintedDrill, instant_text, numbers_text, runs


@given(INSTANTS, INSTANTS)
def test_texts_of_instants_sort_as_the_instants_follow(first: datetime, then: datetime) -> None:
    texts = instant_text(first), instant_text(then)

    assert (texts[0] < texts[1]) == (first < then)
    assert datetime.fromisoformat(texts[0]) == first
    assert len(texts[0]) == 32, "the schema counts the letters"


def test_an_instant_without_a_zone_or_a_calendar_is_refused() -> None:
    with pytest.raises(ValueError, match="has no time zone"):
        instant_text(datetime(2026, 12, 1))  # noqa: DTZ001
    with pytest.raises(ValueError, match="outside the calendar"):
        instant_text(datetime.fromisoformat("0001-01-01T00:00:00+09:00"))


@given(st.sets(st.integers(1, 40)))
def test_runs_hold_the_numbers_and_never_touch(numbers: set[int]) -> None:
    found = runs(numbers)

    assert {each for first, last in found for each in range(first, last + 1)} == numbers
    assert all(later[0] > sooner[1] + 1 for sooner, later in pairwise(found))


def test_one_number_is_one_number() -> None:
    assert numbers_text([7, 7]) == "No. 7"
    assert numbers_text([9, 7, 8, 3]) == "Nos. 3, 7-9"


def test_a_key_or_kind_of_another_bookgen_is_no_drill_of_ours() -> None:
    ours = PrintedDrill("Ines", 1, EVENING.date(), EVENING, KEY_EXAMPLE, "new")

    assert ours.drill == Drill.parse_key(KEY_EXAMPLE)
    assert PrintedDrill("Ines", 1, EVENING.date(), EVENING, "theremin-12", "new").drill is None
    assert PrintedDrill("Ines", 1, EVENING.date(), EVENING, KEY_EXAMPLE, "dream").drill is None


def test_a_finding_names_the_line_where_the_user_wrote_it() -> None:
    assert Marking("Ines", 3, Result.SECURE).stands_at == "Ines, No. 3"
    assert Marking("Ines", 3, Result.SECURE, None, "r.csv, line 2").stands_at == "r.csv, line 2"
    assert EVENING.tzinfo is UTC
