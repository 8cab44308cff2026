"""How the facts of the trade are named."""

from itertools import product

import pytest
from kit.shorthand import VIOLIN, pitch, strings

from bookgen.model.interval import Interval
from bookgen.model.units import Semitones
from bookgen.words.intervals import NAMES
from bookgen.words.names import (
    interval_label,
    interval_name,
    numbers_name,
    position_name,
    positions_name,
    strings_name,
)
from bookgen.words.notes import NOTES
from bookgen.words.speech import ENGLISH


@pytest.mark.published("common practice, no source")
@pytest.mark.parametrize(
    ("label", "words"),
    [
        ("P1", "unison"),
        ("A1", "augmented unison"),
        ("M2", "major second"),
        ("P4", "perfect fourth"),
        ("A4", "augmented fourth"),
        ("d5", "diminished fifth"),
        ("m6", "minor sixth"),
        ("P8", "octave"),
        ("d8", "diminished octave"),
        ("M10", "major tenth"),
        ("P15", "double octave"),
        ("AA2", "doubly augmented second"),
        ("M17", "major third and 2 octaves"),
        ("d22", "diminished octave and 2 octaves"),
        ("P22", "triple octave"),
    ],
)
def test_an_interval_in_words(label: str, words: str) -> None:
    assert interval_name(label, ENGLISH) == words


def test_every_interval_up_to_five_octaves_has_a_name_and_a_mark() -> None:
    intervals = [
        Interval(degrees, Semitones(semitones))
        for degrees, semitones in product(range(36), range(61))
    ]
    labels = [interval.label for interval in intervals if abs(interval.alteration) <= 1]

    assert len(labels) > 80
    assert all(interval_name(label, ENGLISH) and interval_label(label, ENGLISH) for label in labels)


def test_a_name_of_the_table_is_that_of_its_label() -> None:
    assert all(Interval.parse(label).label == label for label in NAMES)


def test_signs_are_real_sharps_and_flats() -> None:
    names = [ENGLISH.pitch(pitch(name)) for name in ("F#4", "Bb3", "C5", "E##4")]

    assert names == ["F♯4", "B♭3", "C5", "E♯♯4"]
    assert len({term.text for term in NOTES.values()}) == len(NOTES) == 35


@pytest.mark.published("common practice, no source")
@pytest.mark.parametrize(
    ("position", "words"),
    [
        ("half", "half position"),
        ("1st", "1st position"),
        ("2nd", "2nd position"),
        ("11th", "11th position"),
        ("between 2nd and 3rd", "between 2nd and 3rd position"),
    ],
)
def test_a_position_is_said_from_its_code(position: str, words: str) -> None:
    assert position_name(position, ENGLISH) == words


def test_strings_and_positions_are_counted_once() -> None:
    assert strings_name(strings("43214"), VIOLIN, ENGLISH) == "all 4 strings"
    assert strings_name(strings("43"), VIOLIN, ENGLISH) == "strings IV and III"
    assert strings_name(strings("2"), VIOLIN, ENGLISH) == "string II"
    assert positions_name(["1st", "3rd", "1st"], ENGLISH) == "1st and 3rd position"
    assert positions_name(["1st", "3rd", "4th", "5th"], ENGLISH) == "1st to 5th position"


def test_runs_of_numbers_are_told_by_their_ends() -> None:
    assert numbers_name([12, 3, 5, 6, 7, 12]) == "3, 5\N{EN DASH}7, 12"
