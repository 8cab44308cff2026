"""What a drill of the document plays, its notes named as the document names them."""

from collections.abc import Iterable, Mapping
from fractions import Fraction
from functools import lru_cache
from typing import Final

from bookgen.errors import RefusedError
from bookgen.model.drill import Drill
from bookgen.model.event import Begins, Event
from bookgen.model.instrument import Instrument
from bookgen.model.pitch import Pitch
from bookgen.model.stop import Note, Stop
from bookgen.model.units import Semitones, StringNumber
from bookgen.model.way import in_turn, way_of
from bookgen.plan.document import DrillEntry, EventEntry, StopEntry

KNOWN: Final = 8192
"""Events and notes that are remembered: the drills of a book have them in common."""


def music_of(entry: DrillEntry) -> tuple[Event, ...]:
    """The events of a drill. They are told by its key, all but the names of the notes."""
    return tuple(map(event_of, entry.events))


@lru_cache(maxsize=KNOWN)
def event_of(entry: EventEntry) -> Event:
    """An event as the model has it."""
    return Event(
        notes=tuple(map(note_of, entry.stops)),
        duration=Fraction(entry.duration),
        from_previous=entry.from_previous,
        crosses=entry.crosses,
        within=entry.within,
        begins=Begins(entry.begins or Begins.NOTHING),
        shifts=Semitones(entry.shifts),
    )


@lru_cache(maxsize=KNOWN)
def note_of(entry: StopEntry) -> Note:
    """A note as the model has it."""
    return Note(stop_of(entry), Pitch.parse(entry.pitch), entry.held)


def stop_of(entry: StopEntry) -> Stop:
    """A stop as the model has it."""
    return Stop(StringNumber(entry.string), entry.finger, Semitones(entry.semitones))


def names_of(
    events: Iterable[EventEntry], drill: Drill, instrument: Instrument
) -> Mapping[Stop, Pitch]:
    """The names that a document gives to a drill's notes, by their stops.

    Raises:
        RefusedError: a name is that of another note, or a note has two names.
    """
    found: dict[Stop, Pitch] = {}
    played = {*in_turn(way_of(drill))}
    for entry in (entry for event in events for entry in event.stops):
        stop, pitch = stop_of(entry), Pitch.parse(entry.pitch)
        above = pitch.midi - instrument.open_pitch(stop.string).midi
        if stop not in played or above != stop.semitones:
            raise RefusedError("pitch-name", text=entry.pitch)
        if found.setdefault(stop, pitch) != pitch:
            raise RefusedError("pitch-name", text=entry.pitch)
    return found
