"""What a photo of a plan of days is read by: marks in the corners, a code, squares to compare.

The measures are those of a trial on computed photographs; smaller ones were read less often.
"""

import hashlib
import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from enum import StrEnum
from itertools import groupby, pairwise
from typing import Final

from reportlab.graphics.barcode.qr import QrCodeWidget

from bookgen.binder.page.canvas import Canvas

CORNER_MARKS: Final = (
    ("######", "#.#..#", "##.#.#", "###..#", "###.##", "######"),
    ("######", "######", "#....#", "#.##.#", "#.#.##", "######"),
    ("######", "###..#", "###..#", "###.##", "#..#.#", "######"),
    ("######", "#.##.#", "#.##.#", "##.###", "##..##", "######"),
)
"""Marks 0 to 3 of ArUco's dictionary 4X4_50 with their border (OpenCV, objdetect, predefined
dictionaries), for the corners clockwise from the upper left: the mark tells the corner."""

FRAME_MM: Final = 0.3
"""Line of a box: a photo of bent paper is followed along these."""

FAINT_MM: Final = 0.4
FAINT_GRAY: Final = 0.7
"""The printed faint tick: a copy that loses it would lose a player's faint tick too."""

FAINT_TICK: Final = ((0.2, 0.45), (0.42, 0.18), (0.82, 0.82))
"""The tick in shares of the box, from its lower left corner."""

QUIET_MODULES: Final = 4  # white round the code: ISO/IEC 18004
CODE_MODULES: Final = 25  # version 2
SEAM_MM: Final = 0.01
"""Neighbouring modules overlap by this, so that no white shows between them on a screen."""

SMALL_MM: Final = 160.0
"""Papers narrower than this have the smaller marks."""

SHORT_NAME: Final = re.compile("[A-Z]{1,5}")
SIGNS: Final = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"


@dataclass(frozen=True, slots=True)
class Square:
    """A square on the page, in millimetres from its lower left corner."""

    left: float
    bottom: float
    side: float

    @property
    def right(self) -> float:
        """Its right edge."""
        return self.left + self.side

    @property
    def top(self) -> float:
        """Its upper edge."""
        return self.bottom + self.side


class Control(StrEnum):
    """What a square at the foot shows: the yardsticks by which ticks are judged."""

    EMPTY = "empty"
    FULL = "full"
    FAINT = "faint"


ROW: Final = (Control.FAINT, Control.EMPTY, Control.FULL, Control.EMPTY, Control.FULL)
"""The squares at the left of the foot from the edge inwards; the right has them mirrored."""


@dataclass(frozen=True, slots=True)
class Marks:
    """Where the marks of a page stand.

    corners: clockwise from the upper left; code: without its white border.
    controls: five at the left and five at the right, from the left.
    """

    corners: tuple[Square, ...]
    code: Square
    controls: tuple[tuple[Control, Square], ...]

    @property
    def inner(self) -> tuple[float, float]:
        """Left and right end of what stands between the marks at the foot."""
        return self.controls[len(ROW) - 1][1].right, self.controls[len(ROW)][1].left

    @property
    def quiet(self) -> float:
        """White around the code."""
        return self.code.side * QUIET_MODULES / CODE_MODULES


def marks_of(width: float, height: float, box: float) -> Marks:
    """The marks of a paper of that size; box: side of a square at the foot."""
    small = width < SMALL_MM
    side, edge, code, gap = (6.0, 6.0, 15.0, 1.0) if small else (8.0, 7.0, 18.0, 1.5)
    low, far = edge, width - edge - side
    high = height - edge - side
    corners = ((edge, high), (far, high), (far, low), (edge, low))
    quiet = code * QUIET_MODULES / CODE_MODULES
    start = edge + side + 2 * gap
    lefts = [start + place * (box + gap) for place in range(len(ROW))]
    bottom = low + (side - box) / 2
    left = [(kind, Square(x, bottom, box)) for kind, x in zip(ROW, lefts, strict=True)]
    right = [
        (kind, Square(width - x - box, bottom, box)) for kind, x in zip(ROW, lefts, strict=True)
    ]
    return Marks(
        corners=tuple(Square(x, y, side) for x, y in corners),
        code=Square(far - quiet - code, height - edge - code, code),
        controls=(*left, *reversed(right)),
    )


