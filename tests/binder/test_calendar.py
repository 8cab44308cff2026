"""The days as a calendar."""

from datetime import date

import pytest
from booklets import a_month, desk
from paper import Recorder

from bookgen.binder.calendar import Calendar, calendar_of, draw_calendar
from bookgen.plan.document import Plan

WORDS = {"rest": "rest", "light": "lighter day", "test": "cold test"}
DECEMBER = (date(2026, 12, 1), date(2026, 12, 31))


def december(plan: Plan | None = None) -> Calendar:
    return calendar_of((plan or a_month()).days, DECEMBER, desk(), WORDS)


@pytest.mark.published("the calendar: 1 December 2026 is a Tuesday")
def test_weeks_begin_on_monday() -> None:
    weeks = december().weeks

    assert len(weeks) == 5
    assert weeks[0][0] == date(2026, 11, 30)
    assert all(week[0].weekday() == 0 for week in weeks)


def test_every_day_of_practice_has_a_box_and_its_numbers() -> None:
    paper = Recorder()
    draw_calendar(paper, december(), 10.0, 150.0, 16.0)

    assert len(paper.boxes) == len(a_month().days)
    assert paper.words.count("rest") == 4
    assert paper.words.count("lighter day") == 5
    assert paper.words.count("cold test") == 4
    assert "1\N{EN DASH}5" in paper.words
    assert "1 Dec" in paper.words


def test_words_stay_in_their_day() -> None:
    paper = Recorder()
    found = december()
    draw_calendar(paper, found, 10.0, 150.0, 16.0)

    right = 10.0 + found.desk.sheet.column
    assert all(10.0 <= x < right for (x, _), _ in paper.texts)
    assert min(y for (_, y), _ in paper.texts) > 150.0 - found.height(16.0)


def test_without_room_there_is_no_calendar() -> None:
    assert december().row_in(100.0) is not None
    assert december().row_in(50.0) is None
