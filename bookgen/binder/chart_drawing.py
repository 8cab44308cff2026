"""A measured chart goes onto paper: strings, spots, route, distances."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import hypot
from typing import Final

from bookgen.binder.canvas import Canvas, Face, Point, Style
from bookgen.binder.chart import CAPTION_DROP_MM, HALO_MM, LABELS_MM, MEASURE_DROP_MM, Chart
from bookgen.binder.english import open_name
from bookgen.model.geometry import gap_mm, nut_distance_mm
from bookgen.model.instrument import NUMERALS
from bookgen.model.stop import Stop
from bookgen.model.units import StringNumber

NUT_MM: Final = 1.4
ROUTE_MM: Final = 0.35
ARROW_MM: Final = 2.2
NUMERAL_RIGHT_MM: Final = 5.8
NAME_LEFT_MM: Final = 6.9
SHORTEST_LINE_MM: Final = 0.3
ROOM_MM: Final = 2.8
"""Around the words of a distance, so that its line is seen at both sides."""

HALF_DIGIT: Final = 0.118
"""Half the height of a figure in millimetres, for each point of its size."""


def draw_chart(canvas: Canvas, chart: Chart, left: float, top: float) -> None:
    """Draw a chart with its upper left corner at that point of the page, in millimetres."""
    pen = Pen(canvas, left, top)
    draw_strings(pen, chart)
    if chart.ends_elsewhere:
        draw_way(pen, chart, chart.down, back=True)
    draw_way(pen, chart, chart.up, back=False)
    draw_spots(pen, chart)
    draw_measures(pen, chart)


@dataclass(frozen=True, slots=True)
class Pen:
    """A canvas seen from the chart's upper left corner."""

    canvas: Canvas
    left: float
    top: float

    def __call__(self, point: Point) -> Point:
        """A point of the chart on the page."""
        return (self.left + point[0], self.top + point[1])


def draw_strings(pen: Pen, chart: Chart) -> None:
    """Strings with their names, and the nut or the break."""
    end = chart.width
    lowest, highest = (
        chart.row(StringNumber(len(chart.instrument.strings))),
        chart.row(StringNumber(1)),
    )
    for number in range(1, len(chart.instrument.strings) + 1):
        string = StringNumber(number)
        row = chart.row(string)
        pen.canvas.line(pen((LABELS_MM, row)), pen((end, row)), width=0.15 + 0.07 * number)
        baseline = row - 1.15
        right_numeral(pen, NUMERALS[number], baseline)
        name = open_name(chart.instrument.open_pitch(string))
        pen.canvas.text(pen((NAME_LEFT_MM, baseline)), name, Style(Face.REGULAR, chart.small))
    if chart.view.shows_nut:
        pen.canvas.line(
            pen((LABELS_MM - NUT_MM / 2, lowest)),
            pen((LABELS_MM - NUT_MM / 2, highest)),
            width=NUT_MM,
        )
        return
    for shift in (0.0, 1.4):
        foot, head = (
            (LABELS_MM + shift - 0.2, lowest - 2.0),
            (LABELS_MM + shift + 1.4, highest + 2.0),
        )
        pen.canvas.line(pen(foot), pen(head), width=0.25)


def right_numeral(pen: Pen, numeral: str, baseline: float) -> None:
    """A string's numeral, flush right before its name."""
    style = Style(Face.BOLD, 9.5)
    pen.canvas.text(
        pen((NUMERAL_RIGHT_MM - pen.canvas.width(numeral, style), baseline)), numeral, style
    )


def draw_way(pen: Pen, chart: Chart, way: Sequence[Stop], *, back: bool) -> None:
    """A thin line over the strings in the order of play, with an arrow at its end.

    back: the way back, in dashes.
    """
    points = [chart.at(stop) for stop in way]
    for start, end in pairwise(points):
        if back:
            pen.canvas.dashes(pen(start), pen(end), width=ROUTE_MM)
        else:
            pen.canvas.line(pen(start), pen(end), width=ROUTE_MM)
    if len(points) > 1:
        draw_arrow(pen, points[-2], points[-1], chart.measures.spot_radius + HALO_MM)


