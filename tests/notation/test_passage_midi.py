"""A passage as MIDI, read back with music21."""

from dataclasses import replace
from fractions import Fraction

import pytest
from kit.phrases import phrase
from kit.shorthand import VIOLIN, specimen
from music21 import converter, stream

from bookgen.model.instrument import Instrument
from bookgen.model.marking import Tempo
from bookgen.model.phrase import Phrase
from bookgen.notation.passage_midi import passage_midi, speeds_of, tones_of

MUSIC21 = "Standard MIDI Files 1.0, as music21 10.5 reads them"


def heard(given: Phrase, instrument: Instrument = VIOLIN) -> list[tuple[int, Fraction, Fraction]]:
    score = converter.parseData(passage_midi(given, instrument), format="midi")
    assert isinstance(score, stream.Score)
    return sorted(
        (
            pitch.midi,
            Fraction(note.getOffsetInHierarchy(score)) / 4,
            Fraction(note.quarterLength) / 4,
        )
        for note in score.recurse().notes
        for pitch in note.pitches
    )


@pytest.mark.published(MUSIC21)
def test_notes_double_stops_and_rests_are_heard_when_they_are_written() -> None:
    given = phrase("C4 D4 r E4+C5=1/4 G4=1/4 r | A4=1/2 B4=1/2")
    eighth, quarter, half = Fraction(1, 8), Fraction(1, 4), Fraction(1, 2)

    assert heard(given) == sorted([
        (60, 0 * eighth, eighth), (62, eighth, eighth), (64, 3 * eighth, quarter),
        (72, 3 * eighth, quarter), (67, 5 * eighth, quarter), (69, 8 * eighth, half),
        (71, 12 * eighth, half),
    ])  # fmt: skip


@pytest.mark.published(MUSIC21)
def test_the_bass_sounds_an_octave_lower() -> None:
    assert [number for number, _, _ in heard(phrase("E3=1/4 A3=1/4"), specimen("double_bass"))] == [
        40,
        45,
    ]


def test_what_is_tied_is_one_tone_and_a_grace_note_comes_before_the_beat() -> None:
    tones = sorted(tones_of(phrase("C4+E4=1/4 ~C4+F4=1/4 | gA4 G4=1/4")))

    assert [(number, str(start), str(end)) for number, start, end in tones] == [
        (60, "0", "1/2"),
        (64, "0", "1/4"),
        (65, "1/4", "1/2"),
        (67, "1/2", "3/4"),
        (69, "15/32", "1/2"),
    ]


def test_the_speed_is_that_of_the_file() -> None:
    given = phrase("C4=1/1 | D4=1/1 | E4=1/1")
    tempo = Tempo("Presto", Fraction(3, 8), Fraction(60))
    bars = (given.bars[0], replace(given.bars[1], tempo=tempo), given.bars[2])

    assert [*speeds_of(given)] == [(0, 60)]
    assert [*speeds_of(Phrase(bars))] == [(0, 60), (4 * 384, 90.0)]
