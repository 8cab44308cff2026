"""What stands above and below each event of a drill: fingers, string numerals, moves."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise
from typing import Final

from bookgen.model.event import Begins, Event
from bookgen.model.instrument import NUMERALS, Instrument
from bookgen.model.music import turn_of
from bookgen.model.pitch import Pitch
from bookgen.model.ring import ear_check
from bookgen.model.stop import Note
from bookgen.notation.octave import octave_signs
from bookgen.words.marks import ENGLISH_MARKS, Marks


class Shape(StrEnum):
    """How a move is drawn below the staff."""

    CROSSING = "crossing"
    HALF = "half"
    WHOLE = "whole"
    WIDER = "wider"
    UP = "rise"
    DOWN = "fall"


@dataclass(frozen=True, slots=True)
class Move:
    """From one event to the next: what is drawn between them, and its word."""

    shape: Shape
    text: str


@dataclass(frozen=True, slots=True)
class Labels:
    """What belongs to one event.

    fingers: to print, that of the lower string first; slides: the finger comes along from the
        note before, as the hand shifts.
    strings: numerals to print, empty where the player stays on the string.
    on_new_line: numerals that are printed where a line of music begins with the event.
    move: to the next event, or None where nothing new comes or the note is repeated.
    within: the interval of two notes that sound together, as printed.
    naturals: pitches that need a natural, because their letter was altered when last met.
    octave_sign: stands under an 8va sign.
    rings: an open string rings along.
    begins: what it opens.
    begins_line: it begins the second of two lines; ends_line: it ends the first.
    """

    fingers: tuple[int, ...]
    slides: bool
    strings: str
    on_new_line: str
    move: Move | None
    within: str | None
    naturals: frozenset[Pitch]
    octave_sign: bool
    rings: bool
    begins: Begins
    begins_line: bool
    ends_line: bool


BOTH_STRINGS: Final = "+"
"""Between the numerals of two strings."""

STEPS: Final = {1: Shape.HALF, 2: Shape.WHOLE}
"""A half and a whole step on one string, however they are spelled, by semitones."""


def labels_of(
    events: Sequence[Event],
    instrument: Instrument,
    marks: Marks = ENGLISH_MARKS,
    *,
    two_lines: bool = False,
) -> tuple[Labels, ...]:
    """What to print at each event of a drill.

    two_lines: the way back begins a new line of music, where its string is told again.

    Raises:
        ValueError: something else than an interval label stands where one should.
    """
    turn = turn_of(events) if two_lines else len(events)
    columns = zip(
        map(fingers, events),
        slides(events),
        numerals(events, turn),
        map(strings_of, events),
        moves(events, marks),
        (event.within and marks.interval(event.within) for event in events),
        naturals(events),
        octave_signs(events, instrument),
        (rings(event, instrument) for event in events),
        (event.begins for event in events),
        (index == turn for index in range(len(events))),
        (index + 1 == turn < len(events) for index in range(len(events))),
        strict=True,
    )
    return tuple(Labels(*column) for column in columns)


def rings(event: Event, instrument: Instrument) -> bool:
    """One note is played alone, and another open string rings along by itself."""
    if len(event.notes) > 1 or event.notes[0].held:
        return False
    check = ear_check(event.notes[0], instrument)
    return check is not None and check.rings


def from_low(event: Event) -> list[Note]:
    """The notes of an event, that of the lower string first."""
    return sorted(event.notes, key=lambda note: -note.stop.string)


def rings_on(event: Event) -> bool:
    """Nothing new is played: a held note is left alone."""
    return all(note.held for note in event.notes)


def fingers(event: Event) -> tuple[int, ...]:
    """The fingers to print; a tie says enough where a held note is left alone."""
    return () if rings_on(event) else tuple(note.stop.finger for note in from_low(event))


def slides(events: Sequence[Event]) -> Iterator[bool]:
    """Where the finger that played last leads the hand to its new place on the same string."""
    yield False
    for here, there in pairwise(events):
        before, after = here.notes[-1].stop, there.notes[-1].stop
        same = (before.string, before.finger) == (after.string, after.finger)
        yield same and there.shifts != 0


def numerals(events: Sequence[Event], line: int) -> Iterator[str]:
    """The string's numeral wherever the string, or the pair of strings, changes.

    line: index of the event that begins a new line of music, where it is told again.
    """
    before = ""
    for index, event in enumerate(events):
        new = "" if rings_on(event) else strings_of(event, struck=True)
        if index == line:
            yield strings_of(event)
        else:
            yield new if new != before else ""
        before = new or before


def strings_of(event: Event, *, struck: bool = False) -> str:
    """The numerals of an event's strings, the lower one first.

    struck: only of those on which something new is played.
    """
    notes = [note for note in from_low(event) if not (struck and note.held)]
    return BOTH_STRINGS.join(NUMERALS[note.stop.string] for note in notes)


def moves(events: Sequence[Event], marks: Marks) -> Iterator[Move | None]:
    """What is drawn from each event to the next; the last has none.

    A double stop is named by its own interval, so no move leads to one.
    """
    for here, there in pairwise(events):
        yield None if there.within else move(here.notes[-1], there, marks)
    yield None


def move(before: Note, there: Event, marks: Marks) -> Move | None:
    """The move from a note to a single note, or None where no finger moves."""
    after = there.notes[-1]
    if there.from_previous is None or before.stop == after.stop:
        return None
    interval = marks.interval(there.from_previous)
    if there.shifts:
        return Move(Shape.UP if there.shifts > 0 else Shape.DOWN, interval)
    if there.crosses:
        return Move(Shape.CROSSING, interval)
    shape = STEPS.get(abs(after.stop.semitones - before.stop.semitones), Shape.WIDER)
    words = {Shape.HALF: marks.half, Shape.WHOLE: marks.whole}
    return Move(shape, words.get(shape, interval))


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
