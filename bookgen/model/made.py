"""What a hand makes where it lies: its intervals on one string, and between two strings."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import combinations

from bookgen.model.instrument import Instrument
from bookgen.model.interval import Interval
from bookgen.model.naming import names_of
from bookgen.model.pitch import Pitch
from bookgen.model.spacing import Frame
from bookgen.model.stop import Stop
from bookgen.model.units import Semitones, StringNumber

Fingers = tuple[int, int]
"""Two fingers: the lower and the higher one of a string, or that of a lower and of a higher one."""

Two = tuple[StringNumber, StringNumber]
"""A lower and a higher string."""


@dataclass(frozen=True, slots=True)
class Made:
    """One interval of a hand, and every two fingers that make it."""

    label: str
    fingers: tuple[Fingers, ...]


@dataclass(frozen=True, slots=True)
class Across:
    """What a hand makes between two strings; strings: all twos that have the same."""

    strings: tuple[Two, ...]
    made: tuple[Made, ...]


@dataclass(frozen=True, slots=True)
class Makes:
    """Everything that a hand makes: on a string, between neighbours, over a skipped string."""

    alone: tuple[Made, ...]
    neighbours: tuple[Across, ...]
    skipped: tuple[Across, ...]


def makes(instrument: Instrument, frame: Frame, place: Semitones) -> Makes:
    """Everything that a hand makes at a place while it stays there.

    place: semitones from the nut to its lowest finger.

    Raises:
        RefusedError: two of its notes are more than twice augmented or diminished apart.
    """
    strings = instrument.string_numbers()
    named = names_of(instrument, frame.still, place, strings)
    names = {(stop.string, stop.finger): pitch for stop, pitch in named.items()}
    lowest = strings[0]
    return Makes(
        alone=in_order(
            {
                (low, high): (names[lowest, low], names[lowest, high])
                for low, high in combinations(frame.fingers, 2)
            }
        ),
        neighbours=across(strings, 1, frame, names),
        skipped=across(strings, 2, frame, names),
    )


def across(
    strings: tuple[StringNumber, ...],
    apart: int,
    frame: Frame,
    names: Mapping[tuple[StringNumber, int], Pitch],
) -> tuple[Across, ...]:
    """What a hand makes between two strings; those that have the same stand together.

    strings: from the lowest; apart: 1 for neighbours, 2 over a string between them.
    """
    found: dict[tuple[Made, ...], list[Two]] = {}
    for low, high in zip(strings, strings[apart:], strict=False):
        pairs = {
            (one, other): (names[low, one], names[high, other])
            for one in frame.fingers
            for other in frame.fingers
        }
        found.setdefault(in_order(pairs), []).append((low, high))
    return tuple(Across(tuple(twos), made) for made, twos in found.items())


def in_order(pairs: Mapping[Fingers, tuple[Pitch, Pitch]]) -> tuple[Made, ...]:
    """Intervals from the narrowest to the widest, each once, by the notes of two fingers."""
    found: dict[str, list[Fingers]] = {}
    for fingers, notes in sorted(pairs.items(), key=lambda one: (wide(*one[1]), one[0])):
        found.setdefault(Interval.between(*notes).label, []).append(fingers)
    return tuple(Made(label, tuple(fingers)) for label, fingers in found.items())


def wide(low: Pitch, high: Pitch) -> int:
    """Half steps from one note to another, less than 0 where it lies below."""
    return high.midi - low.midi


def stops_of(instrument: Instrument, frame: Frame, place: Semitones) -> Iterator[Stop]:
    """Every stop of a hand that stays, on all strings."""
    for string in instrument.string_numbers():
        for finger in frame.fingers:
            yield Stop(string, finger, Semitones(place + frame.offset(finger)))
