"""One drill as a MIDI file, to be listened to."""

from collections.abc import Iterator
from fractions import Fraction
from io import BytesIO
from itertools import pairwise
from operator import itemgetter
from typing import Final

from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.model.music import play
from bookgen.notation.tone import tones_of

BEATS_A_MINUTE: Final = 60
"""Slow enough to listen."""

BEAT: Final = 384
"""Ticks of a quarter note; every length of a drill is a whole number of them."""

LOUD: Final = 90

PROGRAMS: Final = {"violin": 40, "viola": 41, "cello": 42, "bass": 43, "double_bass": 43}
"""Sounds by the key of the instrument's file, counted from 0; others sound like a violin.
Source: General MIDI level 1, programs 41 to 44."""

Struck = tuple[int, bool, int]
"""When, in ticks; whether the tone begins; MIDI note number. Tones end before others begin."""


def midi_of(drill: Drill, instrument: Instrument) -> bytes:
    """One drill as a MIDI file; what is held sounds on.

    Raises:
        ValueError: the instrument or its hand cannot play the drill.
    """
    import mido  # noqa: PLC0415  seldom needed

    track = mido.MidiTrack()
    track.append(mido.MetaMessage("set_tempo", tempo=mido.bpm2tempo(BEATS_A_MINUTE)))
    program = PROGRAMS.get(instrument.key, PROGRAMS["violin"])
    track.append(mido.Message("program_change", program=program))
    turns = sorted(turns_of(drill, instrument), key=itemgetter(0, 1))
    for (before, _, _), (now, begins, number) in pairwise([(0, False, 0), *turns]):
        kind = "note_on" if begins else "note_off"
        track.append(mido.Message(kind, note=number, velocity=LOUD, time=now - before))
    file = mido.MidiFile(ticks_per_beat=BEAT, tracks=[track])
    written = BytesIO()
    file.save(file=written)
    return written.getvalue()


def turns_of(drill: Drill, instrument: Instrument) -> Iterator[Struck]:
    """Where each tone begins and ends."""
    for tone in tones_of(play(drill, instrument)):
        number = tone.note.pitch.midi + instrument.sounding
        yield ticks(tone.start), True, number
        yield ticks(tone.end), False, number


def ticks(time: Fraction) -> int:
    """Parts of a whole note in ticks."""
    return int(time * 4 * BEAT)
