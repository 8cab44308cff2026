"""The pitches that LilyPond sounds, against the plan's, which count from the open strings."""

from collections import Counter
from io import BytesIO
from pathlib import Path

import mido
import pytest
from drills import VIOLA, VIOLIN, entry
from notation.bench import SECONDS, workshop

from bookgen.notation.engraver import midi_of
from bookgen.plan.document import PlannedDrill

WHOLE_NOTE = 4  # quarter notes
Heard = tuple[int, float, float]
"""MIDI note, start and length in quarter notes."""


def planned_notes(drill: PlannedDrill) -> Counter[Heard]:
    """MIDI note numbers from string and place, held notes joined."""
    instrument = VIOLIN if drill.drill.instrument == "violin" else VIOLA
    found: list[Heard] = []
    now = 0.0
    for event in drill.events:
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


@pytest.mark.published("MIDI 1.0, note numbers, as LilyPond writes and mido reads them")
@pytest.mark.parametrize(
    "key",
    [
        "violin-12-whole-place2-strings4321-stage1-low-same",
        "violin-1234-half.half.half-place1-strings4321-stage2-low-same",
        "violin-34-half-place17-strings4321-stage4-low-mirror",
        "viola-23-whole-place9-strings4321-stage5-high-same",
    ],
)
def test_lilypond_sounds_what_the_strings_give(key: str, tmp_path: Path) -> None:
    name, _, rest = key.partition("-")
    instrument = VIOLIN if name == "violin" else VIOLA
    drill = entry(rest, instrument=instrument)

    heard = sounding_notes(midi_of(drill, instrument, workshop(tmp_path), timeout=SECONDS))

    assert heard == planned_notes(drill)
    assert tempo(drill, tmp_path) == 60


def tempo(drill: PlannedDrill, folder: Path) -> float:
    """Quarter notes in a minute, from the file that was written."""
    [file] = folder.glob("drill.mid*")
    assert drill.events
    [microseconds] = [
        message.tempo
        for track in mido.MidiFile(str(file)).tracks
        for message in track
        if message.type == "set_tempo"
    ]
    return float(mido.tempo2bpm(microseconds))
