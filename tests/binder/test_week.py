"""A week at a glance."""

from datetime import date

import pytest
from booklets import a_month, furniture, words
from paper import Recorder

from bookgen.binder.leaf import side_of
from bookgen.binder.week import week_leaf, week_words, weeks_of

DECEMBER = (date(2026, 12, 1), date(2026, 12, 31))
WEEKS = weeks_of(a_month(), DECEMBER)


@pytest.mark.published("the calendar: 1 December 2026 is a Tuesday")
def test_weeks_run_from_monday_to_sunday_within_the_booklet() -> None:
    assert [week.dates[0].day for week in WEEKS] == [1, 7, 14, 21, 28]
    assert [week.dates[-1].day for week in WEEKS] == [6, 13, 20, 27, 31]
    assert [week.number for week in WEEKS] == [1, 2, 3, 4, 5]
    assert [day for week in WEEKS for day in week.days] == list(a_month().days)


def test_a_week_without_practice_is_left_out() -> None:
    weeks = weeks_of(a_month(3), (date(2026, 12, 1), date(2026, 12, 20)))

    assert len(weeks) == 1


def test_every_date_says_its_kinds_with_numbers_or_rest() -> None:
    days = week_words(WEEKS[0]).days

    assert [day.weekday for day in days][:2] == ["Tuesday", "Wednesday"]
    assert dict(days[0].drills) == {
        "opening": "1",
        "review": "2",
        "new": "3",
        "variant": "4",
        "ladder": "5",
    }
    assert (days[1].character, days[4].character) == ("light", "test")
    assert dict(days[4].drills) == {"test": "21\N{EN DASH}24"}
    assert (days[5].character, days[5].drills) == ("rest", ())


@pytest.mark.parametrize("paper", ["a4", "a5", "letter", "half-letter"])
def test_the_page_shows_all_and_stays_within_its_bounds(paper: str) -> None:
    around, canvas = furniture(paper=paper), Recorder()
    leaf = week_leaf(WEEKS[1], words(a_month(), paper), around)
    list(leaf.draw(canvas, side_of(0, "1", around.desk.sheet)))
    said = " ".join(" ".join(canvas.words).split())

    for told in ("Week 2", "7 to 13 December", "Sunday", "rest", "lighter day", "cold test"):
        assert told in said
    assert "four items, played once" in said.replace("  ", " ")
    assert canvas.words.count("octave") == 6, "a strip for each day of practice"
    assert min(y for (_, y), _ in canvas.texts) >= around.bottom
    assert leaf.marks[0].title == "Week 2: 7 to 13 December"
