"""Phrases solved in shorthand, and the slow way to price a fingering."""

from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise, product

from kit.phrases import phrase
from kit.shorthand import SPECIMEN_KEYS, VIOLA, VIOLIN, specimen

from bookgen.model.costs import Preference
from bookgen.model.finger import sign_of
from bookgen.model.instrument import Instrument
from bookgen.model.phrase import Phrase, WrittenNote
from bookgen.model.stop import Stop
from bookgen.passage.cost import Tariff
from bookgen.passage.event import Event
from bookgen.passage.placement import Pose
from bookgen.passage.solve import Solutions, solve
from bookgen.passage.timing import Leap, Manner
from bookgen.plan.passage import Fingering
from bookgen.readers.fingering import read_costs

ROMAN = ("", "I", "II", "III", "IV", "V", "VI")
COSTS = read_costs()
INSTRUMENTS = {one.key: one for one in (VIOLIN, VIOLA, *map(specimen, SPECIMEN_KEYS))}
CELLO = INSTRUMENTS["cello"]
BASS = INSTRUMENTS["double_bass"]


def solved(
    text: str | Phrase,
    instrument: Instrument = VIOLIN,
    prefer: Preference | None = None,
    each: Fraction = Fraction(1, 8),
) -> Solutions:
    """Solve a phrase in shorthand."""
    given = phrase(text, each) if isinstance(text, str) else text
    return solve(given, instrument, COSTS, prefer=prefer)


def stops(fingering: Fingering) -> str:
    """All stops: `IV0 III1+II2`, - for what is left out."""
    return " ".join("+".join(map(name, one.stops)) for one in fingering.placed)


def name(stop: Stop | None) -> str:
    return "-" if stop is None else f"{ROMAN[stop.string]}{sign_of(stop.finger)}"


def places(fingering: Fingering) -> list[int]:
    """Every place of the hand, each once in a row; open strings are passed over."""
    found: list[int] = []
    for one in fingering.placed:
        if one.hand is not None and (not found or found[-1] != one.hand.place):
            found.append(one.hand.place)
    return found


def sounding(instrument: Instrument, stop: Stop) -> int:
    """The MIDI number of a stop, counted up from the open string."""
    return instrument.open_pitch(stop.string).midi + stop.semitones


def price(tariff: Tariff, events: Sequence[Event], poses: Sequence[Pose]) -> float:
    """The cost of a way by the cost table, nothing looked up and nothing left out."""
    whole = 0.0
    place = 0
    for event, pose in zip(events, poses, strict=True):
        whole += tariff.total(tariff.own(pose, event))
    for (before, one), (event, other) in pairwise(zip(events, poses, strict=True)):
        place = one.place or place
        stays = one.place == other.place
        manner = Manner(sings(event), event.slurred, quick(before, event))
        whole += tariff.total(tariff.change(one, other, manner, stays=stays))
        if place and other.place and place != other.place:
            leap = Leap(not one.place, bool(one.touched or other.touched), len(other.stopped) > 1)
            whole += tariff.shift(abs(place - other.place), tariff.gap(before, event), leap)
    return whole


def counted(fingering: Fingering) -> tuple[Counter[int], Counter[int]]:
    """Two counts over all groups, of fingers that play one after the other.

    Semitones between neighbouring fingers on one string; semitones between the notes of finger
    1 on a string and finger 4 on the next higher one, strings a fifth apart.
    """
    spacings: Counter[int] = Counter()
    octaves: Counter[int] = Counter()
    for before, after in in_one_hand(fingering):
        for one, other in product(before, after):
            low, high = sorted((one, other), key=lambda stop: stop.finger)
            span = high.semitones - low.semitones
            if high.finger - low.finger == 1 and low.string == high.string:
                spacings[span] += 1
            if (low.finger, high.finger) == (1, 4) and low.string - high.string == 1:
                octaves[span + 7] += 1
    return spacings, octaves


def in_one_hand(fingering: Fingering) -> Iterator[tuple[list[Stop], list[Stop]]]:
    """The stopped notes of every two sounds that follow each other in a group."""
    for group in fingering.groups:
        held = [
            [stop for stop in one.stops if stop is not None and stop.finger]
            for one in fingering.placed[group.first : group.last + 1]
        ]
        yield from pairwise(held)


def sings(event: Event) -> bool:
    return event.lasts >= Fraction(COSTS.string.timbre_from)


def quick(before: Event, event: Event) -> bool:
    return not event.silence and before.lasts <= Fraction(COSTS.finger.quick_to)


def every_way(columns: Sequence[Sequence[Pose]]) -> Iterator[tuple[Pose, ...]]:
    """Every way through a phrase."""
    return product(*columns)


def notes_of(text: str) -> tuple[WrittenNote, ...]:
    """The notes of one chord in shorthand."""
    return phrase(text).bars[0].sounds[0].notes
