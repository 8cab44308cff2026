"""Numbers in a score, within what music needs."""

from fractions import Fraction

import pytest
from kit.scores import element

from bookgen.readers.score.numbers import (
    alteration,
    midi_height,
    natural_semitones,
    number,
    quarters,
    transposition,
    whole,
)

NONE = ["", " ", "x", "1e3", "NaN", "inf", "--1", "1/2", "½", "\uff15", "1,5", "9" * 12, "0x1"]


@pytest.mark.parametrize("text", NONE)
def test_what_is_no_number(text: str) -> None:
    assert number(text, -1000, 1000) is None
    assert whole(text, -1000, 1000) is None


def test_numbers_within_their_bounds() -> None:
    assert number(" 1.25 ", 0, 2) == Fraction(5, 4)
    assert number("-1", 0, 2) is None
    assert whole("2.0", 0, 2) == 2
    assert whole("1.5", 0, 2) is None
    assert whole("3", 0, 2) is None
    assert whole("+2", 0, 2) == 2


def test_durations() -> None:
    note = element("<note><duration>3</duration></note>")

    assert quarters(note, Fraction(2)) == Fraction(3, 2)
    assert quarters(note, Fraction(1, 100)) is None
    assert quarters(element("<note/>"), Fraction(2)) is None


@pytest.mark.parametrize(
    ("letters", "semitones"),
    [(0, 0), (1, 2), (3, 5), (4, 7), (6, 11), (7, 12), (-1, -1), (-5, -8), (-7, -12), (9, 16)],
)
def test_semitones_of_letters_in_c(letters: int, semitones: int) -> None:
    assert natural_semitones(letters) == semitones


@pytest.mark.parametrize(
    ("inside", "found"),
    [
        ("<diatonic>-1</diatonic><chromatic>-2</chromatic>", (-1, -2)),
        ("<diatonic>-5</diatonic><chromatic>-9</chromatic>", (-5, -9)),
        ("<chromatic>-9</chromatic>", (-5, -9)),
        ("<chromatic>7</chromatic>", (4, 7)),
        ("<octave-change>-1</octave-change>", (-7, -12)),
        ("<diatonic>1</diatonic><chromatic>2</chromatic><octave-change>1</octave-change>",
         (8, 14)),
        ("<diatonic>5</diatonic><chromatic>-2</chromatic>", (-1, -2)),
        ("<chromatic>9999</chromatic>", (0, 0)),
        ("", (0, 0)),
    ],
)  # fmt: skip
def test_transpositions(inside: str, found: tuple[int, int]) -> None:
    assert transposition(element(f"<transpose>{inside}</transpose>")) == found


@pytest.mark.parametrize(
    ("step", "alter", "octave", "height"),
    [
        ("A", "", "4", 69),
        ("c", "1", "4", 61),
        ("C", "-0.5", "4", 59.5),
        ("C", "0", "-1", 0),
        ("G", "0", "9", 127),
        ("A", "0", "9", None),
        ("C", "-1", "-1", None),
        ("H", "0", "4", None),
        ("A", "9", "4", None),
        ("A", "0", "", None),
    ],
)
def test_heights(step: str, alter: str, octave: str, height: float | None) -> None:
    inside = f"<step>{step}</step><alter>{alter}</alter><octave>{octave}</octave>"
    pitch = element(f"<pitch>{inside}</pitch>")

    assert midi_height(pitch) == height
    assert alteration(pitch) == (None if alter == "9" else float(alter or "0"))
