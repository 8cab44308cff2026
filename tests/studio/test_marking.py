"""Which results can be entered, and how the others are refused."""

from datetime import date, datetime, timedelta, timezone

import pytest
from kit.printed import EVENING

from bookgen.errors import BookgenError
from bookgen.plan.record import Played, Result
from bookgen.studio.entries import KeptDrill, KeptItem, Marking
from bookgen.studio.marking import Roster, resolved
from bookgen.words.speech import ENGLISH

FIRST = date(2026, 12, 1)
MORNING_BEFORE = EVENING - timedelta(1, hours=10)


def drill(number: int, *days: date, printed: datetime = MORNING_BEFORE) -> KeptDrill:
    """A drill that was printed under one number."""
    items = tuple(KeptItem(day, printed, 0, number, "new") for day in days or (FIRST,))
    return KeptDrill((number,), f"key{number}", items)


def later(days: int) -> date:
    return FIRST + timedelta(days)


OLD_PAGES = KeptDrill(
    (30, 57),
    "key30",
    (
        KeptItem(FIRST, MORNING_BEFORE, 0, 30, "new"),
        KeptItem(later(3), MORNING_BEFORE + timedelta(3), 0, 57, "again"),
    ),
    (Played(FIRST, Result.SECURE),),
)
"""A drill that an older bookgen printed under two numbers."""

ROSTER = Roster.of(
    {
        "Ines": [
            *(drill(number) for number in (1, 2, 3, 11, 12)),
            *(drill(20, later(4)), drill(21, FIRST, later(2), later(4)), OLD_PAGES),
            KeptDrill((99,), "reserved"),
        ],
        "Jo": [],
    }
)


def told(*markings: Marking, now: datetime = EVENING) -> list[str]:
    with pytest.raises(BookgenError) as stopped:
        resolved(markings, ROSTER, now)
    return [ENGLISH.line(finding) for finding in stopped.value.findings]


def secure(number: int, day: date | None = None, player: str = "Ines") -> Marking:
    return Marking(player, number, Result.SECURE, day)


@pytest.mark.parametrize(
    ("number", "days", "expected"),
    [(1, 0, 0), (1, 9, 0), (21, 0, 0), (21, 1, 0), (21, 2, 2), (21, 3, 2), (21, 9, 4)],
)
def test_without_a_day_it_is_the_last_one_up_to_today(
    number: int, days: int, expected: int
) -> None:
    (found,) = resolved([secure(number)], ROSTER, EVENING + timedelta(days))

    assert found == secure(number, later(expected))


def test_an_old_number_stands_on_its_own_page_and_shares_the_days_of_its_drill() -> None:
    now = EVENING + timedelta(5)

    assert resolved([secure(30), secure(57)], ROSTER, now) == (
        secure(30, FIRST),
        secure(57, later(3)),
    )
    assert resolved([secure(57, FIRST)], ROSTER, now) == (secure(57, FIRST),)
    assert told(secure(57))[0].startswith("Ines, No. 57: its page is for 2026-12-04, which is")


def test_unknown_numbers_are_told_with_the_nearest_run() -> None:
    assert told(secure(8), secure(9), secure(5)) == [
        "Ines: No. 5 was never printed for Ines; the nearest printed are Nos. 1-3.",
        "Ines: Nos. 8-9 were never printed for Ines; the nearest printed are Nos. 11-12.",
    ]
    assert told(secure(60))[0].endswith("the nearest printed is No. 57.")


def test_a_number_that_is_only_reserved_was_never_printed() -> None:
    assert told(secure(99)) == [
        "Ines: No. 99 was never printed for Ines; the nearest printed is No. 57."
    ]


def test_who_has_no_page_yet_is_told_to_print_one() -> None:
    assert told(secure(1, player="Jo")) == [
        "Jo: No. 1 was never printed for Jo; print a sheet first."
    ]


BEFORE = "lies before its first page, which is for 2026-12-01"


@pytest.mark.parametrize(
    ("day", "line"),
    [
        (date(2026, 12, 2), "2026-12-02 is still to come; give a day up to 2026-12-01."),
        (date(2026, 11, 29), f"2026-11-29 {BEFORE}; give a day from 2026-11-30 on."),
    ],
)
def test_a_day_that_cannot_be_is_refused(day: date, line: str) -> None:
    assert told(secure(1, day)) == [f"Ines, No. 1: {line}"]


def test_a_page_of_a_day_to_come_needs_the_day_on_which_it_was_played() -> None:
    problem = "its page is for 2026-12-05, which is still to come"
    assert told(secure(20)) == [f"Ines, No. 20: {problem}; give the day on which it was played."]


def test_a_page_can_be_played_from_its_print_on() -> None:
    played_ahead = [secure(20, FIRST), secure(1, date(2026, 11, 30))]

    assert resolved(played_ahead, ROSTER, EVENING) == tuple(played_ahead)


def test_a_page_for_a_day_before_its_print_can_be_marked_for_that_day() -> None:
    late = Roster.of({"Ines": [drill(1, printed=EVENING + timedelta(2))]})

    assert resolved([secure(1)], late, EVENING + timedelta(3)) == (secure(1, FIRST),)


def test_today_is_the_studios_today() -> None:
    tomorrow_there = EVENING.astimezone(timezone(timedelta(hours=9)))

    assert resolved([secure(1, date(2026, 12, 2))], ROSTER, tomorrow_there)


def test_a_drill_has_one_result_for_a_day_in_a_call() -> None:
    line = "its drill has two results for 2026-12-01; keep one of them."

    assert told(secure(1), Marking("Ines", 1, Result.NOT_YET)) == [f"Ines, No. 1: {line}"]
    assert told(secure(30), secure(57, FIRST), now=EVENING + timedelta(5)) == [
        f"Ines, No. 57: {line}"
    ]
    assert resolved([secure(1), secure(1, date(2026, 11, 30))], ROSTER, EVENING)


def test_a_finding_names_the_line_where_the_user_wrote_it() -> None:
    written = Marking("Ines", 3, Result.SECURE, date(2027, 1, 1), "results.csv, line 2")

    assert told(written)[0].startswith("results.csv, line 2: 2027-01-01 is still to come;")


def test_everything_that_is_wrong_is_told_at_once() -> None:
    assert len(told(secure(8), secure(1, date(2027, 1, 1)), secure(2), secure(2))) == 3
