"""When a drill is due again: spaced review, by the fsrs schedule.

A drill marked secure counts as "good", one marked not yet as "again"; "hard" and "easy" are not
used, because a player ticks one of two boxes. Results stand at noon UTC of their day, there are
no learning steps within a day and no chance in the dates, so a review falls due on whole days.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, time
from datetime import date as Date  # noqa: N812
from functools import cache
from typing import Final

from fsrs import Card, Rating, Scheduler, State

from bookgen.errors import RefusedError
from bookgen.plan.record import Result

RATINGS: Final = {Result.SECURE: Rating.Good, Result.NOT_YET: Rating.Again}
NOON: Final = time(12, tzinfo=UTC)


@dataclass(frozen=True, slots=True)
class Memory:
    """How well a drill is kept in mind after all its results so far.

    stability: days after which nine of ten such drills are still secure.
    toughness: how slowly it settles for this player, 1 to 10.
    retention: the part of drills that should still be secure when a review comes.
    last, due: the day of the last result, and of the next review.
    """

    stability: float
    toughness: float
    retention: float
    last: Date
    due: Date

    def after(self, date: Date, result: Result) -> "Memory":
        """The memory with one more result.

        Raises:
            RefusedError: the day lies before the last result.
        """
        if date < self.last:
            raise RefusedError("result-order", date=date, last=self.last)
        card = Card(
            card_id=0,
            state=State.Review,
            stability=self.stability,
            difficulty=self.toughness,
            due=noon(self.due),
            last_review=noon(self.last),
        )
        return reviewed(card, date, result, self.retention)


def first_memory(date: Date, result: Result, retention: float) -> Memory:
    """The memory of a drill after its first result."""
    return reviewed(Card(card_id=0, due=noon(date)), date, result, retention)


def due_date(results: Sequence[tuple[Date, Result]], retention: float) -> Date:
    """When a drill is due again after these results.

    results: one or more, in the order of their days.

    >>> due_date([(Date(2026, 12, 1), Result.SECURE)], 0.97)
    datetime.date(2026, 12, 2)

    Raises:
        RefusedError: there are no results, or their days fall.
    """
    if not results:
        raise RefusedError("result-missing")
    (date, result), *later = results
    memory = first_memory(date, result, retention)
    for date, result in later:
        memory = memory.after(date, result)
    return memory.due


def reviewed(card: Card, date: Date, result: Result, retention: float) -> Memory:
    """Let the schedule take in one result.

    Raises:
        RuntimeError: the schedule forgot its own figures; does not happen.
    """
    after, _ = schedule(retention).review_card(card, RATINGS[result], noon(date))
    if after.stability is None or after.difficulty is None:
        msg = f"no memory after {result} on {date}"
        raise RuntimeError(msg)
    return Memory(after.stability, after.difficulty, retention, date, after.due.date())


@cache
def schedule(retention: float) -> Scheduler:
    """The schedule for a retention, in whole days and without chance."""
    return Scheduler(
        desired_retention=retention,
        learning_steps=(),
        relearning_steps=(),
        enable_fuzzing=False,
    )


def noon(date: Date) -> datetime:
    """The instant for which a day's result counts."""
    return datetime.combine(date, NOON)
