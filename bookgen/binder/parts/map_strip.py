"""The fingerboard at a glance: a spot for every stop of a book."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from bookgen.binder.page.canvas import Canvas, Face, Style
from bookgen.binder.page.desk import Desk
from bookgen.model.geometry import nut_distance_mm
from bookgen.model.instrument import Instrument
from bookgen.words.front import nut, octave

DOT_MM: Final = 0.8
OCTAVE: Final = 12
LABEL_DROP: Final = 0.41
"""From the lowest string to the labels, in millimetres by points of their size."""

LINE_MM: Final = 0.15
NUT_MM: Final = 0.9

Place = tuple[int, int]
"""A string and the semitones above it."""


@dataclass(frozen=True, slots=True)
class Strip:
    """The whole fingerboard, to scale.

    width: of the strings on paper, row: from string to string, in millimetres.
    size: of its labels, in points.
    """

    instrument: Instrument
    places: frozenset[Place]
    width: float
    row: float
    size: float

    @property
    def height(self) -> float:
        """From the highest string to the labels below, in millimetres."""
        return (len(self.instrument.strings) - 1) * self.row + LABEL_DROP * self.size + DOT_MM

    def x(self, semitones: int) -> float:
        """Where a place is drawn, in millimetres from the nut on paper.

        Every size has the same shape, so no string length is needed.
        """
        share = nut_distance_mm(1.0, semitones) / nut_distance_mm(1.0, self.instrument.highest_stop)
        return share * (self.width - DOT_MM)

    def draw(self, canvas: Canvas, left: float, top: float, desk: Desk) -> None:
        """Draw the strip with its upper left corner there."""
        rows = [top - DOT_MM - row * self.row for row in range(len(self.instrument.strings))]
        for y in rows:
            canvas.line((left, y), (left + self.width, y), width=LINE_MM)
        canvas.line((left, rows[0]), (left, rows[-1]), width=NUT_MM)
        style = Style(Face.REGULAR, self.size)
        middle = left + self.x(OCTAVE)
        canvas.line((middle, rows[-1] - 0.9), (middle, rows[0] + 0.9), width=LINE_MM)
        for string, semitones in sorted(self.places):
            canvas.spot((left + self.x(semitones), rows[string - 1]), radius=DOT_MM)
        baseline = rows[-1] - LABEL_DROP * self.size
        label = octave(desk.speech)
        canvas.text((left - NUT_MM / 2, baseline), nut(desk.speech), style)
        x = middle - canvas.width(label, style) / 2
        if x > left + canvas.width(nut(desk.speech) + " ", style):
            canvas.text((x, baseline), label, style)


def strip_of(
    places: Iterable[Place], instrument: Instrument, width: float, row: float, size: float
) -> Strip:
    """The strip with the places of a book."""
    return Strip(instrument, frozenset(places), width, row, size)
