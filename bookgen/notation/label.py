"""What stands above and below each event of a drill: fingers, string numerals, moves."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import groupby, pairwise
from typing import Final

from bookgen.model.event import Begins, Event
from bookgen.model.instrument import NUMERALS, Instrument
from bookgen.model.interval import Interval
from bookgen.model.pitch import Pitch
from bookgen.model.stop import Note
from bookgen.plan.document import PlannedDrill


class Shape(StrEnum):
    """How a move is drawn below the staff."""

    CROSSING = "crossing"
    HALF = "half"
    WIDE = "wide"


@dataclass(frozen=True, slots=True)
class Move:
    """From one event to the next: what is drawn between them, and its word."""

    shape: Shape
    text: str


@dataclass(frozen=True, slots=True)
class Labels:
    """What belongs to one event.

    fingers: to print, that of the lower string first.
    strings: numerals to print, empty where the player stays on the string.
    move: to the next event, or None where nothing new comes or the note is repeated.
    within: the interval of two notes that sound together.
    naturals: pitches that need a natural, because their letter was altered when last met.
    octave_sign: stands under an 8va sign.
    """

    fingers: tuple[int, ...]
    strings: str
    move: Move | None
    within: str | None
    naturals: frozenset[Pitch]
    octave_sign: bool


STEP_WORDS: Final = {1: "H", 2: "W"}
"""A half and a whole step on one string, however they are spelled."""

EVENTS_OF_A_LINE: Final = 16
"""More than these are set on two lines; so many fit on one of an A5 page (measured)."""


def labels_of(planned: PlannedDrill, instrument: Instrument) -> tuple[Labels, ...]:
    """What to print at each event of a drill.

    Raises:
        ValueError: something else than an interval label stands where one should.
    """
    events = planned.events
    columns = zip(
        map(fingers, events),
        numerals(events),
        moves(events),
        (event.within and checked(event.within) for event in events),
        naturals(events),
        octave_signs(events, instrument),
        strict=True,
    )
    return tuple(Labels(*column) for column in columns)


def from_low(event: Event) -> list[Note]:
    """The notes of an event, that of the lower string first."""
    return sorted(event.notes, key=lambda note: -note.stop.string)


def rings_on(event: Event) -> bool:
    """Nothing new is played: a held note is left alone."""
    return all(note.held for note in event.notes)


def fingers(event: Event) -> tuple[int, ...]:
    """The fingers to print; a tie says enough where a held note is left alone."""
    return () if rings_on(event) else tuple(note.stop.finger for note in from_low(event))


def numerals(events: Sequence[Event]) -> Iterator[str]:
    """The string's numeral wherever the string, or the pair of strings, changes.

    In a long drill it is told again where the way back begins, for that is a new line.
    """
    before: tuple[int, ...] = ()
    for event in events:
        new = tuple(note.stop.string for note in from_low(event) if not note.held)
        if event.begins is Begins.TURN and len(events) > EVENTS_OF_A_LINE:
            before = ()
        yield "" if new in {(), before} else "+".join(NUMERALS[string] for string in new)
        before = new or before


def moves(events: Sequence[Event]) -> Iterator[Move | None]:
    """What is drawn from each event to the next; the last has none.

    A double stop is named by its own interval, so no move leads to one.
    """
    for here, there in pairwise(events):
        yield None if there.within else move(here.notes[-1], there)
    yield None


def move(before: Note, there: Event) -> Move | None:
    """The move from a note to a single note, or None where no finger moves."""
    after = there.notes[-1]
    if there.from_previous is None or before.stop == after.stop:
        return None
    if there.crosses:
        return Move(Shape.CROSSING, checked(there.from_previous))
    semitones = abs(after.stop.semitones - before.stop.semitones)
    shape = Shape.HALF if semitones == 1 else Shape.WIDE
    return Move(shape, STEP_WORDS.get(semitones) or checked(there.from_previous))


def checked(label: str) -> str:
    """An interval label, and nothing else: a plan may come from anywhere.

    Raises:
        ValueError: the text is no interval label.
    """
    return Interval.parse(label).label


def naturals(events: Sequence[Event]) -> Iterator[frozenset[Pitch]]:
    """Pitches that need a natural.

    Every altered note carries its accidental, so a note without one is natural; but where the
    same line or space was altered when it was last met, a player wants to see it undone.
    """
    altered: dict[int, bool] = {}
    for event in events:
        pitches = [note.pitch for note in event.notes if not note.held]
        yield frozenset(
            pitch for pitch in pitches if pitch.accidental == 0 and altered.get(pitch.degree, False)
        )
        altered.update({pitch.degree: pitch.accidental != 0 for pitch in pitches})


def octave_signs(events: Sequence[Event], instrument: Instrument) -> Iterator[bool]:
    """Which events stand under an 8va sign.

    A string that has to go under the sign goes there with all of its notes, so that no laying
    of the hand is torn in two; so does whatever is tied or struck together with it.
    """
    limit = instrument.octave_sign_from.midi
    notes = [note for event in events for note in event.notes]
    high = {note.stop.string for note in notes if note.pitch.midi >= limit}
    for _, bound in groupby(zip(ties(events), events, strict=True), key=lambda pair: pair[0]):
        tied = [event for _, event in bound]
        sign = any(note.stop.string in high for event in tied for note in event.notes)
        yield from [sign] * len(tied)


def ties(events: Sequence[Event]) -> Iterator[int]:
    """A number for each event; events with one number hang together by ties."""
    number = 0
    for event in events:
        number += not any(note.held for note in event.notes)
        yield number


def opens_group(event: Event) -> bool:
    """The event begins a laying of the hand or the way back."""
    return event.begins is not Begins.NOTHING
