"""Numbers as they are typed."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookgen.commands.log import numbers_text
from bookgen.errors import BookgenError
from bookgen.tasks.numbers import numbers_of


def told(*words: str) -> list[str]:
    with pytest.raises(BookgenError) as stopped:
        numbers_of(words, "NUMBER")
    return str(stopped.value).splitlines()


@pytest.mark.parametrize(
    ("words", "numbers"),
    [
        (["3"], [3]),
        (["3", "5-8", "12"], [3, 5, 6, 7, 8, 12]),
        (["5\N{EN DASH}6"], [5, 6]),
        (["3,5-6,", "4"], [3, 5, 6, 4]),
        (["7-7"], [7]),
    ],
)
def test_numbers_and_ranges_are_read(words: list[str], numbers: list[int]) -> None:
    assert numbers_of(words, "NUMBER") == numbers


@pytest.mark.parametrize(
    "word", ["0", "x", "5-", "-5", "8-5", "3.5", "\N{ARABIC-INDIC DIGIT FIVE}", "1-99999", "9" * 99]
)
def test_what_is_no_number_is_told(word: str) -> None:
    mend = "write e.g. 3 or 5-8."
    assert told(word) == [f"NUMBER: {word!r} is no number of a drill or range of them; {mend}"]


def test_every_bad_word_is_told() -> None:
    assert len(told("x", "3", "8-5")) == 2
    assert len(told("")) == 1


@given(st.sets(st.integers(1, 300), min_size=1))
def test_what_is_told_can_be_typed_again(numbers: set[int]) -> None:
    said = numbers_text(sorted(numbers)).split(" ", 1)[1]
    assert numbers_of(said.split(), "NUMBER") == sorted(numbers)
