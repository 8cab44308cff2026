"""Drills as a MIDI file, to be listened to."""

from collections.abc import Iterable, Iterator
from fractions import Fraction
from io import BytesIO
from itertools import pairwise
from operator import itemgetter
from typing import TYPE_CHECKING, Final

from bookgen.model.event import Event
from bookgen.model.instrument import Instrument
from bookgen.notation.played import Recital
from bookgen.notation.tone import tones_of

if TYPE_CHECKING:
    import mido

BEAT: Final = 384
"""Ticks of a quarter note; every length of a drill is a whole number of them."""

LOUD: Final = 90
REST: Final = Fraction(1)
"""Whole notes of silence between two drills, in which the hand is laid (own choice)."""

PROGRAMS: Final = {"violin": 40, "viola": 41, "cello": 42, "bass": 43}
"""Sounds by the instrument's family, counted from 0; others sound like a violin.
Source: General MIDI level 1, programs 41 to 44."""

Struck = tuple[int, bool, int]
"""When, in ticks; whether the tone begins; MIDI note number. Tones end before others begin."""


def drills_midi(recital: Recital, instrument: Instrument) -> bytes:
    """Drills as a MIDI file: their titles are markers, what is held sounds on."""
    import mido  # noqa: PLC0415  seldom needed

    tempo = mido.bpm2tempo(recital.quarters_a_minute)
    messages = [
        (0, mido.MetaMessage("track_name", name=recital.title)),
        (0, mido.MetaMessage("set_tempo", tempo=tempo)),
        (0, program_of(instrument)),
    ]
    begins = Fraction(0)
    for played in recital.drills:
        messages.append((ticks(begins), mido.MetaMessage("marker", text=played.title)))
        messages += struck(turns_of(played.events, begins, instrument))
        begins += sum((event.duration for event in played.events), REST)
    return file_of(messages)


def program_of(instrument: Instrument) -> "mido.Message":
    """Which sound of the player's machine."""
    import mido  # noqa: PLC0415

    return mido.Message("program_change", program=PROGRAMS[instrument.family or "violin"])


def struck(turns: Iterable[Struck]) -> "Iterator[tuple[int, mido.Message]]":
    """Tones as messages in the order of time."""
    import mido  # noqa: PLC0415

    for at, begins, number in sorted(turns, key=itemgetter(0, 1)):
        yield at, mido.Message("note_on" if begins else "note_off", note=number, velocity=LOUD)


def file_of(messages: "Iterable[tuple[int, mido.Message]]") -> bytes:
    """A file with one track.

    messages: each with its tick; those at one tick stay in their order.
    """
    import mido  # noqa: PLC0415

    track = mido.MidiTrack()
    ordered = sorted(messages, key=itemgetter(0))
    for (before, _), (now, message) in pairwise([(0, None), *ordered]):
        track.append(message.copy(time=now - before))
    written = BytesIO()
    mido.MidiFile(ticks_per_beat=BEAT, tracks=[track], charset="utf-8").save(file=written)
    return written.getvalue()


def turns_of(events: Iterable[Event], begins: Fraction, instrument: Instrument) -> Iterator[Struck]:
    """Where each tone begins and ends; begins: of the first, in whole notes."""
    for tone in tones_of(tuple(events)):
        number = tone.note.pitch.midi + instrument.sounding
        yield ticks(begins + tone.start), True, number
        yield ticks(begins + tone.end), False, number


def ticks(time: Fraction) -> int:
    """Parts of a whole note in the nearest tick: a septuplet has no whole number of them."""
    return round(time * 4 * BEAT)
