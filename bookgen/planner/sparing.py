"""How a day spares the hand: what tires it is short, never first, and never twice running."""

from collections.abc import Collection
from functools import lru_cache
from itertools import pairwise
from typing import Final, Protocol

from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.model.move import EVERY_DRILL
from bookgen.model.spacing import Frame
from bookgen.model.units import Semitones

SHORT_MINUTES: Final = 1.0
"""A minute, then rest: the most for a hand that tires, and for the thumb (from memory)."""


MOST_TIRING: Final = 3
"""Drills of a day that tire the hand; own choice."""


WIDEST_STEP: Final = 2
"""Semitones by which a hand moves on to the next place."""


@lru_cache(maxsize=EVERY_DRILL)
def tires(drill: Drill, instrument: Instrument) -> bool:
    """Whether a drill's hand is stretched, at the heavy end of the neck, or on its thumb."""
    return instrument.tires(drill.frame, drill.place)


def spared(minutes: float, drill: Drill, instrument: Instrument) -> float:
    """A drill's minutes, cut short where it tires the hand."""
    return min(minutes, SHORT_MINUTES) if tires(drill, instrument) else minutes


Hand = tuple[Frame, Semitones]
"""A frame and its place."""


class Area(Protocol):
    """What the planner knows of an area: its instrument, and every frame at every place."""

    @property
    def instrument(self) -> Instrument:
        """The instrument that is played."""

    @property
    def places(self) -> tuple[Hand, ...]:
        """Every frame at every place."""


def comes_after(drill: Drill, last: Drill | None, area: Area) -> bool:
    """Whether a drill may follow another one on a day: what tires neither opens nor repeats.

    Where all of an area tires the hand nothing can stand between.
    """
    instrument = area.instrument
    if not tires(drill, instrument) or (last is not None and not tires(last, instrument)):
        return True
    return all_tire(area.places, instrument)


def has_room(drill: Drill, placed: Collection[Drill], area: Area) -> bool:
    """Whether a day with these drills may have one more: what tires the hand is little."""
    if not tires(drill, area.instrument):
        return True
    tiring = sum(tires(one, area.instrument) for one in placed)
    little = tiring < MOST_TIRING and 2 * tiring < len(placed)
    return little or all_tire(area.places, area.instrument)


@lru_cache(maxsize=EVERY_DRILL)
def all_tire(places: tuple[Hand, ...], instrument: Instrument) -> bool:
    """Every hand of an area tires."""
    return all(instrument.tires(*one) for one in places)


@lru_cache(maxsize=EVERY_DRILL)
def leading(
    hand: Hand, places: tuple[Hand, ...], instrument: Instrument
) -> tuple[tuple[Hand, ...], tuple[Hand, ...]]:
    """What comes before an extension: the closed hands of its position; itself higher up.

    Higher up as far as a closed hand comes there by steps, or over a gap that it has on both sides.

    places: every hand of the area.
    """
    frame, place = hand
    at, label = place + frame.drawn, position(hand, instrument)
    closed = [one for one in places if not instrument.tires(*one)]
    stairs = sorted({at, *(low for one, low in closed if one.fingers[0] == 1 and low > at)})
    laid = {low: {one for one, there in closed if there == low} for low in stairs}
    gaps = (
        low
        for low, high in pairwise(stairs)
        if high - low > WIDEST_STEP and not laid[low] & laid[high]
    )
    top = next(gaps, stairs[-1])
    higher = (one for one in places if one[0] == frame and place < one[1] <= top - frame.drawn)
    return (
        tuple(one for one in closed if position(one, instrument) == label),
        tuple(one for one in higher if instrument.extension(*one)),
    )


def position(hand: Hand, instrument: Instrument) -> str:
    """The label of a hand's position; extended back it is that of the closed hand."""
    frame, place = hand
    return instrument.position_rule.at(frame.fingers[0], Semitones(place + frame.drawn))
