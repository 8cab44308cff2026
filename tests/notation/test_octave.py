"""What stands under an 8va sign in a passage."""

import pytest
from kit.phrases import phrase
from kit.shorthand import VIOLIN

from bookgen.notation.octave import under_octave_sign


def under(text: str) -> list[int]:
    """Which sounds of one bar stand under the sign."""
    return sorted(at for _, at in under_octave_sign(phrase(text), VIOLIN))


def test_a_run_goes_under_the_sign_as_a_whole() -> None:
    assert under("A5 F6 G6 A6 B6 C7 B6 A6 G6 A5") == [1, 2, 3, 4, 5, 6, 7, 8]
    assert under("F6 G6 A6 G6") == []


@pytest.mark.published("E. Gould, Behind Bars, 2011, ch. 14, as quoted elsewhere")
def test_the_sign_begins_with_the_fifth_ledger_line() -> None:
    assert under("G6 A#6 G6") == []
    assert under("G6 Bb6 G6") == [0, 1, 2]
    assert under("G6 B6 G6") == [0, 1, 2]


def test_a_rest_does_not_end_the_sign_and_a_low_note_does() -> None:
    assert under("C7 r C7 r A5") == [0, 1, 2]
    assert under("C7 A4 C7") == [0, 2]
    assert under("A4+C7 C7") == [1]
