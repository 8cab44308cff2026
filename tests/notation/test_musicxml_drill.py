"""A drill as MusicXML, read back with music21 and with our own reader."""

from collections import Counter
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from kit.drills import VIOLA, VIOLIN, drill_of
from music21 import articulations, converter, stream

from bookgen.model.drill import Drill
from bookgen.model.music import layings, play
from bookgen.model.units import Semitones
from bookgen.notation.musicxml import drill_musicxml
from bookgen.notation.tone import in_voices, tones_of
from bookgen.readers.score import read_passage

STAGES = [f"12-whole-place2-strings4321-stage{stage}-low-same" for stage in range(1, 6)]
KEYS = [
    *STAGES,
    "34-half-place5-strings4321-stage4-high-mirror",
    "1234-half.half.half-place1-strings4321-stage1-order1324-mirror",
    "12-whole-place2to4-strings4321-stage2-low-same",
    "2-place4to9-strings321-stage3-low-same",
    "1-place2-strings4321-stage4-low-same",
    "1-place2-strings4321-stage5-low-same",
    "12-whole-place2-strings41-stage3-low-same",
    "123-whole.half-place2-strings43-stage4-low-mirror",
]
Heard = tuple[str, int, int, Fraction, Fraction]
"""Pitch, finger, string, start and length in whole notes."""


def planned_sounds(drill: Drill) -> Counter[Heard]:
    """What the drill says, with held notes joined."""
    found: list[Heard] = []
    now = Fraction(0)
    for event in play(drill, VIOLIN):
        for note in event.notes:
            stop = note.stop
            entry = (str(note.pitch), stop.finger, int(stop.string), now, event.duration)
            if note.held:
                last = max(i for i, old in enumerate(found) if old[:3] == entry[:3])
                found[last] = (*found[last][:4], found[last][4] + event.duration)
            else:
                found.append(entry)
        now += event.duration
    return Counter(found)


def part_of(text: bytes) -> stream.Part:
    """The one part of a MusicXML text."""
    score = converter.parseData(text.decode(), format="musicxml")
    assert isinstance(score, stream.Score)
    [part] = score.parts
    return part


def read_back(text: bytes) -> Counter[Heard]:
    """What music21 finds in the file."""
    part = part_of(text)
    return Counter(
        (
            note.nameWithOctave.replace("-", "b"),
            finger(note.articulations),
            string(note.articulations),
            Fraction(note.getOffsetInHierarchy(part)) / 4,
            Fraction(note.quarterLength) / 4,
        )
        for note in part.recurse().notes
    )


def finger(marks: list[articulations.Articulation]) -> int:
    """The one finger of a note."""
    [mark] = [mark for mark in marks if isinstance(mark, articulations.Fingering)]
    return int(mark.fingerNumber)


def string(marks: list[articulations.Articulation]) -> int:
    """The one string of a note."""
    [mark] = [mark for mark in marks if isinstance(mark, articulations.StringIndication)]
    return int(str(mark.number))


@pytest.mark.published("MusicXML 4.0 (W3C), as music21 10.5 reads it")
@pytest.mark.parametrize("key", KEYS)
def test_every_sound_is_read_back(key: str) -> None:
    drill = drill_of(key)

    assert read_back(drill_musicxml(drill, VIOLIN)) == planned_sounds(drill)


@pytest.mark.parametrize("key", STAGES)
def test_the_same_drill_gives_the_same_text(key: str) -> None:
    text = drill_musicxml(drill_of(key), VIOLIN)

    assert text == drill_musicxml(drill_of(key), VIOLIN)
    assert b"encoding-date" not in text


def test_a_viola_is_read_in_its_clef() -> None:
    text = drill_musicxml(drill_of(STAGES[0], VIOLA), VIOLA)
    part = part_of(text)

    assert {type(clef).__name__ for clef in part.recurse().getElementsByClass("Clef")} == {
        "AltoClef"
    }


def test_a_bass_sounds_an_octave_lower_than_written() -> None:
    bass = replace(VIOLIN, sounding=Semitones(-12))
    text = drill_musicxml(drill_of(STAGES[0]), bass)
    part = part_of(text)

    assert b"<octave-change>-1</octave-change>" in text
    assert part.toSoundingPitch().recurse().notes[0].nameWithOctave == "A2"


def test_bars_end_where_the_hand_is_laid_again() -> None:
    text = drill_musicxml(drill_of(STAGES[0]), VIOLIN)
    part = part_of(text)
    lines = [measure.rightBarline.type for measure in part.getElementsByClass(stream.Measure)]

    assert lines == ["short"] * 3 + ["double"] + ["short"] * 3 + ["final"]


def test_sounds_that_overlap_get_voices_of_their_own() -> None:
    first = layings(play(drill_of(STAGES[3]), VIOLIN))[0]
    voices = in_voices(tones_of(first))

    assert [[str(tone.note.pitch) for tone in voice] for voice in voices] == [
        ["A3", "B4"],
        ["F#4", "G#5"],
    ]
    assert [[tone.length for tone in voice] for voice in voices] == [
        [Fraction(1, 2), Fraction(3, 4)],
        [Fraction(3, 4), Fraction(1, 2)],
    ]


@pytest.mark.parametrize("key", STAGES[:3])
def test_our_own_reader_finds_every_note_with_finger_and_string(key: str, tmp_path: Path) -> None:
    file = tmp_path / "drill.musicxml"
    file.write_bytes(drill_musicxml(drill_of(key), VIOLIN))
    found = [
        (note.pitch, note.finger, note.string)
        for _, sound in read_passage(file, VIOLIN).phrase.sounds()
        for note in sound.notes
    ]

    assert found == [
        (note.pitch, note.stop.finger, note.stop.string)
        for event in play(drill_of(key), VIOLIN)
        for note in event.notes
    ]
