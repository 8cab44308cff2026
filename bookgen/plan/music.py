"""What a drill of the document plays, its notes named as the document names them."""

from collections.abc import Iterable, Mapping
from fractions import Fraction

from bookgen.errors import RefusedError
from bookgen.model.drill import Drill
from bookgen.model.event import Begins, Event
from bookgen.model.instrument import Instrument
from bookgen.model.pitch import Pitch
from bookgen.model.spelling import Fingered
from bookgen.model.stop import Note, Stop
from bookgen.model.units import Semitones, StringNumber
from bookgen.plan.document import DrillEntry, EventEntry, StopEntry


def music_of(entry: DrillEntry) -> tuple[Event, ...]:
    """The events of a drill. They are told by its key, all but the names of the notes."""
    return tuple(map(event_of, entry.events))


def event_of(entry: EventEntry) -> Event:
    """An event as the model has it."""
    return Event(
        notes=tuple(map(note_of, entry.stops)),
        duration=Fraction(entry.duration),
        from_previous=entry.from_previous,
        crosses=entry.crosses,
        within=entry.within,
        begins=Begins(entry.begins or Begins.NOTHING),
    )


def note_of(entry: StopEntry) -> Note:
    """A note as the model has it."""
    stop = Stop(StringNumber(entry.string), entry.finger, Semitones(entry.semitones))
    return Note(stop, Pitch.parse(entry.pitch), entry.held)


def names_of(
    events: Iterable[EventEntry], drill: Drill, instrument: Instrument
) -> Mapping[Fingered, Pitch]:
    """The names that a document gives to a drill's notes, by string and finger.

    Raises:
        RefusedError: a name is that of another note, or a note has two names.
    """
    found: dict[Fingered, Pitch] = {}
    for stop in (stop for event in events for stop in event.stops):
        at = (StringNumber(stop.string), stop.finger)
        pitch = Pitch.parse(stop.pitch)
        above = pitch.midi - instrument.open_pitch(at[0]).midi
        if stop.finger not in drill.frame.fingers or above != drill.height(stop.finger):
            raise RefusedError("pitch-name", text=stop.pitch)
        if found.setdefault(at, pitch) != pitch:
            raise RefusedError("pitch-name", text=stop.pitch)
    return found
