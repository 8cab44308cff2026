"""How things are said."""

from datetime import date, timedelta

import pytest
from paper import violin

from bookgen.binder.english import (
    date_name,
    hand_name,
    listed,
    minutes_name,
    pitch_name,
    positions_name,
    strings_name,
    with_article,
)
from bookgen.model.drill import Drill
from bookgen.model.interval import interval_words
from bookgen.model.pitch import Pitch
from bookgen.model.units import StringNumber


@pytest.mark.parametrize(
    ("key", "said"),
    [
        ("12-whole-place2", "Fingers 1 and 2, a whole step apart"),
        ("13-minor-third-place2", "Fingers 1 and 3, three half steps apart"),
        ("1234-whole.half.whole-place2", "Fingers 1, 2, 3 and 4 (whole, half, whole)"),
    ],
)
def test_a_hand_is_said_in_plain_words(key: str, said: str) -> None:
    drill = Drill.parse_key(f"violin-{key}-strings4321-stage1-low-same")

    assert hand_name(drill) == said


def test_the_finger_that_leads_is_named_first() -> None:
    drill = Drill.parse_key("violin-12-half-place2-strings4321-stage1-high-same")
    frame = Drill.parse_key("violin-123-half.half-place2-strings4321-stage1-order132-same")

    assert hand_name(drill) == "Fingers 2 and 1, a half step apart"
    assert hand_name(frame).endswith("played 1 3 2")


def test_dates_agree_with_the_calendar_of_another_program() -> None:
    for day in range(0, 800, 13):
        when = date(2026, 1, 1) + timedelta(days=day)
        assert date_name(when) == when.strftime(f"%A, {when.day} %B %Y")


def test_signs_are_real_sharps_and_flats() -> None:
    names = [pitch_name(Pitch.parse(name)) for name in ("F#4", "Bb3", "C5")]
    assert names == ["F♯4", "B♭3", "C5"]


def test_intervals_take_the_right_article() -> None:
    assert with_article(interval_words("P8")) == "an octave"
    assert with_article(interval_words("A4")) == "an augmented fourth"
    assert with_article(interval_words("P1")) == "a unison"


def test_strings_and_positions_are_counted_once() -> None:
    all_four = [StringNumber(number) for number in (4, 3, 2, 1, 4)]
    assert strings_name(all_four, violin()) == "all four strings"
    assert strings_name(all_four[:2], violin()) == "strings IV and III"
    assert positions_name(["1st", "3rd", "4th", "5th"]) == "1st to 5th position"


def test_lists_and_minutes() -> None:
    assert listed(["1"]) == "1"
    assert minutes_name(12.0) == "12 minutes"
    assert minutes_name(2.4) == "2½ minutes"
