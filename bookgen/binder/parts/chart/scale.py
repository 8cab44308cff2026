"""The hands of a book at one scale: the largest at which all have room in their charts."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from itertools import pairwise
from typing import Final

from bookgen.binder.page.block_measures import ChartMeasures
from bookgen.binder.page.canvas import Face, Style
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.paper import NoRoomError
from bookgen.binder.parts.chart.hand import PAIR, Hand
from bookgen.errors import Said, told
from bookgen.model.geometry import nut_distance_mm
from bookgen.model.instrument import NUMERALS, Instrument
from bookgen.model.stop import Stop
from bookgen.model.units import StringNumber
from bookgen.words.names import open_string
from bookgen.words.speech import Speech

LABEL_GAP: Final = 0.12
"""Beside words in the chart, in millimetres by points of their size."""

UNIT: Final = "mm"
"""Of the figures below a chart; SI symbols are the same in every language."""

NAMES_WHITE_MM: Final = 0.6
"""Between the strings' names and the nut, beside the gap: half of the nut's thickness."""

HALO_MM: Final = 0.4
"""White around a spot."""

RING_GAP_MM: Final = 0.5
RING_LINE_MM: Final = 0.35
"""The ring around the stop with which the drill begins: from the spot to it, its thickness."""

BESIDE_MM: Final = RING_GAP_MM + RING_LINE_MM + 0.3
"""Between two spots on one string, at least: room for a ring, with white beside it."""

FIGURE_GAP_MM: Final = 0.5
"""Between a spot with its white, or a ring, and the figure of its order."""

SIDE_MM: Final = 0.45
"""Left and right of a finger's figure in its spot, at least."""


@dataclass(frozen=True, slots=True)
class Scale:
    """One scale for all charts of a book.

    per: millimetres on the instrument for one on paper, never less than one.
    """

    string_length_mm: float
    per: Fraction

    def paper(self, low: float, high: float) -> float:
        """Millimetres on paper between two heights in semitones."""
        length = self.string_length_mm
        return (nut_distance_mm(length, high) - nut_distance_mm(length, low)) / float(self.per)


STEPS: Final = tuple(Fraction(tenths, 10) for tenths in (*range(10, 40), *range(40, 201, 5)))
"""Scales from life size down, in small steps: 1 : 1, 1 : 1.1, 1 : 1.2 …"""


def scale_of(
    hands: Sequence[Hand], desk: Desk, width: float, widest: float, called: Sequence[Said]
) -> Scale:
    """The largest scale at which every hand of a book has room and its figures stand apart.

    Hands of more than two fingers may take the whole line, so that they do not make the charts of
    all others small; so may others where fingers would lie on each other.

    width, widest: of a chart, and of one that takes the whole line, in millimetres.
    called: the hands in a finding.

    Raises:
        NoRoomError: a hand has no room on the whole line.
    """
    length = desk.instrument.size(desk.size).string_length_mm
    scales = [Scale(length, per) for per in STEPS]
    unlike = list({hand.reach: hand for hand in hands}.values())
    pairs = [hand for hand in unlike if len(hand.heights) <= PAIR]

    def room(one: Scale) -> bool:
        return all(needs_mm(hand, one, desk) <= widest for hand in unlike)

    def apart(one: Scale) -> bool:
        return all(clear(hand, one, desk) for hand in unlike)

    for one in scales:
        if all(needs_mm(hand, one, desk) <= width for hand in pairs) and room(one) and apart(one):
            return one
    every = [one for one in scales if room(one)]
    if not every:
        wide = max(range(len(hands)), key=lambda at: needs_mm(hands[at], scales[-1], desk))
        needs = needs_mm(hands[wide], scales[-1], desk)
        raise NoRoomError(told("{drill}: its chart", drill=called[wide]), needs, widest, wide=True)
    return [*filter(apart, reversed(every)), *every][0]


def hand_mm(hand: Hand, scale: Scale) -> float:
    """From the lowest to the highest finger on paper."""
    return ticks_of(hand, scale)[-1][-1]


def ticks_of(hand: Hand, scale: Scale) -> list[list[float]]:
    """Where fingers stand on paper, from the lowest one, in each panel."""
    found: list[list[float]] = []
    start = 0.0
    for panel in hand.panels:
        found.append([start + scale.paper(panel[0], height) for height in panel])
        start = found[-1][-1] + hand.gap_mm
    return found


def spots_of(hand: Hand, scale: Scale) -> dict[Stop, float]:
    """Where each stop lies on paper, from the lowest finger."""
    panels = zip(hand.panels, ticks_of(hand, scale), strict=True)
    places = [dict(zip(heights, ticks, strict=True)) for heights, ticks in panels]
    return {stop: places[-1 if stop in hand.shifted else 0][stop.semitones] for stop in hand.stops}


def needs_mm(hand: Hand, scale: Scale, desk: Desk) -> float:
    """The width that a chart of the hand needs."""
    measures = desk.layout.chart
    before = names_mm(desk) + measures.before_mm
    return before + hand_mm(hand, scale) + tail_mm(hand, scale, desk)


