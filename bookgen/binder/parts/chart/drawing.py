"""A measured chart goes onto paper: strings, nut or break, spots, order of play, distances."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from bookgen.binder.page.canvas import Canvas, Face, Point, Style
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.signs import draw_thumb
from bookgen.binder.parts.chart.measured import Chart
from bookgen.binder.parts.chart.scale import (
    FIGURE_GAP_MM,
    HALO_MM,
    RING_GAP_MM,
    RING_LINE_MM,
    SIDE_MM,
    label_gap,
    listed_order,
    names_mm,
    names_of,
    order_style,
)
from bookgen.binder.structure.tag import Role, Tag
from bookgen.model.finger import THUMB
from bookgen.model.geometry import nut_distance_mm
from bookgen.model.stop import Stop
from bookgen.model.units import StringNumber
from bookgen.words.pictures import Spot, chart_words

NUT_MM: Final = 1.2
BREAK_MM: Final = 1.2
BREAK_LINE_MM: Final = 0.25
SLANT_MM: Final = 1.2
OVER_MM: Final = 1.4
"""The break: two slanted lines, how far apart, how far they lean, how far they stand out."""

TICK_LINE_MM: Final = 0.2
LEAST_TAIL_MM: Final = 3.0
"""A shorter end of a string beside a figure is not drawn: it would be read as a minus."""

HALF_FIGURE: Final = 0.118
"""Half the height of a figure in millimetres, for each point of its size."""

FIGURE_WHITE_MM: Final = FIGURE_GAP_MM + 0.02
"""Left and right of a figure that stands on a string: no bit of the string is left beside it."""


@dataclass(frozen=True, slots=True)
class Pen:
    """A canvas seen from a chart's upper left corner, y downwards."""

    canvas: Canvas
    left: float
    top: float

    def at(self, x: float, y: float) -> Point:
        """A point of the chart on the page."""
        return (self.left + x, self.top - y)


def chart_tag(chart: Chart, desk: Desk, left: float, top: float, drill: str = "") -> Tag:
    """As what a chart with its upper left corner there is read.

    drill: whose it is, as the outline names that.
    """
    box = (left, top - chart.height, left + chart.width, top)
    return Tag(
        Role.FIGURE, alt=lambda: chart_words([*told_spots(chart)], drill, desk.speech), box=box
    )


def told_spots(chart: Chart) -> Iterator[Spot]:
    """What a chart shows."""
    hand = chart.hand
    for stop in hand.stops:
        away = nut_distance_mm(chart.scale.string_length_mm, stop.semitones)
        order = hand.order.get(stop)
        yield Spot(stop.string, stop.finger, away, order, shifted=stop in hand.shifted)


def draw_chart(
    canvas: Canvas, chart: Chart, desk: Desk, left: float, top: float, tag: Tag | None = None
) -> None:
    """Draw a chart with its upper left corner there.

    tag: as what it is read, if not as a chart of no drill.
    """
    pen = Pen(canvas, left, top)
    with canvas.tagged(tag or chart_tag(chart, desk, left, top)):
        draw_strings(pen, chart, desk)
        for draw in (draw_white, draw_spot):
            for stop in chart.hand.stops:
                draw(pen, chart, stop)
        for string in desk.instrument.string_numbers():
            draw_order(pen, chart, string)
        draw_below(pen, chart)


def draw_strings(pen: Pen, chart: Chart, desk: Desk) -> None:
    """Strings with their names, and the nut or the break."""
    measures, canvas = chart.measures, pen.canvas
    bold, plain = Style(Face.BOLD, measures.label_pt), Style(Face.REGULAR, measures.label_pt)
    left = names_mm(desk)
    names = [canvas.width(name, plain) for _, name in names_of(desk)]
    gap = label_gap(measures)
    name_left = left - NUT_MM / 2 - gap - max(names)
    for string in desk.instrument.string_numbers():
        numeral, name = names_of(desk)[string - 1]
        y = chart.row(string)
        canvas.line(pen.at(left, y), pen.at(chart.end, y), width=0.15 + 0.07 * string)
        baseline = y + measures.label_pt * HALF_FIGURE
        x = name_left - gap - canvas.width(numeral, bold)
        canvas.text(pen.at(x, baseline), numeral, bold)
        canvas.text(pen.at(name_left, baseline), name, plain)
    top, bottom = chart.row(StringNumber(1)), chart.row(StringNumber(len(names)))
    draw_cut(pen, chart, top, bottom)
    if chart.nut is not None:
        canvas.line(pen.at(chart.nut, top), pen.at(chart.nut, bottom), width=NUT_MM)
        return
    for shift in (0.0, BREAK_MM):
        foot = pen.at(left + shift - SLANT_MM / 2, bottom + OVER_MM)
        canvas.line(foot, pen.at(left + shift + SLANT_MM / 2, top - OVER_MM), width=BREAK_LINE_MM)


