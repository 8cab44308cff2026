"""A drill as it stands in the document: what follows from its key and its instrument."""

from collections.abc import Mapping
from typing import Literal

from bookgen.model.drill import Drill
from bookgen.model.event import Begins, Event
from bookgen.model.instrument import Instrument
from bookgen.model.music import play, play_as
from bookgen.model.pitch import Pitch
from bookgen.model.place import place_label, shift_label
from bookgen.model.stop import Note, Stop
from bookgen.plan.document import DrillEntry, EventEntry, Link, StopEntry


def entry_of(
    drill: Drill,
    instrument: Instrument,
    number: int,
    link: Link,
    names: Mapping[Stop, Pitch] | None = None,
) -> DrillEntry:
    """A drill with its number and its link, and all that follows from its key.

    names: of its notes, by their stops, where they are those of a piece or of an earlier
        page; None names them by the drill alone.

    Raises:
        ValueError: the instrument or its hand cannot play the drill.
    """
    own = play(drill, instrument)
    events = own if names is None else play_as(drill, names)
    return DrillEntry(
        number=number,
        key=drill.key,
        stage=drill.stage,
        fingers=drill.frame.fingers,
        spacings=tuple(spacing.word for spacing in drill.frame.spacings),
        lead=drill.lead,
        back=drill.back,
        place=drill.place,
        position=place_label(drill, instrument),
        strings=drill.strings,
        link=link,
        events=tuple(event_entry(event, instrument) for event in events),
        order=None if drill.plain_order else drill.order,
        to=drill.upper_place if drill.frame.shift else None,
        to_position=shift_label(drill, instrument) if drill.frame.shift else None,
    )


def event_entry(event: Event, instrument: Instrument) -> EventEntry:
    """An event as it stands in the document."""
    return EventEntry(
        stops=tuple(stop_entry(note, instrument) for note in event.notes),
        duration=f"{event.duration.numerator}/{event.duration.denominator}",
        from_previous=event.from_previous,
        crosses=event.crosses,
        within=event.within,
        begins=opening(event.begins),
        shifts=event.shifts,
    )


def opening(begins: Begins) -> Literal["group", "turn"] | None:
    """What an event opens, as it stands in the document."""
    match begins:
        case Begins.GROUP:
            return "group"
        case Begins.TURN:
            return "turn"
        case Begins.NOTHING:
            return None


def stop_entry(note: Note, instrument: Instrument) -> StopEntry:
    """A stop as it stands in the document; MIDI number and Hz are those that sound."""
    sounding = instrument.sounding_pitch(note.pitch)
    return StopEntry(
        string=note.stop.string,
        finger=note.stop.finger,
        semitones=note.stop.semitones,
        pitch=str(note.pitch),
        midi=sounding.midi,
        hz=round(sounding.hz, 2),
        held=note.held,
    )