def tail_mm(hand: Hand, scale: Scale, desk: Desk) -> float:
    """From the highest finger to the end of the strings, and of what stands there or below."""
    measures = desk.layout.chart
    listed = [
        desk.fonts.width(listed_order(hand, string), order_style(measures))
        for string in listed_on(hand, scale, desk)
    ]
    aside = measures.spot_radius_mm + RING_GAP_MM + RING_LINE_MM + FIGURE_GAP_MM
    behind = desk.fonts.width(words_behind(hand, scale, desk), label_style(desk))
    return max(
        [
            measures.tail_mm,
            label_gap(measures) + behind,
            *(aside + wide + FIGURE_GAP_MM for wide in listed),
        ]
    )


def words_behind(hand: Hand, scale: Scale, desk: Desk) -> str:
    """The unit; with all distances where one of them is too short for its figure."""
    style, gap = label_style(desk), label_gap(desk.layout.chart)
    apart = apart_mm(hand, scale)
    spare = [
        (right - left) - gap - desk.fonts.width(text, style)
        for text, (left, right) in zip(apart, beside_each_other(hand, scale), strict=True)
    ]
    return f"{', '.join(apart)} {UNIT}" if min(spare, default=0.0) < 0 else UNIT


def apart_mm(hand: Hand, scale: Scale) -> list[str]:
    """Millimetres on the instrument between neighbouring fingers, not over a gap."""
    return [
        f"{(right - left) * float(scale.per):.0f}" for left, right in beside_each_other(hand, scale)
    ]


def beside_each_other(hand: Hand, scale: Scale) -> list[tuple[float, float]]:
    """Where two neighbouring fingers stand, from the lowest one, not over a gap."""
    return [two for panel in ticks_of(hand, scale) for two in pairwise(panel)]


def label_gap(measures: ChartMeasures) -> float:
    """White beside words in the chart, in millimetres."""
    return measures.label_pt * LABEL_GAP


def label_style(desk: Desk) -> Style:
    """Type of the words below the chart."""
    return Style(Face.REGULAR, desk.layout.chart.label_pt)


def listed_on(hand: Hand, scale: Scale, desk: Desk) -> frozenset[StringNumber]:
    """Strings whose order of play is listed at their end: all with inner fingers or none."""
    many = {string for string in strings_of(hand) if len(hand.on(string)) > PAIR}
    fit = all(between(hand, string, scale, desk) for string in many)
    return frozenset() if fit else frozenset(many)


def listed_order(hand: Hand, string: StringNumber) -> str:
    """The order of play on a string, from its lowest finger to its highest."""
    return " ".join(str(hand.order[stop]) for stop in hand.on(string) if stop in hand.order)


def clear(hand: Hand, scale: Scale, desk: Desk) -> bool:
    """The figures of all fingers have room beside each other."""
    figures = SHARED if hand.crowded else 1.0
    return closest_mm(hand, scale) >= figures * (figure_mm(desk) + 2 * SIDE_MM) + BESIDE_MM


SHARED: Final = 1.5
"""Figures from the middle of a spot to that of the next, where two fingers share one."""


def figure_mm(desk: Desk) -> float:
    """How wide the figure of a finger is."""
    return desk.fonts.width("4", Style(Face.BOLD, desk.layout.chart.finger_pt))


def closest_mm(hand: Hand, scale: Scale) -> float:
    """The least distance on paper between two fingers on one string."""
    spots = spots_of(hand, scale)
    gaps = [
        spots[high] - spots[low]
        for string in {stop.string for stop in hand.stops}
        for low, high in pairwise(hand.on(string))
        if hand.beside(low) != high
    ]
    return min(gaps, default=float("inf"))


def strings_of(hand: Hand) -> set[StringNumber]:
    """The strings on which fingers stand."""
    return {stop.string for stop in hand.stops}


def order_style(measures: ChartMeasures) -> Style:
    """Type of the order of play."""
    return Style(Face.ITALIC, measures.order_pt)


def between(hand: Hand, string: StringNumber, scale: Scale, desk: Desk) -> bool:
    """The order of the inner fingers has room between the spots."""
    measures, stops = desk.layout.chart, hand.on(string)
    if any(hand.beside(stop) for stop in stops):
        return False
    spots = spots_of(hand, scale)
    for one, other in pairwise(stops[1:]):
        if one not in hand.order:
            continue
        gap = spots[other] - spots[one]
        figure = desk.fonts.width(str(hand.order[one]), order_style(measures))
        if gap < 2 * measures.spot_radius_mm + figure + 2 * (HALO_MM + FIGURE_GAP_MM):
            return False
    return True


def names_mm(desk: Desk) -> float:
    """Room for the strings' names: some languages call them longer than the layout foresees."""
    measures, fonts = desk.layout.chart, desk.fonts
    needs = max(
        fonts.width(numeral, Style(Face.BOLD, measures.label_pt))
        + fonts.width(name, Style(Face.REGULAR, measures.label_pt))
        for numeral, name in names_of(desk)
    )
    return max(measures.names_mm, needs + 2 * label_gap(measures) + NAMES_WHITE_MM)


def names_of(desk: Desk) -> Sequence[tuple[str, str]]:
    """Numeral and name of each string, the highest first."""
    return strings_named(desk.instrument, desk.speech)


@cache
def strings_named(instrument: Instrument, speech: Speech) -> tuple[tuple[str, str], ...]:
    """Numeral and name of each string, the highest first."""
    return tuple(
        (NUMERALS[string], open_string(instrument.open_pitch(string), speech))
        for string in reversed(instrument.string_numbers())
    )
