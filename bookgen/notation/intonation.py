"""How high each tone of a drill sounds, in hertz: open strings and double stops are pure."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import Final

from bookgen.model.ear import easiest
from bookgen.model.event import Event
from bookgen.model.instrument import Instrument
from bookgen.model.ring import EASY, PERFECT, EarCheck, ear_check
from bookgen.model.stop import Note
from bookgen.model.tuning import CONSONANT, just_ratio
from bookgen.model.units import Hertz, StringNumber
from bookgen.notation.tone import Tone, tones_of

OCTAVE: Final = 12.0


@dataclass(frozen=True, slots=True)
class Heard:
    """A tone as it sounds; start and length in whole notes from the beginning of the drill."""

    hz: Hertz
    start: Fraction
    length: Fraction


def open_hz(instrument: Instrument) -> Mapping[StringNumber, Hertz]:
    """How high the open strings sound: the A by the fork, the others pure to their neighbours.

    Without an A the lowest is equal-tempered; so is a neighbour at no consonant interval.
    """
    low_to_high = instrument.string_numbers()
    fork = next(
        (string for string in low_to_high if instrument.open_pitch(string).name == "A"),
        low_to_high[0],
    )
    found = {fork: Hertz(instrument.sounding_pitch(instrument.open_pitch(fork)).hz)}
    at = low_to_high.index(fork)
    for before, string in [*pairwise(low_to_high[at:]), *pairwise(low_to_high[at::-1])]:
        interval = instrument.between_open(*sorted((before, string), reverse=True))
        pure = interval.label in CONSONANT
        ratio = float(just_ratio(interval.label)) if pure else 2 ** (interval.semitones / OCTAVE)
        found[string] = Hertz(found[before] * (ratio if string < before else 1 / ratio))
    return found


def proof_of(note: Note, drone: StringNumber | None, instrument: Instrument) -> EarCheck | None:
    """What a note is pure to: an open string at a perfect interval, or else the drone."""
    check = ear_check(note, instrument)
    if check is not None and (check.interval in PERFECT or check.open_string == drone):
        return check
    return None


def plain_hz(note: Note, drone: StringNumber | None, instrument: Instrument) -> Hertz:
    """How high a note sounds by itself: pure to its proof, or else equal-tempered."""
    check = proof_of(note, drone, instrument)
    if check is None:
        return Hertz(instrument.sounding_pitch(note.pitch).hz)
    ratio = float(just_ratio(check.interval))
    above = note.pitch.midi >= instrument.open_pitch(check.open_string).midi
    return Hertz(open_hz(instrument)[check.open_string] * (ratio if above else 1 / ratio))


def heard_tones(events: Sequence[Event], instrument: Instrument) -> Iterator[Heard]:
    """The tones of a drill in the order in which they begin.

    A tone that joins another in a consonant double stop is pure to it; of two that are struck
    together the one that is easier to prove stands first. Each stays as it began.
    """
    starts, drone = dict(timed(events)), drone_of(events, instrument)
    sounding: list[tuple[Tone, Hertz]] = []
    for tone in in_order_of_proof(tones_of(events), drone, instrument):
        within = starts[tone.start].within
        others = [hz for other, hz in sounding if other.start <= tone.start < other.end]
        hz = plain_hz(tone.note, drone, instrument)
        if others and within in CONSONANT:
            ratio = float(just_ratio(within))
            hz = Hertz(others[-1] * (ratio if others[-1] < hz else 1 / ratio))
        sounding.append((tone, hz))
        yield Heard(hz, tone.start, tone.length)


def in_order_of_proof(
    tones: Sequence[Tone], drone: StringNumber | None, instrument: Instrument
) -> list[Tone]:
    """Tones in the order of time; of those that begin together the easier to prove first."""

    def order(tone: Tone) -> tuple[Fraction, int, int]:
        check = proof_of(tone.note, drone, instrument)
        hardness = len(EASY) if check is None else EASY.index(check.interval)
        return tone.start, hardness, tone.note.pitch.midi

    return sorted(tones, key=order)


def timed(events: Sequence[Event]) -> Iterator[tuple[Fraction, Event]]:
    """Events with their beginnings, in whole notes."""
    start = Fraction(0)
    for event in events:
        yield start, event
        start += event.duration


def drone_of(events: Sequence[Event], instrument: Instrument) -> StringNumber | None:
    """The open string that proves a drill's notes best; None where none does."""
    check = easiest([note for event in events for note in event.notes], instrument)
    return None if check is None else check.open_string
