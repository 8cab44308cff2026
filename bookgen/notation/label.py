"""What stands above and below each event of a drill: fingers, string numerals, moves."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise
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
    WHOLE = "whole"
    WIDER = "wider"


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
    within: the interval of two notes that sound together, as printed.
    naturals: pitches that need a natural, because their letter was altered when last met.
    octave_sign: stands under an 8va sign.
    """

    fingers: tuple[int, ...]
    strings: str
    move: Move | None
    within: str | None
    naturals: frozenset[Pitch]
    octave_sign: bool


STEPS: Final = {1: Move(Shape.HALF, "H"), 2: Move(Shape.WHOLE, "W")}
"""A half and a whole step on one string, however they are spelled, by semitones."""

SHORT_QUALITIES: Final = {"AA": "2aug", "A": "aug", "d": "dim", "dd": "2dim"}
"""How a quality is printed whose letter could be taken for the name of a note."""

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
        (event.within and printed_interval(event.within) for event in events),
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
        if opens_line(event, events):
            before = ()
        yield "" if new in {(), before} else "+".join(NUMERALS[string] for string in new)
        before = new or before


def opens_line(event: Event, events: Sequence[Event]) -> bool:
    """The way back of a long drill begins a new line."""
    return event.begins is Begins.TURN and len(events) > EVENTS_OF_A_LINE


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
        return Move(Shape.CROSSING, printed_interval(there.from_previous))
    step = STEPS.get(abs(after.stop.semitones - before.stop.semitones))
    return step or Move(Shape.WIDER, printed_interval(there.from_previous))


def printed_interval(label: str) -> str:
    """How an interval label stands on the page: no quality can be read as the name of a note.

    Only what is an interval label passes, for a plan may come from anywhere.

    >>> printed_interval("A4"), printed_interval("d12"), printed_interval("M6")
    ('aug4', 'dim12', 'M6')

    Raises:
        ValueError: the text is no interval label.
    """
    checked = Interval.parse(label).label
    quality = checked.rstrip("0123456789")
    return checked.replace(quality, SHORT_QUALITIES.get(quality, quality))


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

    A group goes there as a whole and only if all of it lies on strings that climb so high: a
    sign within a group would make rising notes fall on the page, and a note of a lower string
    has no need of it. What crosses to another string within its group keeps its ledger lines.
    """
    limit = instrument.octave_sign_from.midi
    notes = [note for event in events for note in event.notes]
    high = {note.stop.string for note in notes if note.pitch.midi >= limit}
    for group in groups(events):
        strings = {note.stop.string for event in group for note in event.notes}
        yield from [strings <= high] * len(group)


def groups(events: Sequence[Event]) -> list[list[Event]]:
    """The events of each laying of the hand; the way back begins a new one."""
    found: list[list[Event]] = []
    for event in events:
        if event.begins is not Begins.NOTHING or not found:
            found.append([])
        found[-1].append(event)
    return found
