"""What the hand of an instrument takes: pairs, frames, spacings, and the positions it reaches."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import cache
from itertools import combinations, pairwise, product
from typing import Final

from bookgen.model.drill import Drill
from bookgen.model.finger import fingers_in, signs_of
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


def usual_pairs(instrument: Instrument, positions: Sequence[str]) -> tuple[str, ...]:
    """Finger pairs that take a half or a whole step in one of these positions."""
    steps = {Spacing.parse(word) for word in ORDINARY}
    return tuple(
        pair
        for pair in pairs_of(instrument)
        if steps & {*spacings_in(instrument, fingers_of(pair), positions)}
    )


def spacings_in(
    instrument: Instrument, pair: Pair, positions: Sequence[str]
) -> tuple[Spacing, ...]:
    """Spacings that two fingers take in one of these positions without a stretch."""
    strings = instrument.string_numbers()
    return tuple(
        spacing
        for spacing in Spacing
        if any(
            place_label(drill, instrument) in positions
            for drill in hands(Frame.pair(*pair, spacing), strings, instrument)
        )
    )


@cache
def more_of(instrument: Instrument) -> tuple[str, ...]:
    """Frames of three and four fingers whose neighbours take half or whole steps."""
    steps = [Spacing.parse(word) for word in ORDINARY]
    strings = instrument.string_numbers()
    return tuple(
        signs_of(fingers)
        for count in (PAIR + 1, PAIR + 2)
        for fingers in combinations(instrument.hand.fingers, count)
        if any(
            True
            for spacings in product(steps, repeat=count - 1)
            for _ in hands(Frame(fingers, spacings), strings, instrument)
        )
    )


def every_hand(instrument: Instrument) -> tuple[str, ...]:
    """Pairs, then frames of three and four fingers."""
    return *pairs_of(instrument), *more_of(instrument)


def crowded(instrument: Instrument, frame: Frame) -> bool:
    """Two half steps in a row where the ordinary hand has a finger to spare: no key has that.

    A hand whose outer fingers of three take a whole step stands just so.
    """
    threes = zip(frame.fingers, frame.fingers[2:], pairwise(frame.spacings), strict=False)
    return any(
        steps == (Spacing.HALF, Spacing.HALF) and not takes(instrument, (low, high), Spacing.WHOLE)
        for low, high, steps in threes
    )


def extended(frame: Frame, instrument: Instrument) -> Iterator[Frame]:
    """The same fingers extended forward and back, as far as the hand has a name for it."""
    places = [*map(Semitones, range(1, instrument.highest_stop + 1))]
    backs = (False, True) if frame.fingers[0] == 1 and frame.spacings else (False,)
    for one in (replace(frame, back=back) for back in backs):
        if any(
            instrument.extension(one, at) and not instrument.refused_place(one, at) for at in places
        ):
            yield one


@cache
def first_position(instrument: Instrument) -> str | None:
    """The position in which players begin; else the lowest one with a half or a whole step.

    None where the hand takes neither anywhere.
    """
    known = positions_of(instrument)
    first = [instrument.first_position] if instrument.first_position in known else []
    usual = (one for one in (*first, *known) if usual_pairs(instrument, (one,)))
    return next(usual, None)


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
    """A pair from its two signs."""
    low, high = fingers_in(pair)
    return low, high


def join(pair: Pair) -> str:
    """A pair as it is written."""
    return signs_of(pair)