def draw_cut(pen: Pen, chart: Chart, top: float, bottom: float) -> None:
    """White where strings are cut out, between two slanted lines."""
    if chart.cut is None:
        return
    left, right = chart.cut
    lean = SLANT_MM / 2
    over, under = top - OVER_MM, bottom + OVER_MM
    corners = [
        (left + lean, over),
        (right + lean, over),
        (right - lean, under),
        (left - lean, under),
    ]
    pen.canvas.shape([pen.at(*corner) for corner in corners], gray=1.0)
    for x in (left, right):
        pen.canvas.line(pen.at(x - lean, under), pen.at(x + lean, over), width=BREAK_LINE_MM)


def draw_white(pen: Pen, chart: Chart, stop: Stop) -> None:
    """White where a spot and its ring will stand, so that the string ends before them."""
    ring = RING_GAP_MM + RING_LINE_MM / 2 if stop in chart.hand.ringed else 0.0
    high, wide = chart.measures.spot_radius_mm + ring, chart.half + ring
    centre = (chart.x(stop), chart.row(stop.string))
    fill(pen, centre, high + HALO_MM, wide + HALO_MM, 1.0)


def draw_spot(pen: Pen, chart: Chart, stop: Stop) -> None:
    """A spot with its finger, ringed where the drill begins, hollow after a shift.

    Two fingers at one place stand side by side, the first one left of it and the other right.
    Where fingers lie close, spots are narrower than high.
    """
    x, y = chart.x(stop), chart.row(stop.string)
    high, wide = chart.measures.spot_radius_mm, chart.half
    if chart.hand.beside(stop):
        wide = min(wide, half_spot_mm(chart, pen.canvas))
        x += wide if stop in chart.hand.shifted else -wide
    fill(pen, (x, y), high, wide, 0.0)
    hollow = stop in chart.hand.shifted
    if hollow:
        fill(pen, (x, y), high - HOLLOW_LINE_MM, wide - HOLLOW_LINE_MM, 1.0)
    if stop in chart.hand.ringed:
        ring = RING_GAP_MM + RING_LINE_MM / 2
        draw_ring(pen, (x, y), high + ring, wide + ring)
    style = Style(Face.BOLD, chart.measures.finger_pt)
    gray = 0.0 if hollow else 1.0
    if stop.finger == THUMB:
        draw_thumb(pen.canvas, pen.at(x, y), style.size * HALF_FIGURE, gray)
        return
    figure = str(stop.finger)
    left = x - pen.canvas.width(figure, style) / 2
    pen.canvas.text(pen.at(left, y + style.size * HALF_FIGURE), figure, style, gray=gray)


HOLLOW_LINE_MM: Final = 0.3
"""The outline of a spot that is played after a shift."""


def half_spot_mm(chart: Chart, canvas: Canvas) -> float:
    """Half the width of a spot that shares its place with another one: a figure and its white."""
    return canvas.width("4", Style(Face.BOLD, chart.measures.finger_pt)) / 2 + SIDE_MM


def fill(pen: Pen, centre: Point, high: float, wide: float, gray: float) -> None:
    """A filled spot, or one with straight sides where it is narrower than high.

    high, wide: half its height and half its width.
    """
    x, y = centre
    radius = min(high, wide)
    rest = high - radius
    for shift in {rest, -rest}:
        pen.canvas.spot(pen.at(x, y + shift), radius=radius, gray=gray)
    if rest:
        corners = [(x - radius, y - rest), (x + radius, y - rest)]
        corners += [(x + radius, y + rest), (x - radius, y + rest)]
        pen.canvas.shape([pen.at(*corner) for corner in corners], gray=gray)