def code_text(studio: str | None, player: str | None, first: Date, page: int, check: str) -> str:
    """What the code says, in signs of its alphanumeric mode, at most 38 of them.

    The studio is named by signs made from its name, a player by a short name or by such signs.

    first: first day of the plan; page: of the plan, from 1; check: of its boxes' places.

    >>> code_text(None, "Jo", Date(2026, 12, 1), 1, "A3F0")
    'BOOKGEN1:0:JO:2026-12:1:A3F0'
    """
    house = digest(studio, 6) if studio else "0"
    name = (player or "0").upper()
    who = name if SHORT_NAME.fullmatch(name) or name == "0" else digest(player or "", 5)
    plan = f"{first:%Y-%m}" if first.day == 1 else f"{first:%Y%m%d}"
    return f"BOOKGEN1:{house}:{who}:{plan}:{page}:{check}"


def digest(name: str, signs: int) -> str:
    """A few signs that stand for a name and do not tell it."""
    number = int.from_bytes(hashlib.sha256(name.encode()).digest())
    found = ""
    for _ in range(signs):
        number, place = divmod(number, len(SIGNS))
        found += SIGNS[place]
    return found


def draw_marks(canvas: Canvas, marks: Marks, text: str) -> None:
    """Draw the corner marks, the code and the squares at the foot."""
    for square, rows in zip(marks.corners, CORNER_MARKS, strict=True):
        draw_modules(canvas, square, [[sign == "#" for sign in row] for row in rows])
    draw_modules(canvas, marks.code, code_modules(text))
    for kind, square in marks.controls:
        if kind is Control.FULL:
            fill(canvas, square.left, square.bottom, square.side, square.side, FRAME_MM / 2)
            continue
        draw_frame(canvas, square)
        if kind is Control.FAINT:
            draw_tick(canvas, square)


def code_modules(text: str) -> Sequence[Sequence[bool]]:
    """The rows of the code from the top, error correction at level M."""
    code = QrCodeWidget(text, barLevel="M").qr
    code.make()
    return [[bool(module) for module in row] for row in code.modules]


def draw_modules(canvas: Canvas, square: Square, rows: Sequence[Sequence[bool]]) -> None:
    """Draw black modules, neighbours of a row in one piece."""
    module = square.side / len(rows)
    for number, row in enumerate(rows):
        bottom = square.top - (number + 1) * module
        for start, length in runs(row):
            fill(canvas, square.left + start * module, bottom, length * module, module, SEAM_MM / 2)


def runs(row: Iterable[bool]) -> Iterator[tuple[int, int]]:
    """Where black begins in a row, and how many modules it runs."""
    place = 0
    for black, group in groupby(row):
        length = len(list(group))
        if black:
            yield place, length
        place += length


def fill(
    canvas: Canvas, left: float, bottom: float, width: float, height: float, more: float = 0.0
) -> None:
    """A black rectangle, larger by so much on each side."""
    right, top = left + width + more, bottom + height + more
    left, bottom = left - more, bottom - more
    canvas.shape([(left, bottom), (right, bottom), (right, top), (left, top)])


def draw_frame(canvas: Canvas, square: Square) -> None:
    """The outline of a box."""
    canvas.box((square.left, square.bottom), (square.side, square.side), width=FRAME_MM)


def draw_tick(canvas: Canvas, square: Square) -> None:
    """A faint printed tick."""
    points = [
        (square.left + x * square.side, square.bottom + y * square.side) for x, y in FAINT_TICK
    ]
    for start, end in pairwise(points):
        canvas.line(start, end, width=FAINT_MM, gray=FAINT_GRAY)
