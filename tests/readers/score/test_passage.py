"""From the bars of a file to the phrase that the player reads."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from kit.scores import phrases, shown
from kit.shorthand import VIOLIN, specimen

from bookgen.errors import BookgenError
from bookgen.model.phrase import Phrase, WrittenNote
from bookgen.model.pitch import Pitch
from bookgen.model.units import Semitones
from bookgen.readers.score.findings import Remarks
from bookgen.readers.score.passage import NO_SHIFT, RawBar, Shift, cut, phrase_of
from bookgen.readers.score.text_sound import read_notes
from bookgen.readers.score.voices import Timed

QUARTER = Fraction(1, 4)


def raw(number: str, *voices: str, meter: tuple[int, int] = (2, 4), sharps: int = 0) -> RawBar:
    """A bar of quarter notes."""
    return RawBar(
        number=number,
        voices=tuple(
            tuple(
                Timed(index * QUARTER, QUARTER, () if word == "r" else read_notes(word))
                for index, word in enumerate(voice.split())
            )
            for voice in voices
        ),
        length=Fraction(1, 2),
        meter=meter,
        sharps=sharps,
    )


def test_meter_and_key_stand_where_they_change() -> None:
    bars = [raw("1", "D4 E4"), raw("2", "D4 E4", sharps=1), raw("3", "D4 E4", sharps=1)]
    phrase = phrase_of(bars, NO_SHIFT, Remarks("song.xml"))

    assert [(bar.meter, bar.sharps) for bar in phrase.bars] == [
        ((2, 4), 0),
        (None, 1),
        (None, None),
    ]


def test_more_than_four_notes_are_told() -> None:
    remarks = Remarks("song.xml")
    phrase = phrase_of([raw("7", "D4+F4+A4 E4", "C5+E5 r")], NO_SHIFT, remarks)

    assert shown(phrase) == ["F4+A4+C5+E5 E4 |"]
    assert [str(finding) for finding in remarks.findings()] == [
        (
            "song.xml, bar 7: more than four notes sound together; the highest four are read; "
            "give each player's voice a part of its own if two players share them."
        )
    ]


def test_no_note_at_all() -> None:
    with pytest.raises(BookgenError, match="there is no note in these bars"):
        phrase_of([raw("1", "r r")], NO_SHIFT, Remarks("song.xml"))


def test_shifts_of_the_instruments() -> None:
    assert Shift.to_written(VIOLIN) == NO_SHIFT
    assert Shift.to_written(specimen("double_bass")) == Shift(7, Semitones(12))


@pytest.mark.parametrize(
    ("letters", "semitones", "sharps", "key"),
    [(7, 12, 3, 3), (1, 2, 0, 2), (1, 2, 6, -4), (-2, -3, -1, 2), (-2, -3, -7, -4), (0, 1, 0, -5)],
)
def test_the_key_moves_with_the_notes(letters: int, semitones: int, sharps: int, key: int) -> None:
    moved = Shift(letters, Semitones(semitones)).key(sharps)

    assert moved == key or (abs(moved) <= 7 and (moved - key) % 12 == 0)


@pytest.mark.parametrize(
    ("name", "letters", "semitones", "written"),
    [
        ("E2", 7, 12, "E3"),
        ("B##4", 1, 2, "D#5"),  # C### is no name
        ("G9", 7, 12, None),
    ],
)
def test_a_note_moves(name: str, letters: int, semitones: int, written: str | None) -> None:
    note = WrittenNote(Pitch.parse(name), finger=2)
    moved = Shift(letters, Semitones(semitones)).note(note, 2)

    assert (moved and str(moved.pitch)) == written
    assert moved is None or moved.finger == 2


@settings(max_examples=50, deadline=None)
@given(phrase=phrases())
def test_what_is_cut_out_tells_its_key_and_meter_and_is_tied_to_nothing(phrase: Phrase) -> None:
    last = range(len(phrase.bars) - 1, len(phrase.bars))
    (bar,) = cut(phrase, last).bars

    assert cut(phrase, range(len(phrase.bars))) == phrase
    assert bar.meter == [one.meter for one in phrase.bars if one.meter][-1]
    assert bar.sharps == [one.sharps for one in phrase.bars if one.sharps is not None][-1]
    assert not any(note.tied for note in bar.sounds[0].notes)
    assert [sound.duration for sound in bar.sounds] == [
        sound.duration for sound in phrase.bars[-1].sounds
    ]
