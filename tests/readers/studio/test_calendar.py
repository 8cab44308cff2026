"""Days away as ISO 8601 writes intervals, and the lesson's weekday."""

from datetime import date

import pytest

from bookgen.errors import BookgenError
from bookgen.plan.calendar import Away, Calendar
from bookgen.readers.studio.calendar import interval_of
from bookgen.readers.studio.file import parse_studio

ISO_8601 = "ISO 8601-1:2019, 5.5.2: intervals by start and end, or by start and duration"


def calendar(text: str) -> Calendar:
    return parse_studio(f"[players.Ines]\n{text}", "studio.toml").players["Ines"].calendar


def told(text: str) -> list[str]:
    with pytest.raises(BookgenError) as stopped:
        calendar(text)
    return str(stopped.value).splitlines()


@pytest.mark.published(ISO_8601)
@pytest.mark.parametrize(
    ("text", "first", "last"),
    [
        ("2026-12-21/2027-01-03", date(2026, 12, 21), date(2027, 1, 3)),
        ("2026-12-21/12-24", date(2026, 12, 21), date(2026, 12, 24)),
        ("2026-12-21/24", date(2026, 12, 21), date(2026, 12, 24)),
        ("2026-12-21/P2W", date(2026, 12, 21), date(2027, 1, 3)),
        ("2026-12-21/P3D", date(2026, 12, 21), date(2026, 12, 23)),
        ("2026-12-21", date(2026, 12, 21), date(2026, 12, 21)),
    ],
)
def test_an_interval_has_its_first_and_its_last_day(text: str, first: date, last: date) -> None:
    assert interval_of(text) == (first, last)


@pytest.mark.parametrize(
    "text",
    [
        "Christmas",
        "2026-02-30",
        "2026-12-21/",
        "2026-12-21/P0D",
        "2026-12-21/P1M",
        "/2026-12-21",
        "2026-12-21/2027-1-3",
        "2026-12-21 / 2026-12-24",
        "9999-12-30/P2W",
        "2026-12-21/13-01",
    ],
)
def test_what_is_no_interval_is_told_with_player_and_mend(text: str) -> None:
    (line,) = told(f'away = ["2026-10-01", "{text}"]')

    assert line == (
        f"studio.toml, player \"Ines\", away: '{text}' is no run of days;"
        ' write first and last day, e.g. "2026-12-21/2027-01-03".'
    )


def test_days_run_forwards() -> None:
    (line,) = told('away = ["2026-12-21/2026-01-03"]')

    assert line.endswith("away: 2026-01-03 lies before 2026-12-21; write the first day first.")


def test_what_meets_or_follows_at_once_is_one_run() -> None:
    found = calendar('away = ["2026-12-24/26", "2026-08-01", "2026-12-20/24", "2026-12-27/P1D"]')

    assert found == Calendar(
        away=(
            Away(first=date(2026, 8, 1), last=date(2026, 8, 1)),
            Away(first=date(2026, 12, 20), last=date(2026, 12, 27)),
        )
    )


def test_the_lesson_is_a_weekday() -> None:
    assert calendar('lesson = "Thu"').lesson == 3
    assert calendar("").lesson is None
    assert " ".join(told('lesson = "Thursday"')) == (
        "studio.toml, player \"Ines\", lesson: 'Thursday' is no weekday;"
        " write one of Mon Tue Wed Thu Fri Sat Sun in quotes."
    )


def test_a_lesson_falls_out_on_days_away() -> None:
    found = calendar('lesson = "Thu"\naway = ["2026-12-21/P1W"]')

    assert [found.is_lesson(date(2026, 12, day)) for day in (16, 17, 24, 31)] == [
        False,
        True,
        False,
        True,
    ]
