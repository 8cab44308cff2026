"""A drill as MusicXML, read back with music21 and with our own reader."""

from collections import Counter
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from kit.drills import VIOLA, VIOLIN, drill_of
from kit.recitals import recital
from music21 import articulations, chord, converter, expressions, stream, tempo

from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.model.music import play
from bookgen.model.units import Semitones
from bookgen.notation.musicxml_drills import drills_musicxml
from bookgen.readers.score.kinds import read_passage

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


def written(drill: Drill, on: Instrument = VIOLIN) -> bytes:
    """One drill as a file."""
    return drills_musicxml(recital(drill, on=on), on)


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
    """What music21 finds in the file, tied notes joined."""
    part = part_of(text)
    found: list[Heard] = []
    for sound in part.recurse().notes:
        start, length = (
            Fraction(sound.getOffsetInHierarchy(part)) / 4,
            Fraction(sound.quarterLength) / 4,
        )
        notes = sound.notes if isinstance(sound, chord.Chord) else [sound]
        marks = iter(sound.articulations)
        for note in notes:
            name = note.nameWithOctave.replace("-", "b")
            if note.tie and note.tie.type in {"stop", "continue"}:
                last = max(i for i, old in enumerate(found) if old[0] == name)
                found[last] = (*found[last][:4], found[last][4] + length)
            else:
                own = [next(marks), next(marks)]
                found.append((name, finger(own), string(own), start, length))
    return Counter(found)


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

    assert read_back(written(drill)) == planned_sounds(drill)


@pytest.mark.parametrize("key", STAGES)
def test_the_same_drill_gives_the_same_text(key: str) -> None:
    text = written(drill_of(key), VIOLIN)

    assert text == written(drill_of(key), VIOLIN)
    assert b"encoding-date" not in text


def test_a_viola_is_read_in_its_clef() -> None:
    text = written(drill_of(STAGES[0], VIOLA), VIOLA)
    part = part_of(text)

    assert {type(clef).__name__ for clef in part.recurse().getElementsByClass("Clef")} == {
        "AltoClef"
    }


def test_a_bass_sounds_an_octave_lower_than_written() -> None:
    bass = replace(VIOLIN, sounding=Semitones(-12))
    text = written(drill_of(STAGES[0]), bass)
    part = part_of(text)

    assert b"<octave-change>-1</octave-change>" in text
    assert part.toSoundingPitch().recurse().notes[0].nameWithOctave == "A2"


def test_bars_end_where_the_hand_is_laid_again() -> None:
    text = written(drill_of(STAGES[0]), VIOLIN)
    part = part_of(text)
    lines = [measure.rightBarline.type for measure in part.getElementsByClass(stream.Measure)]

    assert lines == ["short"] * 3 + ["double"] + ["short"] * 3 + ["final"]


@pytest.mark.parametrize("key", KEYS)
def test_what_sounds_together_is_a_chord_of_the_one_voice(key: str) -> None:
    drill = drill_of(key)
    part = part_of(written(drill))

    assert not part.recurse().getElementsByClass(stream.Voice)
    assert [len(note.pitches) for note in part.recurse().notes] == [
        len(event.notes) for event in play(drill, VIOLIN)
    ]


def test_bars_have_no_meter_shown_or_hidden() -> None:
    text = written(drill_of(STAGES[3]))
    assert text.count(b"<senza-misura") == text.count(b"<time") == 1
    assert b"print-object" not in text


def test_drills_stand_below_each_other_under_their_titles_at_one_tempo() -> None:
    first, second = drill_of(STAGES[0]), drill_of(STAGES[4])
    text = drills_musicxml(recital(first, second, on=VIOLIN, tempo=72), VIOLIN)
    part = part_of(text)

    words = [word.content for word in part.recurse().getElementsByClass(expressions.TextExpression)]
    assert words == ["1 · drill", "2 · drill"]
    assert text.count(b'<print new-system="yes"') == 1
    [mark] = part.recurse().getElementsByClass(tempo.MetronomeMark)
    assert mark.number == 72
    whole = converter.parseData(text.decode(), format="musicxml")
    assert whole.metadata.title == "Mara · a day"
    numbers = [measure.number for measure in part.getElementsByClass(stream.Measure)]
    assert numbers == list(range(1, len(numbers) + 1))
    names = [pitch.name for note in part.recurse().notes for pitch in note.pitches]
    own = [note.pitch for drill in (first, second) for event in play(drill, VIOLIN)
           for note in sorted(event.notes, key=lambda note: note.pitch.midi)]  # fmt: skip
    assert names == [str(pitch.name).replace("b", "-") for pitch in own]


@pytest.mark.parametrize("key", STAGES[:3])
def test_our_own_reader_finds_every_note_with_finger_and_string(key: str, tmp_path: Path) -> None:
    file = tmp_path / "drill.musicxml"
    file.write_bytes(written(drill_of(key), VIOLIN))
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
