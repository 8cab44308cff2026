"""The notes of a drill, from its route and its spelling."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise
from typing import Final

from bookgen.errors import RefusedError
from bookgen.model.drill import Drill
from bookgen.model.event import Begins, Event
from bookgen.model.heard_names import met_in, named_by_moves
from bookgen.model.instrument import Instrument
from bookgen.model.interval import interval_label
from bookgen.model.naming import names_of
from bookgen.model.pitch import Pitch
from bookgen.model.spacing import STAYS
from bookgen.model.stop import Note, Stop
from bookgen.model.way import shifts, way_of

NOTE: Final = Fraction(1, 4)
DOUBLE_STOP: Final = Fraction(1, 2)
"""Struck double stops are twice as long: two notes need time to be heard."""

Sound = tuple[tuple[Note, ...], Fraction, Begins]
"""Notes, their length and what they open, before the intervals are named."""


@lru_cache(maxsize=8192)
def play(drill: Drill, instrument: Instrument) -> tuple[Event, ...]:
    """Play a drill: every note with its finger, string, name and interval.

    Raises:
        RefusedError: the instrument or its hand cannot play the drill, and why.
    """
    refusal = drill.refusal(instrument)
    if refusal is not None:
        raise RefusedError(refusal.text, **refusal.facts)
    names = names_of(instrument, drill.frame, drill.place, drill.strings)
    if not drill.frame.shift:
        names = named_by_moves(names, met_in(way_of(drill)), instrument)
    return play_as(drill, names)


def play_as(drill: Drill, pitches: Mapping[Stop, Pitch]) -> tuple[Event, ...]:
    """Play a drill with its notes named as they are given, by their stops.

    Raises:
        RefusedError: two notes that follow each other have no interval that has a name.
    """
    way = way_of(drill)
    halves = [
        [tuple(Note(stop, pitches[stop]) for stop in group) for group in groups]
        for groups in (way.up, way.down)
    ]
    sounds = [
        sound
        for half, opening in zip(halves, (Begins.NOTHING, Begins.TURN), strict=True)
        for sound in half_way(half, drill.stage, opening)
    ]
    return tuple(named(sounds, drill))


def turn_of(events: Sequence[Event]) -> int:
    """Index of the event with which the way back begins; past the last one where none does."""
    turns = (index for index, event in enumerate(events) if event.begins is Begins.TURN)
    return next(turns, len(events))


def layings(events: Sequence[Event]) -> list[list[Event]]:
    """The events of each laying of the hand; the way back begins a new one."""
    found: list[list[Event]] = []
    for event in events:
        if event.begins is not Begins.NOTHING or not found:
            found.append([])
        found[-1].append(event)
    return found


def mirrors(drill: Drill, instrument: Instrument) -> bool:
    """The way back is the way up backwards, note for note.

    Raises:
        RefusedError: the instrument or its hand cannot play the drill.
    """
    events = play(drill, instrument)
    turn = turn_of(events)
    stops = [frozenset(note.stop for note in event.notes) for event in events]
    return turn < len(events) and stops[:turn] == stops[turn:][::-1]


def length_of(drill: Drill) -> Fraction:
    """How long a drill lasts, in whole notes, without naming its notes."""
    way = way_of(drill)
    return sum(
        (group_length(len(group), drill.stage) for group in (*way.up, *way.down)), Fraction()
    )


def group_length(steps: int, stage: int) -> Fraction:
    """How long a group of that many steps lasts at a stage, in whole notes."""
    match stage:
        case 4:
            return (2 * steps - 1) * NOTE
        case 5:
            return (steps - 1) * DOUBLE_STOP
        case _:
            return steps * NOTE


def half_way(groups: list[tuple[Note, ...]], stage: int, opening: Begins) -> Iterator[Sound]:
    """The sounds of the way up or of the way back."""
    for number, group in enumerate(groups):
        begins = opening if number == 0 else Begins.GROUP
        for index, sound in enumerate(sounds_of(group, stage)):
            yield (*sound, begins if index == 0 else Begins.NOTHING)


def sounds_of(group: tuple[Note, ...], stage: int) -> Iterator[tuple[tuple[Note, ...], Fraction]]:
    """One group as single notes, overlapping notes or double stops."""
    match stage:
        case 4:
            yield group[:1], NOTE
            for here, there in pairwise(group):
                yield (replace(here, held=True), there), NOTE
                yield (replace(there, held=True),), NOTE
        case 5:
            yield from (((here, there), DOUBLE_STOP) for here, there in pairwise(group))
        case _:
            yield from (((note,), NOTE) for note in group)


def named(sounds: list[Sound], drill: Drill) -> Iterator[Event]:
    """Give every sound the interval to what came before it and the one within it.

    A hand that shifts does so from one note to the next.
    """
    before: Note | None = None
    for notes, duration, begins in sounds:
        last = notes[-1]
        came_from = None if last.held else before
        yield Event(
            notes=notes,
            duration=duration,
            from_previous=interval_label(came_from.pitch, last.pitch) if came_from else None,
            crosses=came_from is not None and came_from.stop.string != last.stop.string,
            within=interval_label(notes[0].pitch, notes[1].pitch) if len(notes) > 1 else None,
            begins=begins,
            shifts=shifts(drill, before.stop, last.stop) if before else STAYS,
        )
        before = last
