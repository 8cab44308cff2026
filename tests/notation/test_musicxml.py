"""MusicXML, read back with music21."""

from collections import Counter
from dataclasses import replace
from fractions import Fraction

import pytest
from drills import VIOLA, VIOLIN, entry
from music21 import articulations, converter, stream

from bookgen.model.units import Semitones
from bookgen.notation.label import groups
from bookgen.notation.musicxml import in_voices, musicxml_of, sounds
from bookgen.plan.document import PlannedDrill

STAGES = [f"12-whole-place2-strings4321-stage{stage}-low-same" for stage in range(1, 6)]
KEYS = [
    *STAGES,
    "34-half-place5-strings4321-stage4-high-mirror",
    "1234-half.half.half-place1-strings4321-stage1-order1324-mirror",
]
Heard = tuple[str, int, int, Fraction, Fraction]
"""Pitch, finger, string, start and length in whole notes."""


def planned_sounds(drill: PlannedDrill) -> Counter[Heard]:
    """What the drill says, with held notes joined."""
    found: list[Heard] = []
    now = Fraction(0)
    for event in drill.events:
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


def part_of(text: str) -> stream.Part:
    """The one part of a MusicXML text."""
    score = converter.parseData(text, format="musicxml")
    assert isinstance(score, stream.Score)
    [part] = score.parts
    return part


def read_back(text: str) -> Counter[Heard]:
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
    drill = entry(key)

    assert read_back(musicxml_of(drill, VIOLIN)) == planned_sounds(drill)


@pytest.mark.parametrize("key", STAGES)
def test_the_same_drill_gives_the_same_text(key: str) -> None:
    text = musicxml_of(entry(key), VIOLIN)

    assert text == musicxml_of(entry(key), VIOLIN)
    assert "encoding-date" not in text


def test_a_viola_is_read_in_its_clef() -> None:
    text = musicxml_of(entry(STAGES[0], instrument=VIOLA), VIOLA)
    part = part_of(text)

    assert {type(clef).__name__ for clef in part.recurse().getElementsByClass("Clef")} == {
        "AltoClef"
    }


def test_a_bass_sounds_an_octave_lower_than_written() -> None:
    bass = replace(VIOLIN, sounding=Semitones(-12))
    text = musicxml_of(entry(STAGES[0]), bass)
    part = part_of(text)

    assert "<octave-change>-1</octave-change>" in text
    assert part.toSoundingPitch().recurse().notes[0].nameWithOctave == "A2"


def test_bars_end_where_the_hand_is_laid_again() -> None:
    text = musicxml_of(entry(STAGES[0]), VIOLIN)
    part = part_of(text)
    lines = [measure.rightBarline.type for measure in part.getElementsByClass(stream.Measure)]

    assert lines == ["short"] * 3 + ["double"] + ["short"] * 3 + ["final"]


def test_sounds_that_overlap_get_voices_of_their_own() -> None:
    first = groups(entry(STAGES[3]).events)[0]
    voices = in_voices(sounds(first))

    assert [[str(sound.note.pitch) for sound in voice] for voice in voices] == [
        ["A3", "B4"],
        ["F#4", "G#5"],
    ]
    assert [[sound.length for sound in voice] for voice in voices] == [
        [Fraction(1, 2), Fraction(3, 4)],
        [Fraction(3, 4), Fraction(1, 2)],
    ]
