"""What the hand of an instrument takes: pairs, frames, spacings, and the positions it reaches."""

from collections.abc import Iterator
from functools import cache
from itertools import pairwise
from typing import Final

from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.model.place import place_label
from bookgen.model.route import Return
from bookgen.model.spacing import Frame, Spacing
from bookgen.model.units import Semitones, StringNumber

ORDINARY: Final = ("half", "whole")
PAIR: Final = 2

Pair = tuple[int, int]


def takes_all(instrument: Instrument, frame: Frame) -> bool:
    """Whether the hand takes a frame without a stretch, each two neighbours somewhere."""
    neighbours = zip(pairwise(frame.fingers), frame.spacings, strict=True)
    within = len(frame.fingers) == PAIR or frame.span <= instrument.hand.ordinary_span
    return within and all(takes(instrument, pair, spacing) for pair, spacing in neighbours)


def hands(
    frame: Frame, strings: tuple[StringNumber, ...], instrument: Instrument
) -> Iterator[Drill]:
    """A pair at every place where the hand takes it without a stretch, as drills of stage 1."""
    for place in map(Semitones, range(1, instrument.highest_stop + 1)):
        if instrument.refused_place(frame, place) is None and not instrument.stretches(
            frame, place
        ):
            yield Drill(instrument.key, frame, frame.fingers, place, strings, 1, Return.MIRROR)


def takes(instrument: Instrument, pair: Pair, spacing: Spacing) -> bool:
    """Whether two fingers take a spacing somewhere without a stretch."""
    return any(
        (reach.low, reach.high, reach.spacing) == (*pair, spacing) and not reach.stretch
        for reach in instrument.hand.reaches
    )


def pairs_of(instrument: Instrument) -> tuple[str, ...]:
    """Finger pairs that take some spacing without a stretch."""
    reaches = (reach for reach in instrument.hand.reaches if not reach.stretch)
    return tuple(sorted({join((reach.low, reach.high)) for reach in reaches}))


def usual_pairs(instrument: Instrument) -> tuple[str, ...]:
    """Finger pairs that take a half or a whole step without a stretch."""
    return tuple(
        pair
        for pair in pairs_of(instrument)
        if any(takes(instrument, fingers_of(pair), Spacing.parse(word)) for word in ORDINARY)
    )


def spacings_of(instrument: Instrument) -> tuple[str, ...]:
    """Spacings that some pair takes without a stretch, the closest first."""
    found = {reach.spacing for reach in instrument.hand.reaches if not reach.stretch}
    return tuple(spacing.word for spacing in Spacing if spacing in found)


@cache
def positions_of(instrument: Instrument) -> tuple[str, ...]:
    """Every position of the instrument by its label, from the nut up."""
    strings = instrument.string_numbers()
    frames = (
        Frame.pair(reach.low, reach.high, reach.spacing)
        for reach in instrument.hand.reaches
        if not reach.stretch
    )
    lowest: dict[str, int] = {}
    for frame in frames:
        room = instrument.hand.room_below(frame.fingers[0])
        for drill in hands(frame, strings, instrument):
            label, height = place_label(drill, instrument), drill.place - room
            lowest[label] = min(height, lowest.get(label, height))
    return tuple(sorted(lowest, key=lambda label: lowest[label]))


def fingers_of(pair: str) -> Pair:
    """A pair from its two digits."""
    return int(pair[0]), int(pair[1])


def join(pair: Pair) -> str:
    """A pair as it is written."""
    return f"{pair[0]}{pair[1]}"