def draw_ring(pen: Pen, centre: Point, high: float, wide: float) -> None:
    """The outline of the same."""
    if wide >= high:
        pen.canvas.ring(pen.at(*centre), radius=high, width=RING_LINE_MM)
        return
    x, y = centre
    rest, bend = high - wide, wide * ROUND
    for side in (-1, 1):
        edge = x + side * wide
        pen.canvas.line(pen.at(edge, y - rest), pen.at(edge, y + rest), width=RING_LINE_MM)
        for turn in (-1, 1):
            pen.canvas.curve(
                pen.at(edge, y + turn * rest),
                pen.at(edge, y + turn * (rest + bend)),
                pen.at(x + side * bend, y + turn * high),
                pen.at(x, y + turn * high),
                width=RING_LINE_MM,
            )


ROUND: Final = 0.5523
"""Where a quarter of a circle has its control points, of its radius."""


def draw_order(pen: Pen, chart: Chart, string: StringNumber) -> None:
    """The order of play on a string, outside its spots.

    Left of the lower finger, right of the others; a lone finger has it on the hand's outer side.
    Where the inner fingers leave no room, all figures stand at the string's end, from the lowest
    finger to the highest.
    """
    hand, style = chart.hand, order_style(chart.measures)
    stops = [stop for stop in hand.on(string) if stop in hand.order]
    if not stops:
        return
    y = chart.row(string)
    if string in chart.inner:
        draw_figure(
            pen, listed_order(hand, string), style, right_of(chart, stops[-1]), y, chart.end
        )
        return
    heights = hand.heights
    for stop in stops:
        words = str(hand.order[stop])
        alone = len(hand.on(string)) == 1
        left = stop.semitones == heights[0] if alone else stop == stops[0]
        if left and len(heights) > 1:
            x = left_of(chart, stop) - pen.canvas.width(words, style)
        else:
            x = right_of(chart, stop)
        draw_figure(pen, words, style, x, y, chart.end)


def outside(chart: Chart, stop: Stop) -> float:
    """From a spot's middle to the figure of its order."""
    ring = RING_GAP_MM + RING_LINE_MM if stop in chart.hand.ringed else HALO_MM
    return chart.half + ring + FIGURE_GAP_MM


def left_of(chart: Chart, stop: Stop) -> float:
    """Where the figure at the left of a spot ends."""
    return chart.x(stop) - outside(chart, stop)


def right_of(chart: Chart, stop: Stop) -> float:
    """Where the figure at the right of a spot begins."""
    return chart.x(stop) + outside(chart, stop)


def draw_figure(pen: Pen, words: str, style: Style, x: float, y: float, end: float) -> None:
    """A figure that stands on a string, with white behind it.

    end: of the string; what would be left of it as a mere dot is white too.
    """
    high = style.size * HALF_FIGURE
    left, right = x - FIGURE_WHITE_MM, x + pen.canvas.width(words, style) + FIGURE_WHITE_MM
    if end - LEAST_TAIL_MM < right < end:
        right = end + HALO_MM
    corners = [(left, y - high), (right, y - high), (right, y + high), (left, y + high)]
    pen.canvas.shape([pen.at(*corner) for corner in corners], gray=1.0)
    pen.canvas.text(pen.at(x, y + high), words, style)


def draw_below(pen: Pen, chart: Chart) -> None:
    """The scale, and the millimetres between ticks."""
    measures = chart.measures
    style = Style(Face.REGULAR, measures.label_pt)
    baseline = chart.row(StringNumber(len(chart.instrument.strings))) + measures.drop_mm
    for x, words in chart.below.words:
        pen.canvas.text(pen.at(x, baseline), words, style)
    for x in chart.below.ticks:
        top = baseline - measures.label_pt * HALF_FIGURE * 2
        pen.canvas.line(pen.at(x, top), pen.at(x, baseline + TICK_OVER_MM), width=TICK_LINE_MM)


TICK_OVER_MM: Final = 0.3
"""How far a tick reaches below the figures beside it."""
