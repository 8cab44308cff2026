"""Key, meter and bar number of a typed passage, as words."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookgen.readers.score.text_settings import (
    meter_said,
    number_said,
    sharps_said,
    sharps_text,
)


@given(sharps=st.integers(-7, 7))
def test_a_key_is_read_back(sharps: int) -> None:
    assert sharps_said(sharps_text(sharps)) == sharps


@pytest.mark.parametrize(
    ("words", "sharps"),
    [
        ("C major", 0), ("D", 2), ("B minor", 2), ("Bb major", -2), ("F# minor", 3),
        ("0 sharps", 0), ("1 flat", -1), ("1 sharp", 1), ("7 flats", -7),
    ],
)  # fmt: skip
def test_keys(words: str, sharps: int) -> None:
    assert sharps_said(words) == sharps


@pytest.mark.parametrize("words", ["", "H", "d", "D Major", "8 sharps", "D minor x"])
def test_what_is_no_key(words: str) -> None:
    with pytest.raises(ValueError, match="is no key; write"):
        sharps_said(words)


@pytest.mark.parametrize(("words", "meter"), [("3/4", (3, 4)), ("3+2/8", (5, 8)), ("2/2", (2, 2))])
def test_meters(words: str, meter: tuple[int, int]) -> None:
    assert meter_said(words) == meter


@pytest.mark.parametrize("words", ["", "3", "C", "3/5", "0/4", "3/4/4", "999/4"])
def test_what_is_no_meter(words: str) -> None:
    with pytest.raises(ValueError, match="is no meter; write"):
        meter_said(words)


@pytest.mark.parametrize("word", ["", "a", "12ab", "-1", "123456"])
def test_what_is_no_bar_number(word: str) -> None:
    with pytest.raises(ValueError, match="is no bar number; write"):
        number_said(word)
