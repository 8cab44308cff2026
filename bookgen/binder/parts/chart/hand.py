"""What a fingerboard chart shows: where fingers stand, in which order, before and after a shift."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Final

from bookgen.model.event import Event
from bookgen.model.stop import Note, Stop
from bookgen.model.units import Semitones, StringNumber

PAIR: Final = 2
"""Fingers that have each a side of its own for a figure."""


@dataclass(frozen=True)
class Hand:
    """What a chart shows.

    stops: each once; order: the number of the note in which each begins to sound, from 1; empty
        where no order is shown. changed: those that are ringed because they have moved.
    shifted: those of them that are played after the hand has shifted up.
    gap_mm: on paper between the hand before its shift and after it, where the string between them
        is cut out; 0 where all of it is shown.
    """

    stops: tuple[Stop, ...]
    order: Mapping[Stop, int]
    changed: frozenset[Stop] = frozenset()
    shifted: frozenset[Stop] = frozenset()
    gap_mm: float = 0.0

    @cached_property
    def ringed(self) -> frozenset[Stop]:
        """The stops with a ring: the one that is played first, and those that have changed."""
        return self.changed if self.start is None else self.changed | {self.start}

    @property
    def start(self) -> Stop | None:
        """The stop that is played first."""
        return next((stop for stop, number in self.order.items() if number == 1), None)

    @cached_property
    def heights(self) -> list[Semitones]:
        """Semitones at which fingers stand, from the nut up."""
        return sorted({stop.semitones for stop in self.stops})

    @cached_property
    def panels(self) -> list[list[Semitones]]:
        """The heights that are shown without a gap: of a cut chart those before the shift first."""
        if not self.gap_mm:
            return [self.heights]
        parts = ([stop for stop in self.stops if (stop in self.shifted) == up] for up in (0, 1))
        return [sorted({stop.semitones for stop in part}) for part in parts]

    @property
    def reach(self) -> object:
        """What its width depends on; hands that are alike in it need the same."""
        alike = {tuple(stop.semitones for stop in self.on(stop.string)) for stop in self.stops}
        orders = tuple(self.order.values()) if len(self.heights) > PAIR else ()
        return frozenset(alike), orders

    def on(self, string: StringNumber) -> list[Stop]:
        """The stops of a string, from the nut up; at one height that before the shift first."""
        found = [stop for stop in self.stops if stop.string == string]
        cut = bool(self.gap_mm)
        return sorted(
            found,
            key=lambda stop: (cut and stop in self.shifted, stop.semitones, stop in self.shifted),
        )

    def beside(self, stop: Stop) -> Stop | None:
        """The other finger that stands at the same place of the string, before or after a shift."""
        if self.gap_mm:
            return None
        place = (stop.string, stop.semitones)
        same = (one for one in self.stops if (one.string, one.semitones) == place and one != stop)
        return next(same, None)

    @property
    def crowded(self) -> bool:
        """Two fingers stand at one place of a string, one after the other."""
        return any(self.beside(stop) for stop in self.shifted)


def hand_of(events: Sequence[Event]) -> Hand:
    """A drill's hand: each finger counts as it comes down, not while it lies.

    A stop that comes only on the way back goes on counting.
    """
    order: dict[Stop, int] = {}
    shifted: set[Stop] = set()
    count = moved = 0
    before: tuple[Note, ...] = ()
    for event in events:
        together = len(event.notes) > 1
        lying = {note.stop for note in before} if together else set()
        moved += event.shifts
        shifted |= {note.stop for note in event.notes if moved}
        for note in event.notes:
            if not note.held and note.stop not in lying:
                count += 1
                order.setdefault(note.stop, count)
        before = event.notes
    return Hand(tuple(order), order, shifted=frozenset(shifted))
