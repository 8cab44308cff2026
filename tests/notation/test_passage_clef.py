"""Clefs of a passage, and what stands under an 8va sign."""

import pytest
from phrases import phrase
from shorthand import VIOLA, VIOLIN, specimen

from bookgen.notation.passage_clef import clefs_of, under_octave_sign

CELLO = specimen("cello")
BASS = specimen("double_bass")


def clefs(text: str, key: str = "viola") -> str:
    """The first letters of the bars' clefs."""
    instrument = {"viola": VIOLA, "violin": VIOLIN, "cello": CELLO, "bass": BASS}[key]
    return "".join(name[0] for name in clefs_of(phrase(text), instrument))


LOW = "C3 G3 D4 A4 C3 G3 D4 A4"
HIGH = "A5 B5 C6 D6 A5 B5 C6 D6"


@pytest.mark.published("common practice, no source")
@pytest.mark.parametrize(
    ("text", "found"),
    [
        (f"{LOW} | {LOW}", "aa"),
        (f"{HIGH} | {HIGH}", "tt"),
        ("A4 B4 C5 D5 E5 F5 E5 D5 | C5 B4 A4 G4", "aa"),
        (f"{LOW} | {HIGH} | {HIGH} | {LOW}", "atta"),
        (f"{LOW} | {HIGH} | r=1 | {LOW}", "ataa"),
    ],
)
def test_a_viola_changes_clef_where_it_is_worth_it(text: str, found: str) -> None:
    assert clefs(text) == found


def test_each_instrument_has_its_own_clefs() -> None:
    assert clefs(HIGH, "violin") == "t"
    assert clefs("C2 G2 D3 A3 C2 G2 D3 A3 | A4 B4 C5 A4 B4 C5 A4 B4", "cello") == "bt"
    assert clefs("E2 G3 | D4 E4 F4 G4 A4", "bass") == "bb"


def under(text: str) -> list[int]:
    """Which sounds of one bar stand under the sign."""
    return sorted(at for _, at in under_octave_sign(phrase(text), VIOLIN))


def test_a_run_goes_under_the_sign_as_a_whole() -> None:
    assert under("A5 F6 G6 A6 B6 C7 B6 A6 G6 A5") == [1, 2, 3, 4, 5, 6, 7, 8]
    assert under("F6 G6 A6 B6 A6 G6") == []


def test_a_rest_does_not_end_the_sign_and_a_low_note_does() -> None:
    assert under("C7 r C7 r A5") == [0, 1, 2]
    assert under("C7 A4 C7") == [0, 2]
    assert under("A4+C7 C7") == [1]
