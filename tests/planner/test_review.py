"""When a drill is due again."""

from collections.abc import Sequence
from datetime import UTC, date, datetime, timedelta

import pytest
from fsrs import Card, Rating, Scheduler
from hypothesis import given
from hypothesis import strategies as st

from bookgen.plan.record import Result
from bookgen.planner.review import due_date, first_memory
from bookgen.readers.weights import read_weights

RETENTION = read_weights().retention
START = date(2026, 12, 1)
S, N = Result.SECURE, Result.NOT_YET
histories = st.lists(st.tuples(st.integers(0, 40), st.sampled_from(Result)), min_size=1, max_size=8)


def days(results: Sequence[Result]) -> list[int]:
    """Days from the first result to each review, when every review is kept on its day."""
    found, due = [], START
    played: list[tuple[date, Result]] = []
    for result in results:
        played.append((due, result))
        due = due_date(played, RETENTION)
        found.append((due - START).days)
    return found


def dated(history: list[tuple[int, Result]]) -> list[tuple[date, Result]]:
    """Results with their days, from the gaps between them."""
    return [
        (START + timedelta(sum(gap for gap, _ in history[: index + 1])), result)
        for index, (_, result) in enumerate(history)
    ]


@pytest.mark.published("common practice, no source")
def test_reviews_of_a_secure_drill_come_near_days_1_3_7_14_28() -> None:
    rule = [1, 3, 7, 14, 28]

    assert days([S, S, S, S, S]) == pytest.approx(rule, abs=1)


def test_what_is_not_yet_comes_back_the_next_day() -> None:
    assert days([N]) == [1]
    assert days([S, S, S, N]) == [1, 3, 7, 8]


@given(histories)
def test_the_dates_are_those_of_the_schedule_itself(history: list[tuple[int, Result]]) -> None:
    scheduler = Scheduler(
        desired_retention=RETENTION, learning_steps=[], relearning_steps=[], enable_fuzzing=False
    )
    card = Card(card_id=7, due=datetime(2026, 12, 1, 12, tzinfo=UTC))
    for day, result in dated(history):
        rating = Rating.Good if result is S else Rating.Again
        card, _ = scheduler.review_card(
            card, rating, datetime(day.year, day.month, day.day, 12, tzinfo=UTC)
        )

    assert due_date(dated(history), RETENTION) == card.due.date()


@given(histories)
def test_a_memory_built_step_by_step_is_the_same(history: list[tuple[int, Result]]) -> None:
    (day, result), *later = dated(history)
    memory = first_memory(day, result, RETENTION)
    for day, result in later:
        memory = memory.after(day, result)

    assert memory.due == due_date(dated(history), RETENTION)
    assert memory.due > memory.last == day


def test_no_results_and_falling_days_are_refused() -> None:
    with pytest.raises(ValueError, match="result-missing"):
        due_date([], RETENTION)
    with pytest.raises(ValueError, match="result-order"):
        due_date([(START, S), (START - timedelta(1), S)], RETENTION)
