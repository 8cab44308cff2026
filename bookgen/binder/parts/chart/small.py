"""A small fingerboard to scale: where fingers stand, without order of play and measures."""

from dataclasses import replace
from typing import Final

import msgspec

from bookgen.binder.page.desk import Desk
from bookgen.binder.parts.chart.hand import Hand
from bookgen.binder.parts.chart.measured import FAR, NEAR, Below, Chart
from bookgen.binder.parts.chart.scale import (
    RING_GAP_MM,
    RING_LINE_MM,
    STEPS,
    Scale,
    closest_mm,
    figure_mm,
    hand_mm,
    names_mm,
)

WHITE_MM: Final = 0.35
SPARE_MM: Final = 0.9
"""White between two spots on a string; what their figures need beside themselves."""

LEAST_HALF_MM: Final = 0.9
"""A spot is no narrower, even where it lies on another."""


def small(desk: Desk) -> Desk:
    """The desk with the measures of small fingerboards."""
    layout = msgspec.structs.replace(desk.layout, chart=desk.layout.passage.chart)
    return replace(desk, layout=layout)


def scale_in(hand: Hand, desk: Desk, width: float) -> Scale:
    """The largest scale at which a hand has room in that width; else the smallest one there is.

    desk: with the measures of small fingerboards.
    """
    length = desk.instrument.size(desk.size).string_length_mm
    scales = [Scale(length, per) for per in STEPS]
    return next((one for one in scales if bare_mm(hand, one, desk) <= width), scales[-1])


def bare_mm(hand: Hand, scale: Scale, desk: Desk) -> float:
    """The width that a hand needs."""
    measures = desk.layout.chart
    return names_mm(desk) + measures.before_mm + hand_mm(hand, scale) + measures.tail_mm


def has_room(hand: Hand, desk: Desk, width: float) -> bool:
    """The figures of all fingers stand clear of each other in that width."""
    return closest_mm(hand, scale_in(hand, desk, width)) >= figure_mm(desk) + SPARE_MM


def small_chart(hand: Hand, desk: Desk, width: float) -> Chart:
    """Measure a small fingerboard, each at its own scale.

    desk: with the measures of small fingerboards.
    """
    measures, scale = desk.layout.chart, scale_in(hand, desk, width)
    away = scale.paper(0, hand.heights[0])
    near = measures.before_mm * NEAR <= away <= measures.before_mm * FAR
    near = near and names_mm(desk) + away + hand_mm(hand, scale) + measures.tail_mm <= width
    half = min(measures.spot_radius_mm, (closest_mm(hand, scale) - WHITE_MM) / 2)
    return Chart(
        hand=hand,
        instrument=desk.instrument,
        scale=scale,
        measures=measures,
        half=max(half, LEAST_HALF_MM),
        nut=names_mm(desk) if near else None,
        lowest=names_mm(desk) + (away if near else measures.before_mm),
        inner=frozenset(),
        tail=measures.tail_mm,
        below=Below(()),
        width=width,
    )


def bare_height(chart: Chart) -> float:
    """Height of its strings with the spots on them."""
    last = chart.row(chart.instrument.string_numbers()[0])
    return last + chart.measures.spot_radius_mm + RING_GAP_MM + RING_LINE_MM / 2
