"""The number of a book as bars (EAN-13), drawn in black ink with white around it."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby
from typing import Final

from barcode.ean import EuropeanArticleNumber13

from bookgen.binder.page.canvas import Canvas, Face, Point, Style
from bookgen.binder.prepress.book_number import BookNumber

MODULE_MM: Final = 0.33
"""Width of the finest bar at 100 % (GS1 General Specifications, 5.2.3.1; from memory)."""

MODULES: Final = 95
QUIET: Final = (11, 7)
"""White before and behind the bars, in modules (GS1 General Specifications, 5.2.3; from memory)."""

BARS_MM: Final = 22.85
"""Height of the bars (GS1 General Specifications, 5.2.3.1; from memory)."""

GUARDS: Final = (range(3), range(45, 50), range(92, 95))
"""Modules of the bars that reach further down."""

GUARD_MM: Final = 5 * MODULE_MM
DIGIT: Final = 7
"""Modules of a digit."""

HALVES: Final = (3, 50)
"""Where the two halves of six digits begin, in modules."""

FIGURES: Final = Style(Face.REGULAR, 9.0)
FIGURES_MM: Final = 3.0
"""Below the bars, for the figures."""

LABEL: Final = Style(Face.REGULAR, 8.0)
LABEL_MM: Final = 4.0
"""Above the bars, for the number with its hyphens."""

WIDTH_MM: Final = (MODULES + sum(QUIET)) * MODULE_MM
HEIGHT_MM: Final = FIGURES_MM + BARS_MM + LABEL_MM


@dataclass(frozen=True, slots=True)
class BarCode:
    """A number as bars at 100 %: 37.29 mm wide with the white at its sides."""

    number: BookNumber

    @property
    def bars(self) -> Iterator[tuple[int, int]]:
        """First module and width of each black bar."""
        (modules,) = EuropeanArticleNumber13(self.number.digits[:-1]).build()
        for black, run in groupby(range(MODULES), key=lambda module: modules[module] == "1"):
            held = list(run)
            if black:
                yield held[0], len(held)

    def draw(self, canvas: Canvas, corner: Point) -> None:
        """Draw it on white; the corner is the lower left one of the white."""
        left, foot = corner
        canvas.shape(rectangle(left, foot, WIDTH_MM, HEIGHT_MM), gray=1.0)
        start, low = left + QUIET[0] * MODULE_MM, foot + FIGURES_MM
        for first, wide in self.bars:
            down = GUARD_MM if any(first in guard for guard in GUARDS) else 0.0
            x = start + first * MODULE_MM
            canvas.shape(rectangle(x, low - down, wide * MODULE_MM, BARS_MM + down))
        canvas.text((start, low + BARS_MM + 1.0), self.number.written, LABEL)
        canvas.text((left, foot), self.number.digits[0], FIGURES)
        for place, digit in enumerate(self.number.digits[1:]):
            half, at = divmod(place, 6)
            middle = start + (HALVES[half] + (at + 0.5) * DIGIT) * MODULE_MM
            canvas.text((middle - canvas.width(digit, FIGURES) / 2, foot), digit, FIGURES)


def rectangle(left: float, foot: float, wide: float, high: float) -> list[Point]:
    """Its corners."""
    right, top = left + wide, foot + high
    return [(left, foot), (right, foot), (right, top), (left, top)]