def draw_arrow(pen: Pen, start: Point, end: Point, short: float) -> None:
    """An arrow head that stops short of the end by the spot's radius."""
    long = hypot(end[0] - start[0], end[1] - start[1])
    along = ((end[0] - start[0]) / long, (end[1] - start[1]) / long)
    tip = (end[0] - along[0] * short, end[1] - along[1] * short)
    base = (tip[0] - along[0] * ARROW_MM, tip[1] - along[1] * ARROW_MM)
    side = (-along[1] * ARROW_MM * 0.36, along[0] * ARROW_MM * 0.36)
    pen.canvas.shape(
        [
            pen(tip),
            pen((base[0] + side[0], base[1] + side[1])),
            pen((base[0] - side[0], base[1] - side[1])),
        ]
    )


def draw_spots(pen: Pen, chart: Chart) -> None:
    """A spot with its finger's number at each stop; a ring round the first."""
    radius = chart.measures.spot_radius
    style = Style(Face.BOLD, radius * 3.9)
    for stop in chart.stops:
        centre = pen(chart.at(stop))
        start = stop == chart.up[0]
        pen.canvas.spot(centre, radius=radius + HALO_MM + 0.45 * start, gray=1.0)
        pen.canvas.spot(centre, radius=radius)
        if start:
            pen.canvas.ring(centre, radius=radius + 0.75, width=0.4)
        digit = str(stop.finger)
        x = centre[0] - pen.canvas.width(digit, style) / 2
        pen.canvas.text((x, centre[1] - style.size * HALF_DIGIT), digit, style, gray=1.0)


def draw_measures(pen: Pen, chart: Chart) -> None:
    """Distances between the fingers in millimetres of the instrument, and the caption."""
    length = chart.view.string_length_mm
    y = chart.row(StringNumber(len(chart.instrument.strings))) - MEASURE_DROP_MM
    style = Style(Face.REGULAR, chart.small)
    first = chart.heights[0]
    away = f"{nut_distance_mm(length, first):.0f}"
    if chart.view.shows_nut:
        draw_distance(pen, (LABELS_MM, chart.x(first)), y, f"{away} from the nut", style)
    elif chart.close:
        draw_distance(pen, (LABELS_MM, chart.x(first)), y, away, style, open_end=True)
    for low, high in pairwise(chart.heights):
        span = (chart.x(low), chart.x(high))
        draw_distance(pen, span, y, f"{gap_mm(length, low, high):.0f}", style)
    if not chart.caption:
        return
    if chart.beside:
        x = chart.width - pen.canvas.width(chart.caption, style)
        pen.canvas.text(pen((x, y - style.size * HALF_DIGIT)), chart.caption, style)
    else:
        pen.canvas.text(pen((LABELS_MM, y - CAPTION_DROP_MM)), chart.caption, style)


def draw_distance(
    pen: Pen,
    span: tuple[float, float],
    y: float,
    words: str,
    style: Style,
    *,
    open_end: bool = False,
) -> None:
    """A distance between two ticks, its words in the middle, as many as have room.

    open_end: it begins left of the drawing, so there is no tick.
    """
    start, end = span
    fitting = [
        text
        for text in (words, words.partition(" ")[0])
        if pen.canvas.width(text, style) + ROOM_MM <= end - start
    ]
    for x in span[1:] if open_end else span:
        pen.canvas.line(pen((x, y - 1.1)), pen((x, y + 1.1)), width=0.2)
    text = fitting[0] if fitting else ""
    wide = pen.canvas.width(text, style)
    middle = (start + end) / 2
    for one, other in ((start, middle - wide / 2 - 0.6), (middle + wide / 2 + 0.6, end)):
        if other - one > SHORTEST_LINE_MM:
            pen.canvas.line(pen((one, y)), pen((other, y)), width=0.2)
    if text:
        pen.canvas.text(pen((middle - wide / 2, y - style.size * HALF_DIGIT)), text, style)
