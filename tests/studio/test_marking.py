"""Which results can be entered, and how the others are refused."""

from dataclasses import replace
from datetime import date, datetime, timedelta, timezone

import pytest
from printed import EVENING

from bookgen.errors import BookgenError
from bookgen.plan.record import Result
from bookgen.studio.entries import Marking, PrintedDrill
from bookgen.studio.marking import Roster, resolved

FIRST = date(2026, 12, 1)
MORNING_BEFORE = EVENING - timedelta(1, hours=10)


def drill(number: int, day: date = FIRST) -> PrintedDrill:
    return PrintedDrill("Ines", number, day, MORNING_BEFORE, "key", "new")


PRINTED = {number: drill(number) for number in (1, 2, 3, 11, 12)} | {
    20: drill(20, date(2026, 12, 5))
}
ROSTER = Roster({"Ines": PRINTED, "Jo": {}})


BEFORE = "lies before its page, which is for 2026-12-01"


def told(*markings: Marking, now: datetime = EVENING) -> list[str]:
    with pytest.raises(BookgenError) as stopped:
        resolved(markings, ROSTER, now)
    return str(stopped.value).splitlines()


def secure(number: int, day: date | None = None, player: str = "Ines") -> Marking:
    return Marking(player, number, Result.SECURE, day)


def test_without_a_day_it_is_the_day_on_the_page() -> None:
    (found,) = resolved([secure(1)], ROSTER, EVENING)

    assert found == secure(1, FIRST)


def test_unknown_numbers_are_told_together_with_the_nearest_run() -> None:
    assert told(secure(8), secure(9)) == [
        "Ines: Nos. 8-9 were never printed for Ines; the nearest printed are Nos. 11-12."
    ]
    assert told(secure(5)) == [
        "Ines: No. 5 was never printed for Ines; the nearest printed are Nos. 1-3."
    ]
    assert told(secure(99))[0].endswith("the nearest printed are No. 20.")


def test_who_has_no_page_yet_is_told_to_print_one() -> None:
    assert told(secure(1, player="Jo")) == [
        "Jo: No. 1 was never printed for Jo; print a sheet first."
    ]


@pytest.mark.parametrize(
    ("number", "day", "line"),
    [
        (1, date(2026, 12, 2), "2026-12-02 is still to come; give a day up to 2026-12-01."),
        (1, date(2026, 11, 29), f"2026-11-29 {BEFORE}; give a day from 2026-11-30 on."),
    ],
)
def test_a_day_that_cannot_be_is_refused(number: int, day: date | None, line: str) -> None:
    assert told(secure(number, day)) == [f"Ines, No. {number}: {line}"]


def test_a_page_of_a_day_to_come_needs_the_day_on_which_it_was_played() -> None:
    problem = "its page is for 2026-12-05, which is still to come"
    assert told(secure(20)) == [f"Ines, No. 20: {problem}; give the day on which it was played."]


def test_a_page_can_be_played_from_its_print_on() -> None:
    played_ahead = [secure(20, FIRST), secure(1, date(2026, 11, 30))]

    assert resolved(played_ahead, ROSTER, EVENING) == tuple(played_ahead)


def test_a_page_for_a_day_before_its_print_can_be_marked_for_that_day() -> None:
    late = replace(drill(1), printed=EVENING + timedelta(2))
    marking = secure(1)

    now = EVENING + timedelta(3)
    assert resolved([marking], Roster({"Ines": {1: late}}), now) == (secure(1, FIRST),)


def test_today_is_the_studios_today() -> None:
    tomorrow_there = EVENING.astimezone(timezone(timedelta(hours=9)))

    assert resolved([secure(1, date(2026, 12, 2))], ROSTER, tomorrow_there)


def test_a_number_has_one_result_in_a_call() -> None:
    twice = [secure(1), Marking("Ines", 1, Result.NOT_YET)]

    assert told(*twice) == ["Ines, No. 1: it stands twice; keep one of its results."]


def test_everything_that_is_wrong_is_told_at_once() -> None:
    assert len(told(secure(8), secure(1, date(2027, 1, 1)), secure(2), secure(2))) == 3
