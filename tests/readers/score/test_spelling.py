"""Names for heights."""

import pytest

from bookgen.model.pitch import Pitch
from bookgen.readers.score.spelling import KEYS, key_signature, likely_key, spelled, writable

CIRCLE = "keys and their signatures: common practice, no source"


@pytest.mark.parametrize("sharps", KEYS)
def test_every_height_has_a_name_without_double_signs(sharps: int) -> None:
    names = [spelled(midi, sharps) for midi in range(128)]

    assert [pitch.midi for pitch in names] == list(range(128))
    assert max(abs(pitch.accidental) for pitch in names) == 1


@pytest.mark.published(CIRCLE)
@pytest.mark.parametrize(
    ("sharps", "scale"),
    [
        (0, "C4 D4 E4 F4 G4 A4 B4"),
        (2, "C#4 D4 E4 F#4 G4 A4 B4"),
        (7, "C#4 D#4 E#4 F#4 G#4 A#4 B#4"),
        (-3, "C4 D4 Eb4 F4 G4 Ab4 Bb4"),
        (-7, "Cb4 Db4 Eb4 Fb4 Gb4 Ab4 Bb4"),
    ],
)
def test_the_notes_of_a_key_need_no_accidental(sharps: int, scale: str) -> None:
    notes = [Pitch.parse(name) for name in scale.split()]

    assert [spelled(note.midi, sharps) for note in notes] == notes


@pytest.mark.published(CIRCLE)
@pytest.mark.parametrize(
    ("tonic", "minor", "sharps"),
    [
        ("C", False, 0), ("G", False, 1), ("F#", False, 6), ("C#", False, 7), ("F", False, -1),
        ("Bb", False, -2), ("Cb", False, -7), ("A", True, 0), ("F#", True, 3), ("A#", True, 7),
        ("D", True, -1), ("Ab", True, -7),
    ],
)  # fmt: skip
def test_key_signatures(tonic: str, minor: bool, sharps: int) -> None:  # noqa: FBT001
    assert key_signature(tonic, minor=minor) == sharps


@pytest.mark.parametrize(("tonic", "minor"), [("G#", False), ("Fb", False), ("Fb", True)])
def test_a_key_that_no_staff_shows(tonic: str, minor: bool) -> None:  # noqa: FBT001
    with pytest.raises(ValueError, match="more than seven sharps or flats"):
        key_signature(tonic, minor=minor)


@pytest.mark.parametrize(
    ("letter", "signs", "octave", "name"),
    [
        ("C", 2, 4, "C##4"),
        ("C", 3, 4, "D#4"),
        ("C", -3, 4, "A3"),
        ("B", 3, 4, "D5"),
        ("E", -4, 4, "C4"),
        ("E", -3, 4, "Db4"),
    ],
)
def test_a_name_with_too_many_signs_becomes_another(
    letter: str, signs: int, octave: int, name: str
) -> None:
    assert str(writable(letter, signs, octave)) == name


@pytest.mark.parametrize(
    ("names", "sharps"),
    [
        ("C4 D4 E4 F4 G4 A4 B4", 0),
        ("D4 E4 F#4 G4 A4 B4 C#5", 2),
        ("Eb4 F4 G4 Ab4 Bb4 C5 D5", -3),
        ("D4", 0),
        ("C#4", 2),
        ("", 0),
    ],
)
def test_the_key_with_the_fewest_accidentals(names: str, sharps: int) -> None:
    assert likely_key(Pitch.parse(name).midi for name in names.split()) == sharps
