"""Where on the fingerboard today's drills lie: a small strip for the head of the page."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from bookgen.binder.canvas import Canvas, Face, Style
from bookgen.model.geometry import nut_distance_mm
from bookgen.model.instrument import Instrument
from bookgen.model.stop import Stop

ROW_MM: Final = 2.0
DOT_MM: Final = 0.8
OCTAVE: Final = 12
LABEL_DROP_MM: Final = 3.7


@dataclass(frozen=True, slots=True)
class Strip:
    """The whole fingerboard at the width of a strip.

    width: of the strings on paper, row: from string to string, in millimetres.
    """

    instrument: Instrument
    stops: frozenset[Stop]
    width: float
    row: float = ROW_MM

    @property
    def height(self) -> float:
        """From the highest string to the labels below, in millimetres."""
        return (len(self.instrument.strings) - 1) * self.row + LABEL_DROP_MM + DOT_MM

    def x(self, semitones: int) -> float:
        """Where a stop is drawn, in millimetres from the nut on paper.

        Every size has the same shape, so no string length is needed.
        """
        share = nut_distance_mm(1.0, semitones) / nut_distance_mm(1.0, self.instrument.highest_stop)
        return share * (self.width - DOT_MM)


def strip_of(
    stops: Iterable[Stop], instrument: Instrument, width: float, row: float = ROW_MM
) -> Strip:
    """The strip with the stops of a day.

    width, row: of the strings and from string to string, in millimetres.
    """
    return Strip(instrument, frozenset(stops), width, row)


def draw_strip(canvas: Canvas, strip: Strip, left: float, top: float, size: float) -> None:
    """Draw the strip with its upper left corner there.

    size: of its labels, in points.
    """
    rows = [top - DOT_MM - row * strip.row for row in range(len(strip.instrument.strings))]
    for y in rows:
        canvas.line((left, y), (left + strip.width, y), width=0.15)
    canvas.line((left, rows[0]), (left, rows[-1]), width=0.9)
    style = Style(Face.REGULAR, size)
    octave = left + strip.x(OCTAVE)
    canvas.line((octave, rows[-1] - 0.9), (octave, rows[0] + 0.9), width=0.15)
    for stop in sorted(strip.stops):
        canvas.spot((left + strip.x(stop.semitones), rows[stop.string - 1]), radius=DOT_MM)
    baseline = rows[-1] - LABEL_DROP_MM
    canvas.text((left - 0.45, baseline), "nut", style)
    canvas.text((octave - canvas.width("octave", style) / 2, baseline), "octave", style)
