"""Accidentals within a bar and against a key."""

import pytest
from kit.shorthand import pitch
from music21 import key

from bookgen.notation.accidental import Accidentals, in_key


@pytest.mark.published("music21 10.5, key.KeySignature")
@pytest.mark.parametrize("sharps", range(-7, 8))
def test_a_key_alters_its_letters(sharps: int) -> None:
    signature = key.KeySignature(sharps)
    altered = {
        one.step: int(one.accidental.alter) for one in signature.alteredPitches if one.accidental
    }

    assert {
        letter: in_key(letter, sharps) for letter in "CDEFGAB" if in_key(letter, sharps)
    } == altered


def signs(names: str, sharps: int) -> list[str | None]:
    """The accidentals of notes in one bar."""
    state = Accidentals()
    state.open_bar(sharps)
    return [state.of(pitch(name)) for name in names.split()]


def test_an_accidental_holds_for_its_line_in_its_bar() -> None:
    assert signs("F#4 F#4 F#5 F4 F#4", 0) == ["sharp", None, "sharp", "natural", "sharp"]
    assert signs("F#4 F4 Bb4 B##4", 1) == [None, "natural", "flat", "double-sharp"]


def test_a_new_bar_forgets_and_keeps_the_key() -> None:
    state = Accidentals()
    state.open_bar(2)
    assert state.of(pitch("C4")) == "natural"
    state.open_bar(None)
    assert (state.of(pitch("C4")), state.of(pitch("F#4"))) == ("natural", None)
