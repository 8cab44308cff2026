"""What a plan wants of a drill's block, worked out from its stops and written notes alone."""

from collections.abc import Iterator, Sequence

from bookgen.model.pitch import Pitch
from bookgen.plan.document import DrillEntry, EventEntry, StopEntry
from bookgen.proof.bar_lines import BarLine


def written(entry: DrillEntry) -> Sequence[EventEntry]:
    """What is written: the way up alone, where the way back is the same backwards."""
    starts = [at for at, event in enumerate(entry.events) if event.begins == "turn"]
    if not starts:
        return entry.events
    up, back = entry.events[: starts[0]], entry.events[starts[0] :]
    mirrored = [*map(places, up)] == [*map(places, back)][::-1]
    return up if mirrored else entry.events


def places(event: EventEntry) -> frozenset[tuple[int, int, int]]:
    """The stops of an event."""
    return frozenset((stop.string, stop.finger, stop.semitones) for stop in event.stops)


def heads(event: EventEntry) -> tuple[int, ...]:
    """The notes of an event as letters from C0, rising."""
    return tuple(sorted(Pitch.parse(stop.pitch).degree for stop in event.stops))


def signs(events: Sequence[EventEntry]) -> Iterator[tuple[tuple[int, int], ...]]:
    """The accidentals of each event, with the places of their notes as letters from C0, rising.

    Each altered note has its own, but for one that is tied to the event before; a natural stands
    where the line or space was altered when a note was last struck on it.
    """
    altered: dict[int, bool] = {}
    for event in events:
        together = len(event.stops) > 1
        found = []
        for stop in event.stops:
            pitch = Pitch.parse(stop.pitch)
            undone = altered.get(pitch.degree, False) and not stop.held
            if (pitch.accidental or undone) and not (stop.held and together):
                found.append((pitch.degree, pitch.accidental))
        yield tuple(sorted(found))
        struck = [Pitch.parse(stop.pitch) for stop in event.stops if not stop.held]
        altered |= {pitch.degree: pitch.accidental != 0 for pitch in struck}


def bars(entry: DrillEntry) -> Iterator[tuple[int, BarLine]]:
    """The bar lines of what is written, each with the number of events before it.

    A short one before each laying of the hand, a double one at the turn, one at the end.
    """
    events = written(entry)
    for at, event in enumerate(events):
        if event.begins == "turn":
            yield at, BarLine.DOUBLE
        elif event.begins == "group" and at:
            yield at, BarLine.SHORT
    yield len(events), BarLine.FINAL if len(events) == len(entry.events) else BarLine.DOUBLE


def fingers(event: EventEntry) -> tuple[int, ...]:
    """The fingers over an event, that of the higher string first; none where all notes are held."""
    if all(stop.held for stop in event.stops):
        return ()
    return tuple(stop.finger for stop in sorted(event.stops, key=lambda stop: stop.string))


def stops_of(entry: DrillEntry) -> Iterator[StopEntry]:
    """Each stop of a drill once."""
    found = {
        (stop.string, stop.finger, stop.semitones): stop
        for event in entry.events
        for stop in event.stops
    }
    yield from found.values()
