"""Printed bar numbers, also where they are missing or come twice."""

import pytest

from bookgen.errors import BookgenError
from bookgen.readers.score.bars import (
    following,
    is_printed,
    lettered,
    plain_number,
    printed_numbers,
    wanted_bars,
)

GIVEN = {
    "1 2 3": "1 2 3",
    "0 1 2": "0 1 2",
    "- - -": "1 2 3",
    "- 1 2": "0 1 2",
    "- 2 3": "1 2 3",
    "12 X1 13": "12 12a 13",
    "12 X1 X2 13": "12 12a 12b 13",
    "12 - 12a 13": "12 12b 12a 13",
    "12A 013": "12a 13",
    "1 2 1 2": "1 2 1 2",
    "x y": "1 2",
    "99999999 5": "1 5",
}


@pytest.mark.parametrize(("given", "names"), GIVEN.items())
def test_every_bar_has_a_name(given: str, names: str) -> None:
    numbers = [None if word == "-" else word for word in given.split()]

    assert " ".join(printed_numbers(numbers, upbeat=False)) == names


def test_an_upbeat_without_a_number_is_0() -> None:
    assert printed_numbers([None, None], upbeat=True) == ["0", "1"]
    assert printed_numbers([None, "5"], upbeat=True) == ["0", "5"]


def test_a_bar_divided_into_very_many_keeps_its_number() -> None:
    names = printed_numbers(["7", *["X"] * 40], upbeat=False)

    assert names[:3] == ["7", "7a", "7b"]
    assert names[26] == "7z"
    assert names[-1] == "7z"
    assert lettered("7z", set(names)) == "7z"


@pytest.mark.parametrize(("text", "printed"), [("12", True), ("12a", True), ("X1", False)])
def test_what_is_printed(text: str, printed: bool) -> None:  # noqa: FBT001
    assert is_printed(text) == printed
    assert (plain_number(text) != "") == printed


def test_the_next_number() -> None:
    assert following("12a") == "13"


@pytest.mark.parametrize(
    ("wanted", "indexes"),
    [
        (("2", "3"), [1, 2]),
        (("02", "2"), [1]),
        (("3A", "4"), [3, 4]),
        (("1", "2"), [0, 1]),
        (("#6", "2"), [5, 6]),
        (("2", "#7"), [1, 2, 3, 4, 5, 6]),
    ],
)
def test_wanted_bars(wanted: tuple[str, str], indexes: list[int]) -> None:
    found, _ = wanted_bars(["1", "2", "3", "3a", "4", "1", "2"], wanted, "song.xml")

    assert list(found) == indexes


def test_all_bars_where_nothing_is_said() -> None:
    assert wanted_bars(["1", "2"], None, "song.xml") == (range(2), [])


@pytest.mark.parametrize(
    ("wanted", "line"),
    [
        (("9", "9"), "there is no bar '9'; the 4 bars are numbered 1 to 4"),
        (("1", "#9"), "there is no bar '#9'; the 4 bars are numbered 1 to 4"),
        (("3", "2"), "bar '2' comes before bar '3'"),
        (("", "2"), "there is no bar ''; the 4 bars are numbered 1 to 4"),
        (("9" * 500, "2"), f"there is no bar '{'9' * 40} …'; the 4 bars are numbered 1 to 4"),
    ],
)
def test_bars_that_there_are_not(wanted: tuple[str, str], line: str) -> None:
    with pytest.raises(BookgenError) as caught:
        wanted_bars(["1", "2", "3", "4"], wanted, "song.xml")

    mend = "give --bars A-B with numbers that are printed there"
    assert str(caught.value) == f"song.xml: {line}; {mend}."
