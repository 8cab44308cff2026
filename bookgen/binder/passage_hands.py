"""Charts of a passage's hands, side by side: where the fingers of each lie, to scale."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from bookgen.binder.canvas import Canvas
from bookgen.binder.chart import Chart, Room, Shown, chart_with, room_in
from bookgen.binder.chart_drawing import draw_chart
from bookgen.binder.desk import Desk
from bookgen.binder.layout import COLUMN_GAP_MM, Arrangement
from bookgen.binder.leaf import Side
from bookgen.binder.overlay import Placed
from bookgen.binder.prose import Look, Set, draw_prose, height_of, set_prose
from bookgen.binder.typeset import Paragraph
from bookgen.binder.view import View, choose_view, clear, common_views
from bookgen.model.stop import Stop
from bookgen.model.units import Semitones

UNDER_TITLE_MM: Final = 1.5


@dataclass(frozen=True, slots=True)
class HandChart:
    """A chart with the words over it."""

    words: Sequence[Set]
    chart: Chart

    @property
    def height(self) -> float:
        """Height of words and chart."""
        return height_of(self.words) + UNDER_TITLE_MM + self.chart.height


@dataclass(frozen=True, slots=True)
class HandRow:
    """Charts side by side."""

    charts: Sequence[HandChart]
    step: float

    @property
    def height(self) -> float:
        """Height of the highest chart with its words."""
        return max(chart.height for chart in self.charts)

    def draw(self, canvas: Canvas, side: Side, top: float, pencil: float) -> Iterator[Placed]:
        """Draw the charts of a row; they stand on one line."""
        del pencil
        left = side.left
        words = max(height_of(one.words) for one in self.charts)
        for one in self.charts:
            draw_prose(canvas, one.words, left, top)
            draw_chart(canvas, one.chart, left, top - words - UNDER_TITLE_MM)
            left += self.step
        return iter(())


def stopped(stops: Sequence[Stop]) -> tuple[Stop, ...]:
    """Stops of fingers, without open strings."""
    return tuple(stop for stop in stops if stop.finger)


def heights(stops: Sequence[Stop]) -> list[Semitones]:
    """Semitones at which fingers stand, from the nut up."""
    return sorted({stop.semitones for stop in stops})


Hands = Sequence[tuple[Sequence[Stop], Sequence[Paragraph]]]
"""The stops of each hand in the order of play, and the words over its chart."""


def hand_rows(hands: Hands, desk: Desk) -> tuple[list[HandRow], str]:
    """Measure the charts of hands at one scale, larger where fingers would touch on paper.

    Returns:
        Rows of charts, and their scale in words.
    """
    if not hands:
        return [], ""
    abreast = 1 if desk.arrangement is Arrangement.STACKED else 2
    width = (desk.sheet.column - (abreast - 1) * COLUMN_GAP_MM) / abreast
    charts = [stopped(stops) for stops, _ in hands]
    views, scale = views_of(charts, desk, width)
    found = [
        hand_chart(stops, words, view, desk, width)
        for stops, (_, words), view in zip(charts, hands, views, strict=True)
    ]
    rows = [found[at : at + abreast] for at in range(0, len(found), abreast)]
    return [HandRow(row, width + COLUMN_GAP_MM) for row in rows], scale


def views_of(charts: Sequence[Sequence[Stop]], desk: Desk, width: float) -> tuple[list[View], str]:
    """What each chart shows, and the scale that most of them share, in words."""
    length = desk.instrument.size(desk.size).string_length_mm
    room, radius = room_in(width), desk.layout.chart.spot_radius
    common = common_views(charts, length, room, radius)
    views = [
        view
        if clear(view, heights(stops), 2 * radius)
        else choose_view(stops, length, room, radius)
        for view, stops in zip(common, charts, strict=True)
    ]
    return views, common[0].scale_words


def hand_chart(
    stops: tuple[Stop, ...], words: Sequence[Paragraph], view: View, desk: Desk, width: float
) -> HandChart:
    """Measure the chart of one hand."""
    sizes = desk.layout.text
    looks = {"chart": Look(sizes.body + 1), "chart-text": Look(sizes.small, above=0.3)}
    chart = chart_with(
        Shown(0, stops, stops[:1], stops[:1]),
        desk.instrument,
        view,
        desk.layout.chart,
        Room(width, sizes.small),
        desk.fonts,
    )
    return HandChart(set_prose(words, looks, width, sizes.leading, desk.fonts), chart)
