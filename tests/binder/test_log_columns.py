"""The log's numbers on their pages."""

from dataclasses import replace

from booklets import a_month, furniture
from hypothesis import given
from hypothesis import strategies as some

from bookgen.binder.log_columns import (
    LEAST_ROWS,
    Columns,
    Log,
    LogDay,
    columns_of,
    log_of,
    pages_of,
)

LOG = log_of(a_month().days, [], furniture())
DAYS = some.lists(some.integers(1, 12), min_size=1, max_size=40)


def log(sizes: list[int]) -> Log:
    days, first = [], 1
    for size in sizes:
        days.append(LogDay(f"day {first}", tuple(range(first, first + size))))
        first += size
    return replace(LOG, days=tuple(days))


def numbers(columns: Columns) -> list[int]:
    return [number for column in columns for day in column for number in day.numbers]


@given(DAYS)
def test_every_number_has_its_boxes_in_order(sizes: list[int]) -> None:
    pages = pages_of(log(sizes))

    assert [n for page in pages for n in numbers(page)] == list(range(1, sum(sizes) + 1))
    assert all(len(page) <= LOG.columns for page in pages)


@given(DAYS)
def test_no_column_is_higher_than_its_page(sizes: list[int]) -> None:
    found = log(sizes)
    for number, page in enumerate(pages_of(found)):
        for column in page:
            assert sum(map(found.height, column)) <= found.room(number) + 2.0


@given(DAYS)
def test_no_day_leaves_one_number_alone(sizes: list[int]) -> None:
    found = log(sizes)
    whole = {day.heading: len(day.numbers) for day in found.days}
    for column in columns_of(found, found.days, 120.0):
        for day in column:
            assert len(day.numbers) >= min(LEAST_ROWS, whole[day.heading])


@given(DAYS)
def test_a_day_is_named_once_in_a_column(sizes: list[int]) -> None:
    for page in pages_of(log(sizes)):
        for column in page:
            headings = [day.heading for day in column]
            assert len(headings) == len(set(headings))


def test_a_day_with_a_test_says_so() -> None:
    assert [day.heading for day in LOG.days][:2] == ["Tue 1 Dec", "Wed 2 Dec"]
