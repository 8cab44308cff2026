"""Where the notes of double stops stand: each is pure to one neighbour, and what the other then is.

Two pure intervals can want one note at two heights, a comma apart: a finger that is a pure sixth
above the string below is no pure fourth below the string above. The interval that is easier to hear
has its way, an open string before a stopped one; the other is left wider or narrower.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import Final

from bookgen.model.event import Event
from bookgen.model.instrument import Instrument
from bookgen.model.pitch import Pitch
from bookgen.model.ring import EASY, PERFECT, ear_check
from bookgen.model.stop import Note, Stop
from bookgen.model.tuning import CONSONANT, cents, just_ratio
from bookgen.model.units import Cents, StringNumber

Spot = Stop | StringNumber
"""A stopped note, or an open string by its number."""

LEAST: Final = 1.0
"""Cents that are worth a word; two ways to one note differ by a comma of 21.5 (computed)."""


@dataclass(frozen=True, slots=True)
class Pure:
    """Two spots that are tuned to each other: upper is the ratio times lower."""

    lower: Spot
    upper: Spot
    ratio: Fraction
    label: str


@dataclass(frozen=True, slots=True)
class Left:
    """A double stop that cannot be pure, because its notes are tuned to others.

    low, high: its notes; label: its interval.
    tuned: the note of it that is tuned to another; to: the pitch of that one, an open string where
        `open_string` says so; by: their interval.
    away: cents by which the interval is wider (+) or narrower (-) than the pure one.
    """

    low: Note
    high: Note
    label: str
    tuned: Note
    to: Pitch
    open_string: bool
    by: str
    away: Cents


class Heights:
    """Notes as frequency ratios, joined one pure interval at a time."""

    def __init__(self) -> None:
        """Begin with no note."""
        self.homes: dict[Spot, tuple[Spot, Fraction]] = {}

    def home(self, spot: Spot) -> tuple[Spot, Fraction]:
        """The spot from which another is measured, and the ratio between them."""
        return self.homes.setdefault(spot, (spot, Fraction(1)))

    def join(self, pure: Pure) -> bool:
        """Tune two spots to each other; false where both stand already."""
        (low_home, low), (high_home, high) = self.home(pure.lower), self.home(pure.upper)
        if low_home == high_home:
            return False
        shift = low * pure.ratio / high
        for spot, (home, ratio) in self.homes.items():
            if home == high_home:
                self.homes[spot] = (low_home, ratio * shift)
        return True

    def between(self, lower: Spot, upper: Spot) -> Fraction:
        """The ratio of two spots that stand already."""
        return self.home(upper)[1] / self.home(lower)[1]


def left_over(events: Sequence[Event], instrument: Instrument) -> tuple[Left, ...]:
    """The double stops of a drill that cannot be pure, each pair of notes once."""
    notes = {note.stop: note for event in events for note in event.notes}
    doubles = {(low.stop, high.stop): label for low, high, label in double_stops(events)}
    heights = Heights()
    for pure in open_strings(instrument):
        heights.join(pure)
    wishes = [*proofs(notes.values(), instrument)]
    wishes += [Pure(low, high, just_ratio(label), label) for (low, high), label in doubles.items()]
    chosen = [
        pure for pure in sorted(wishes, key=lambda one: EASY.index(one.label)) if heights.join(pure)
    ]
    return tuple(
        left
        for (low, high), label in doubles.items()
        for away in [cents(heights.between(low, high) / just_ratio(label))]
        if abs(away) >= LEAST
        for left in [told(notes[low], notes[high], label, away, chosen, notes, instrument)]
    )


def double_stops(events: Iterable[Event]) -> Iterator[tuple[Note, Note, str]]:
    """The consonant double stops, the lower note first."""
    for event in events:
        if event.within in CONSONANT:
            low, high = sorted(event.notes, key=lambda note: note.pitch.midi)
            yield low, high, event.within


def open_strings(instrument: Instrument) -> Iterator[Pure]:
    """The open strings, each tuned pure to its neighbour where that is a perfect interval."""
    numbers = instrument.string_numbers()
    for low, high in pairwise(numbers):
        label = instrument.between_open(low, high).label
        if label in CONSONANT:
            yield Pure(low, high, just_ratio(label), label)


def proofs(notes: Iterable[Note], instrument: Instrument) -> Iterator[Pure]:
    """The notes that an open string proves by a perfect interval."""
    for note in notes:
        check = ear_check(note, instrument)
        if check is None or check.interval not in PERFECT:
            continue
        ratio = just_ratio(check.interval)
        above = note.pitch.midi >= instrument.open_pitch(check.open_string).midi
        ends: tuple[Spot, Spot] = (check.open_string, note.stop)
        lower, upper = ends if above else ends[::-1]
        yield Pure(lower, upper, ratio, check.interval)


def told(
    low: Note,
    high: Note,
    label: str,
    away: Cents,
    chosen: Sequence[Pure],
    notes: Mapping[Stop, Note],
    instrument: Instrument,
) -> Left:
    """A double stop that is not pure, with what one of its notes is tuned to instead.

    It is the note that is tuned to another finger, if one is; else one that an open string proves.
    """
    ways = [
        (isinstance(other, int), note, other, pure.label)
        for note in (high, low)
        for pure in chosen
        for one, other in ((pure.lower, pure.upper), (pure.upper, pure.lower))
        if one == note.stop
    ]
    open_string, tuned, to, by = min(ways, key=lambda way: way[0])
    pitch = notes[to].pitch if isinstance(to, Stop) else instrument.open_pitch(to)
    return Left(low, high, label, tuned, pitch, open_string, by, away)
