"""One word of a typed passage, there and back."""

from fractions import Fraction

import pytest
from hypothesis import given
from kit.scores import lengths, notes

from bookgen.model.phrase import Sound, WrittenNote
from bookgen.readers.score.text_sound import (
    length_text,
    note_text,
    read_length,
    read_note,
    read_sound,
    sound_text,
)

QUARTER = Fraction(1, 4)


@given(note=notes)
def test_a_note_is_read_back(note: WrittenNote) -> None:
    assert read_note(note_text(note)) == note


@given(length=lengths)
def test_a_length_is_read_back(length: Fraction) -> None:
    assert read_length(length_text(length)) == length


@pytest.mark.parametrize(
    "word", ["D4", "D4:8", "~D4+F#4:2.", "A4=III2+F#5=1:16", "E5=0", "A5=Io", "r", "r:1", "(C5)",
             "(C5+E5=2)", "Bb3=IV:3/7", "C##4"],
)  # fmt: skip
def test_a_word_is_written_as_it_is_read(word: str) -> None:
    sound = read_sound(word, Fraction(0), QUARTER)

    assert sound_text(sound, QUARTER) == word


@pytest.mark.parametrize(
    ("text", "length"),
    [
        ("4", "1/4"),
        ("8.", "3/16"),
        ("4..", "7/16"),
        ("12", "1/12"),
        ("3/16", "3/16"),
        ("16/1", "16"),
    ],
)
def test_lengths(text: str, length: str) -> None:
    assert str(read_length(text)) == length


@pytest.mark.parametrize(
    "text", ["-", "0", "1025", "4....", "1/0", "17/1", "-4", "4.5", "a", "99999", "4/", "/4"]
)
def test_what_is_no_length(text: str) -> None:
    with pytest.raises(ValueError, match="is no length; write"):
        read_length(text)


def test_a_chord_is_read_from_low_to_high() -> None:
    sound = read_sound("B4+D4", Fraction(0), QUARTER)

    assert sound_text(sound, QUARTER) == "D4+B4"
    assert sound == Sound(Fraction(0), QUARTER, sound.notes)


@pytest.mark.parametrize(
    "word",
    [":4", "D4+", "+D4", "D", "d4", "D4=", "D4=x", "(r)", "R", "~", "D4~", "D4:", "D4::", "D4=22"],
)
def test_what_is_no_sound(word: str) -> None:
    with pytest.raises(ValueError, match="; "):
        read_sound(word, Fraction(0), QUARTER)
