"""What a teacher reads out of the log: gains, standing still, what is shaky."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st
from kit.faring import fared

from bookgen.plan.record import Result


@pytest.mark.parametrize(
    ("course", "shaky"),
    [("+", False), ("-", True), ("-+", True), ("-++", False), ("+-", True), ("- + +", False)],
)
def test_a_drill_is_shaky_until_it_was_secure_twice_since_it_failed(
    course: str, *, shaky: bool
) -> None:
    found = fared(course)
    assert [len(found.shaky), len(found.secure)] == [int(shaky), int(not shaky)]


@given(st.lists(st.text("+- ", max_size=8), max_size=12), st.integers(2, 12))
def test_every_drill_with_results_is_secure_or_shaky_and_none_is_both(
    courses: list[str], day: int
) -> None:
    found = fared(*courses, day=date(2026, 11, day))
    secure, shaky = ({one.number for one in part} for part in (found.secure, found.shaky))
    told = {number for number, course in enumerate(courses, start=1) if course[: day - 1].strip()}
    assert secure | shaky == told
    assert not secure & shaky


def test_a_drill_gains_once_on_the_first_day_on_which_it_is_secure() -> None:
    found = fared("-+-+", "----", day=date(2026, 11, 5))
    assert found.gains == {1: date(2026, 11, 3)}
    assert found.gained == 1


def test_a_gain_of_two_weeks_ago_is_none_of_lately() -> None:
    assert fared("+", day=date(2026, 11, 15)).gained == 1
    assert fared("+", day=date(2026, 11, 16)).gained == 0


@pytest.mark.parametrize(
    ("courses", "since"),
    [
        ((), None),
        (("-----",), None),
        (("------",), 2),
        (("-+-----",), 3),
        (("-+----",), None),
        (("-+-----", "    +"), None),
        (("+++++++",), 2),
    ],
)
def test_who_brings_nothing_new_on_five_days_stands_still_since_the_last_gain(
    courses: tuple[str, ...], since: int | None
) -> None:
    expected = None if since is None else date(2026, 11, since)
    assert fared(*courses).still_since == expected


def test_what_comes_after_the_day_is_not_known_yet_but_its_page_is() -> None:
    found = fared("+-", day=date(2026, 11, 2))
    assert found.logged == date(2026, 11, 2)
    assert not found.shaky
    assert fared("+", day=date(2026, 10, 1)).printed_to == date(2026, 11, 2)


def test_the_last_days_stand_first_with_the_last_result_of_each() -> None:
    found = fared("+-", "-+").days
    assert [*found] == [date(2026, 11, 3), date(2026, 11, 2)]
    assert found[date(2026, 11, 3)] == {Result.NOT_YET: [1], Result.SECURE: [2]}
