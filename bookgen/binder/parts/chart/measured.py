"""The fingerboard chart, measured: to true scale, with the order of play in figures."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Final

from bookgen.binder.page.block_measures import ChartMeasures
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.paper import NoRoomError
from bookgen.binder.parts.chart.hand import Hand
from bookgen.binder.parts.chart.scale import (
    BESIDE_MM,
    FIGURE_GAP_MM,
    HALO_MM,
    RING_GAP_MM,
    RING_LINE_MM,
    SIDE_MM,
    UNIT,
    Scale,
    apart_mm,
    beside_each_other,
    clear,
    closest_mm,
    figure_mm,
    hand_mm,
    label_gap,
    label_style,
    listed_on,
    names_mm,
    needs_mm,
    order_style,
    spots_of,
    tail_mm,
    ticks_of,
    words_behind,
)
from bookgen.errors import Said, told
from bookgen.model.geometry import nut_distance_mm
from bookgen.model.instrument import Instrument
from bookgen.model.stop import Stop
from bookgen.model.units import StringNumber
from bookgen.words.drill import scale_words

DESCENT: Final = 0.08
"""How far letters reach below their line, in millimetres by points of their size."""


@dataclass(frozen=True, slots=True)
class Below:
    """What stands under a chart: words, each with its left end, and ticks where fingers stand."""

    words: tuple[tuple[float, str], ...]
    ticks: tuple[float, ...] = ()


@dataclass(frozen=True)
class Chart:
    """A chart, measured. Lengths are millimetres, from its upper left corner, y downwards.

    half: half the width of its spots: their radius, or less where fingers lie close.
    nut: where the nut lies, or None where it is cut off; lowest: where the lowest finger lies.
    tail: from the highest finger to the end of the strings; below: under the lowest string.
    inner: strings whose order of play stands at their end, for want of room between spots.
    """

    hand: Hand
    instrument: Instrument
    scale: Scale
    measures: ChartMeasures
    half: float
    nut: float | None
    lowest: float
    inner: frozenset[StringNumber]
    tail: float
    below: Below
    width: float

    @property
    def height(self) -> float:
        """Height with the words below."""
        label = self.measures.label_pt
        return self.row(StringNumber(len(self.instrument.strings))) + (
            self.measures.drop_mm + label * DESCENT
        )

    def row(self, string: StringNumber) -> float:
        """Where a string lies."""
        above = self.measures.spot_radius_mm + RING_GAP_MM + RING_LINE_MM / 2
        return above + (string - 1) * self.measures.string_gap_mm

    def x(self, stop: Stop) -> float:
        """Where a finger lies."""
        return self.lowest + self.spots[stop]

    @cached_property
    def spots(self) -> Mapping[Stop, float]:
        """Where each finger lies, from the lowest one."""
        return spots_of(self.hand, self.scale)

    @property
    def end(self) -> float:
        """Where the strings end."""
        return self.lowest + hand_mm(self.hand, self.scale) + self.tail

    @property
    def cut(self) -> tuple[float, float] | None:
        """From where to where the strings are cut out, or None where they are whole."""
        if not self.hand.gap_mm:
            return None
        before, *_ = ticks_of(self.hand, self.scale)
        middle = self.lowest + before[-1] + self.hand.gap_mm * CUT_AT
        return middle - CUT_MM / 2, middle + CUT_MM / 2


def chart_of(
    hand: Hand, scale: Scale, desk: Desk, width: float, called: Said, *, figures: bool
) -> Chart:
    """Measure a chart, with its nut where that is near enough.

    figures: millimetres stand below it, else the scale alone.

    Raises:
        NoRoomError: the chart needs more width or height than it has.
    """
    measures = desk.layout.chart
    span, away = hand_mm(hand, scale), scale.paper(0, hand.heights[0])
    refuse_tight(desk, called)
    needs = needs_mm(hand, scale, desk)
    if needs > width:
        raise NoRoomError(told("{drill}: its chart", drill=called), needs, width, wide=True)
    tail = tail_mm(hand, scale, desk)
    near = measures.before_mm * NEAR <= away <= measures.before_mm * FAR
    near = near and names_mm(desk) + away + span + tail <= width
    lowest = names_mm(desk) + (away if near else measures.before_mm)
    half = min(measures.spot_radius_mm, (closest_mm(hand, scale) - BESIDE_MM) / 2)
    if not clear(hand, scale, desk):
        figure = figure_mm(desk) + 2 * SIDE_MM
        raise NoRoomError(told("{drill}: a finger in its spot", drill=called), figure, 2 * half)
    return Chart(
        hand=hand,
        instrument=desk.instrument,
        scale=scale,
        measures=measures,
        half=half,
        nut=names_mm(desk) if near else None,
        lowest=lowest,
        inner=listed_on(hand, scale, desk),
        tail=tail,
        below=words_below(hand, scale, lowest, desk, width, called, figures=figures),
        width=width,
    )


CUT_MM: Final = 1.6
CUT_AT: Final = 0.58
"""Where strings are cut out between two places of a hand: how wide, and at which share of the gap
(own choice: right of the middle, for the order of play stands at its left)."""

NEAR: Final = 0.75
FAR: Final = 1.6
"""The nut is shown from and to that share of the room before the lowest finger: nearer, figures
would lie on it; farther, charts of one book would begin at places too different."""


def refuse_tight(desk: Desk, called: Said) -> None:
    """Spots and the order of play must have room.

    Raises:
        NoRoomError: spots are higher than the strings stand apart, or the order of play is too
            wide.
    """
    measures, fonts = desk.layout.chart, desk.fonts
    part = told("{drill}: its chart", drill=called)
    if 2 * measures.spot_radius_mm + HALO_MM > measures.string_gap_mm:
        raise NoRoomError(part, 2 * measures.spot_radius_mm + HALO_MM, measures.string_gap_mm)
    figure = figure_mm(desk)
    if figure + 2 * SIDE_MM > 2 * measures.spot_radius_mm:
        needs, has = figure + 2 * SIDE_MM, 2 * measures.spot_radius_mm
        raise NoRoomError(
            told("{drill}: a finger in its spot", drill=called), needs, has, wide=True
        )
    order = order_style(measures)
    beside = FIGURE_GAP_MM + max(
        RING_GAP_MM + RING_LINE_MM + fonts.width("1", order), HALO_MM + fonts.width("30", order)
    )
    beside += measures.spot_radius_mm
    room = min(measures.before_mm, measures.tail_mm)
    if beside > room:
        raise NoRoomError(told("{drill}: the order of play", drill=called), beside, room, wide=True)


def words_below(
    hand: Hand,
    scale: Scale,
    lowest: float,
    desk: Desk,
    width: float,
    called: Said,
    *,
    figures: bool,
) -> Below:
    """The scale at the left; then millimetres from the nut and between the fingers.

    lowest: where the lowest finger lies, from the chart's left edge; width: of the chart.

    Raises:
        NoRoomError: there is no room for them.
    """
    style, gap = label_style(desk), label_gap(desk.layout.chart)
    ratio = scale_words(scale.per, desk.speech)
    if not figures:
        return Below(((0.0, ratio),))
    panels = [[lowest + tick for tick in panel] for panel in ticks_of(hand, scale)]
    ticks = [tick for panel in panels for tick in panel]
    away = [
        (first - gap - desk.fonts.width(text, style), text)
        for (first, *_), (height, *_) in zip(panels, hand.panels, strict=True)
        for text in [f"{nut_distance_mm(scale.string_length_mm, height):.0f}"]
    ]
    start = away[0][0]
    behind, *between = between_fingers(hand, scale, ticks, desk)
    words = [(0.0, ratio), *away, *between, behind]
    needs = desk.fonts.width(ratio, style) + 2 * gap
    end = behind[0] + desk.fonts.width(behind[1], style)
    part = told("{drill}: the words below its chart", drill=called)
    if start < needs:
        raise NoRoomError(part, needs, start, wide=True)
    if end > width:
        raise NoRoomError(part, end, width, wide=True)
    return Below(tuple(words), tuple(ticks))


def between_fingers(
    hand: Hand, scale: Scale, ticks: Sequence[float], desk: Desk
) -> Iterator[tuple[float, str]]:
    """What stands behind the last finger, then the millimetres between fingers, by left ends.

    Where a distance is too short for its figure, all stand behind the last finger.
    """
    gap = label_gap(desk.layout.chart)
    behind = words_behind(hand, scale, desk)
    yield ticks[-1] + gap, behind
    if behind == UNIT:
        style = label_style(desk)
        apart = zip(apart_mm(hand, scale), beside_each_other(hand, scale), strict=True)
        for text, (left, right) in apart:
            yield ticks[0] + (left + right - desk.fonts.width(text, style)) / 2, text
