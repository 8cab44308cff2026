"""A fingerboard with a gauge at each place: how many of its moves are secure or practised."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from bookgen.binder.canvas import Canvas, Face, Point, Style
from bookgen.binder.coverage import Place, Tally
from bookgen.binder.english import open_name
from bookgen.model.geometry import nut_distance_mm
from bookgen.model.instrument import NUMERALS, Instrument
from bookgen.model.units import StringNumber

LABELS_MM: Final = 12.5
"""Room at the left for numeral and name of the strings."""

NUMERAL_RIGHT_MM: Final = 5.8
NAME_LEFT_MM: Final = 6.9
WIDEST_MM: Final = 5.0
SHARE_OF_STEP: Final = 0.62
"""A gauge's width, as a share of the narrowest half step."""

SHARE_OF_ROW: Final = 0.76
"""A gauge's height, as a share of the distance from string to string."""

AXIS_MM: Final = 4.6
HATCH_MM: Final = 0.62
OUTLINE_MM: Final = 0.22
NUT_MM: Final = 1.4
OCTAVE: Final = 12


@dataclass(frozen=True, slots=True)
class Board:
    """A fingerboard, to scale from the nut to its last gauge.

    tallies: by place; width, row: of the whole and from string to string, in millimetres.
    small: size of its type in points.
    """

    instrument: Instrument
    tallies: Mapping[Place, Tally]
    width: float
    row: float
    small: float

    @property
    def height(self) -> float:
        """Height with the axis, in millimetres."""
        return len(self.instrument.strings) * self.row + AXIS_MM

    @property
    def places(self) -> list[int]:
        """Every place with a gauge, in semitones from the nut up."""
        return sorted({semitones for _, semitones in self.tallies})

    @property
    def last(self) -> int:
        """The last place drawn."""
        return max(self.places, default=OCTAVE)

    def x(self, semitones: int) -> float:
        """Where a place lies, in millimetres from the left edge."""
        room = self.width - LABELS_MM - WIDEST_MM
        return LABELS_MM + room * nut_distance_mm(1, semitones) / nut_distance_mm(1, self.last)

    @property
    def gauge(self) -> tuple[float, float]:
        """Width and height of a gauge."""
        step = self.x(self.last) - self.x(self.last - 1)
        return min(step * SHARE_OF_STEP, WIDEST_MM), self.row * SHARE_OF_ROW


def draw_board(canvas: Canvas, board: Board, left: float, top: float) -> None:
    """Draw a fingerboard with its upper left corner there."""
    draw_strings(canvas, board, left, top)
    wide, high = board.gauge
    for (string, semitones), tally in board.tallies.items():
        y = top - (string - 0.5) * board.row - high / 2
        x = left + board.x(semitones) - wide / 2
        draw_gauge(canvas, (x, y), (wide, high), tally)
    style = Style(Face.REGULAR, board.small)
    baseline = top - board.height + 0.6
    end = -1.0
    for place in board.places:
        wide = canvas.width(str(place), style)
        x = left + board.x(place) - wide / 2
        if x > end:
            canvas.text((x, baseline), str(place), style)
            end = x + wide + 0.8


def draw_strings(canvas: Canvas, board: Board, left: float, top: float) -> None:
    """Strings with their names, and the nut."""
    rows = [top - (row + 0.5) * board.row for row in range(len(board.instrument.strings))]
    numeral, name = Style(Face.BOLD, 9.5), Style(Face.REGULAR, board.small)
    for number, y in enumerate(rows, start=1):
        start, end = (left + LABELS_MM, y), (left + board.width, y)
        canvas.line(start, end, width=0.15 + 0.07 * number)
        words = NUMERALS[number]
        x = left + NUMERAL_RIGHT_MM - canvas.width(words, numeral)
        canvas.text((x, y - 1.15), words, numeral)
        pitch = open_name(board.instrument.open_pitch(StringNumber(number)))
        canvas.text((left + NAME_LEFT_MM, y - 1.15), pitch, name)
    x = left + LABELS_MM - NUT_MM / 2
    canvas.line((x, rows[0] + board.row * 0.3), (x, rows[-1] - board.row * 0.3), width=NUT_MM)


def draw_gauge(canvas: Canvas, corner: Point, size: tuple[float, float], tally: Tally) -> None:
    """A gauge: black from below for secure, hatched above that for practised, the rest white."""
    (x, y), (wide, high) = corner, size
    canvas.shape(rectangle(corner, wide, high), gray=1.0)
    black = high * tally.secure / tally.total
    hatched = high * (tally.secure + tally.practised) / tally.total
    if black > 0:
        canvas.shape(rectangle(corner, wide, black))
    line = y + black + HATCH_MM
    while line < y + hatched - HATCH_MM / 2:
        canvas.line((x, line), (x + wide, line), width=OUTLINE_MM * 0.9)
        line += HATCH_MM
    if tally.practised:
        canvas.line((x, y + hatched), (x + wide, y + hatched), width=OUTLINE_MM)
    canvas.box(corner, size, width=OUTLINE_MM)


def rectangle(corner: Point, wide: float, high: float) -> list[Point]:
    """The corners of a box."""
    x, y = corner
    return [(x, y), (x + wide, y), (x + wide, y + high), (x, y + high)]
