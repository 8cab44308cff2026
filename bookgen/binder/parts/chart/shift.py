"""How a hand that shifts is charted: at a scale of its own, and cut where the way is long."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

from bookgen.binder.page.desk import Desk
from bookgen.binder.parts.chart.hand import Hand
from bookgen.binder.parts.chart.scale import STEPS, Scale, clear, needs_mm, scale_of
from bookgen.errors import Said

WORTH_A_LINE: Final = 3
"""A chart that would be smaller than one to three takes the whole line (own choice)."""

Charted = tuple[Hand, Scale]
"""A hand as its chart shows it, and at which scale."""


def charted(
    hands: Sequence[Hand],
    scales: Sequence[Scale],
    desk: Desk,
    width: float,
    widest: float,
    called: Sequence[Said],
) -> list[Charted]:
    """Each hand of a book with its scale; a shift has one of its own, no larger than the others.

    So a wide shift does not make the charts of all others small.

    scales: of the hands that stay where they are, in their order.
    width, widest: of a chart of a shift, and of one that takes the whole line, in millimetres.

    Raises:
        NoRoomError: a hand has no room on the whole line.
    """
    length = desk.instrument.size(desk.size).string_length_mm
    common = max(scales, key=lambda scale: scale.per, default=Scale(length, STEPS[0]))
    still = iter(scales)
    return [
        shifting(hand, common, desk, min(width, widest), widest, name)
        if hand.shifted
        else (hand, next(still))
        for hand, name in zip(hands, called, strict=True)
    ]


def shifting(
    hand: Hand, common: Scale, desk: Desk, width: float, widest: float, called: Said
) -> Charted:
    """A hand that shifts, in the fullest way in which all of its fingers can be read.

    Raises:
        NoRoomError: it has no room on the whole line.
    """
    smaller = [one for one in STEPS if one >= common.per]
    rooms = (
        (width, WORTH_A_LINE, smaller),
        (widest, STEPS[-1], smaller),
        (widest, STEPS[-1], STEPS),
    )
    for way in ways_of(hand, desk):
        for room, most, steps in rooms:
            scales = (Scale(common.string_length_mm, per) for per in steps if per <= most)
            fits = (scale for scale in scales if needs_mm(way, scale, desk) <= room)
            largest = next(fits, None)
            if largest is not None and clear(way, largest, desk):
                return way, largest
    return hand, scale_of([hand], desk, width, widest, [called])


def ways_of(hand: Hand, desk: Desk) -> Iterator[Hand]:
    """A hand with all that can be shown of it, then ever less.

    It is cut between its places; its start alone has its order; of the second place, where the
    hand stands as in the first one, only the lowest finger is shown.
    """
    yield hand
    cut = replace(hand, gap_mm=desk.layout.chart.before_mm + desk.layout.chart.tail_mm / 2)
    yield cut
    begun = replace(cut, order={stop: at for stop, at in hand.order.items() if at == 1})
    yield begun
    lowest = min(stop.semitones for stop in hand.shifted)
    upper = frozenset(stop for stop in hand.shifted if stop.semitones == lowest)
    shown = tuple(stop for stop in hand.stops if stop not in hand.shifted or stop in upper)
    yield replace(begun, stops=shown, shifted=upper)
