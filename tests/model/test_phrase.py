"""Passages as they are written: what is refused, and in what order it comes."""

from fractions import Fraction

import pytest
from kit.refusing import refused
from kit.shorthand import pitch

from bookgen.model.phrase import Bar, Phrase, Sound, WrittenNote

QUARTER = Fraction(1, 4)


def notes(names: str) -> tuple[WrittenNote, ...]:
    return tuple(WrittenNote(pitch(name)) for name in names.split())


def sound(names: str, at: Fraction = Fraction(0), duration: Fraction = QUARTER) -> Sound:
    return Sound(at, duration, notes(names))


def test_a_rest_has_no_notes_and_a_tie_is_not_struck() -> None:
    tied = Sound(Fraction(0), QUARTER, (WrittenNote(pitch("D4"), tied=True), *notes("A4")))

    assert sound("").is_rest
    assert not sound("D4").is_rest
    assert [str(note.pitch) for note in tied.struck] == ["A4"]


@pytest.mark.parametrize(
    ("names", "told"),
    [
        ("G3 D4 A4 E5 B5", "5 notes at once; give at most 4"),
        ("A4 D4", "the notes of a chord rise from the lowest"),
    ],
)
def test_what_is_no_chord_is_refused(names: str, told: str) -> None:
    with refused(told):
        sound(names)


@pytest.mark.parametrize(
    ("at", "duration", "grace"),
    [
        (Fraction(-1, 4), QUARTER, False),
        (Fraction(0), Fraction(0), False),
        (Fraction(0), QUARTER, True),
    ],
)
def test_a_time_that_is_none_is_refused(
    at: Fraction,
    duration: Fraction,
    grace: bool,  # noqa: FBT001
) -> None:
    with refused("cannot last"):
        Sound(at, duration, notes("D4"), grace=grace)


def test_sounds_come_bar_by_bar() -> None:
    first = Bar("1", (sound("D4"), sound("", QUARTER)), Fraction(1, 2), (2, 4), 2)
    second = Bar("2", (sound("E4"),), QUARTER)
    found = list(Phrase((first, second)).sounds())

    assert [index for index, _ in found] == [0, 0, 1]
    assert [str(one.notes[0].pitch) for _, one in found if one.notes] == ["D4", "E4"]
