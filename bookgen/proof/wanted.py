"""What a plan wants of a drill's block, worked out from its stops and written notes alone."""

from collections.abc import Iterator, Sequence

from bookgen.model.pitch import Pitch
from bookgen.plan.document import DrillEntry, EventEntry, StopEntry


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
