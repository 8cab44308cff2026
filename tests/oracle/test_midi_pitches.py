"""The pitches of a drill's MIDI file, against the strings and against what LilyPond sounds."""

from collections import Counter
from io import BytesIO
from pathlib import Path

import mido
import pytest
from kit.bench import FULL_MM, SECONDS, STYLE, workshop
from kit.drills import VIOLA, VIOLIN
from kit.recitals import recital

from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.model.music import play
from bookgen.notation.drill_score import DrillScore, Written
from bookgen.notation.midi import drills_midi
from bookgen.notation.source import lilypond_source

WHOLE_NOTE = 4  # quarter notes
Heard = tuple[int, float, float]
"""MIDI note, start and length in quarter notes."""

KEYS = [
    "violin-12-whole-place2-strings4321-stage1-low-same",
    "violin-1234-half.half.half-place1-strings4321-stage2-low-same",
    "violin-34-half-place17-strings4321-stage4-low-mirror",
    "viola-23-whole-place9-strings4321-stage5-high-same",
    "violin-12-whole-place2to4-strings4321-stage1-low-same",
    "viola-12-half-place3to15-strings43-stage3-high-same",
    "viola-1-place2-strings4321-stage4-low-same",
    "violin-23-half-place4-strings41-stage3-high-same",
    "viola-123-whole.half-place2-strings43-stage5-low-mirror",
]


def instrument_of(drill: Drill) -> Instrument:
    return VIOLIN if drill.instrument == "violin" else VIOLA


def planned_notes(drill: Drill) -> Counter[Heard]:
    """MIDI note numbers from string and place, held notes joined."""
    instrument = instrument_of(drill)
    found: list[Heard] = []
    now = 0.0
    for event in play(drill, instrument):
        length = float(event.duration * WHOLE_NOTE)
        for note in event.notes:
            midi = instrument.open_pitch(note.stop.string).midi + note.stop.semitones
            if note.held:
                last = max(index for index, old in enumerate(found) if old[0] == midi)
                found[last] = (midi, found[last][1], found[last][2] + length)
            else:
                found.append((midi, now, length))
        now += length
    return Counter(found)


def sounding_notes(file: bytes) -> Counter[Heard]:
    """What the MIDI file plays."""
    midi = mido.MidiFile(file=BytesIO(file))
    found: list[Heard] = []
    for track in midi.tracks:
        now, begun = 0, dict[int, int]()
        for message in track:
            now += message.time
            if message.type == "note_on" and message.velocity > 0:
                begun[message.note] = now
            elif message.type in {"note_on", "note_off"}:
                start = begun.pop(message.note)
                beat = midi.ticks_per_beat
                found.append((message.note, start / beat, (now - start) / beat))
    return Counter(found)


@pytest.mark.published("MIDI 1.0, note numbers, as mido reads them")
@pytest.mark.parametrize("key", KEYS)
def test_a_midi_file_sounds_what_the_strings_give(key: str) -> None:
    drill = Drill.parse_key(key)
    file = drills_midi(recital(drill, on=instrument_of(drill)), instrument_of(drill))

    assert sounding_notes(file) == planned_notes(drill)
    assert tempo(file) == 60


def test_drills_follow_each_other_after_a_rest_under_their_titles() -> None:
    first, second = (Drill.parse_key(key) for key in KEYS[:2])
    assert instrument_of(first) == instrument_of(second)
    file = drills_midi(recital(first, second, on=instrument_of(first), tempo=92), VIOLIN)

    lasts = max(start + length for _, start, length in planned_notes(first)) + 4
    later = Counter((n, start + lasts, length) for n, start, length in planned_notes(second))
    assert sounding_notes(file) == planned_notes(first) + later
    assert tempo(file) == pytest.approx(92, abs=0.001)
    track, now, markers = mido.MidiFile(file=BytesIO(file), charset="utf-8").tracks[0], 0, []
    for message in track:
        now += message.time
        if message.type == "marker":
            markers.append((now / 384, message.text))
    assert markers == [(0, "1 · drill"), (lasts, "2 · drill")]
    assert track.name == "Mara · a day"


@pytest.mark.published("LilyPond 2.24.3, the pitches that it sounds of a staff")
@pytest.mark.parametrize("key", KEYS)
def test_lilypond_sounds_the_same_pitches_of_the_staff(key: str, tmp_path: Path) -> None:
    drill = Drill.parse_key(key)
    instrument = instrument_of(drill)
    source = lilypond_source([DrillScore(drill, FULL_MM, Written.BOTH)], instrument, STYLE).replace(
        r"\layout { line-width", r"\midi { } \layout { line-width"
    )
    run = workshop(tmp_path).begin("drill")
    run.feed(source)
    run.finish(SECONDS)
    [file] = tmp_path.glob("drill.mid*")

    heard = {number for number, _, _ in sounding_notes(file.read_bytes())}
    assert heard == {number for number, _, _ in planned_notes(drill)}


def tempo(file: bytes) -> float:
    """Quarter notes in a minute."""
    [microseconds] = [
        message.tempo
        for track in mido.MidiFile(file=BytesIO(file)).tracks
        for message in track
        if message.type == "set_tempo"
    ]
    return float(mido.tempo2bpm(microseconds))
