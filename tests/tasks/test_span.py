"""The days of a booklet."""

from datetime import date

import pytest

from bookgen.errors import BookgenError
from bookgen.tasks.span import Span, month_span, span_of

EVERY_DAY: frozenset[int] = frozenset()


def given(month: str | None = None, first: str | None = None, last: str | None = None) -> Span:
    return span_of(month, first, last)


def test_a_month_runs_to_its_last_day() -> None:
    assert month_span("2028-02") == Span(date(2028, 2, 1), date(2028, 2, 29), month=True)
    assert given("2026-12").days(EVERY_DAY)[-1] == date(2026, 12, 31)


def test_rest_days_are_left_out() -> None:
    days = given(first="2026-12-01", last="2026-12-13").days(frozenset({1, 5}))

    assert [day.day for day in days] == [1, 5, 8, 12]


@pytest.mark.parametrize(
    ("span", "name"),
    [
        (given("2026-12"), "2026-12"),
        (given(first="2026-12-01", last="2026-12-01"), "2026-12-01"),
        (given(first="2026-12-30", last="2027-01-02"), "2026-12-30-to-2027-01-02"),
    ],
)
def test_a_span_names_its_file(span: Span, name: str) -> None:
    assert span.name == name


@pytest.mark.parametrize(
    ("month", "first", "last", "told"),
    [
        (None, None, None, "the days are not clear; give --month 2026-12, or --from"),
        ("2026-12", "2026-12-01", None, "the days are not clear"),
        (None, "2026-12-01", None, "the days are not clear"),
        ("2026-13", None, None, "--month: '2026-13' is no month; write year-month, e.g. 2026-12."),
        ("December", None, None, "--month: 'December' is no month"),
        ("9999-12", None, None, "--month: '9999-12' is no month"),
        (None, "1 Dec", "2026-12-02", "--from: '1 Dec' is no date"),
        (None, "2026-12-02", "2026-12-01", "--to: 2026-12-01 lies before 2026-12-02"),
        (None, "2026-01-01", "2027-01-02", "--to: 367 days are too many for a booklet"),
    ],
)
def test_days_that_are_none_are_told(
    month: str | None, first: str | None, last: str | None, told: str
) -> None:
    with pytest.raises(BookgenError) as stopped:
        given(month, first, last)

    assert told in str(stopped.value)
