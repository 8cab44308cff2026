"""How a page lies on the sheet that is cut: trim, bleed, crop marks."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

POINTS_PER_MM: Final = 72 / 25.4
BLEED_MM: Final = 3.0
"""Printed beyond the trim, where ink runs to the edge (common practice, no source)."""

WIDEST_BLEED_MM: Final = 10.0
"""Own choice."""

GAP_MM: Final = 1.0
"""White between the bleed and a mark (own choice)."""

MARK_MM: Final = 5.0
"""How long a crop mark is (common practice, no source)."""

MARK_PT: Final = 0.25
"""How wide a crop mark is (common practice, no source)."""

FOLD_DASH: Final = "[3 1.5]"
"""Points of ink and of white in the mark of a fold (own choice)."""

BORDER_MM: Final = 1.0
"""White outside of the marks (own choice)."""

Line = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class Trim:
    """What is added around each page.

    bleed_mm: on all four sides; marks: with crop marks.
    folds_mm: where a cover is folded, from the left edge of the page.
    """

    bleed_mm: float = BLEED_MM
    marks: bool = True
    folds_mm: tuple[float, ...] = ()

    @property
    def bleed(self) -> float:
        """In points."""
        return self.bleed_mm * POINTS_PER_MM

    @property
    def edge(self) -> float:
        """From the sheet's edge to the trim, in points."""
        outside = GAP_MM + MARK_MM + BORDER_MM if self.marks else 0.0
        return (self.bleed_mm + outside) * POINTS_PER_MM

    def boxes(self, width: float, height: float) -> Mapping[str, Sequence[float]]:
        """The boxes of a page of this size: the sheet, what is printed, what is left when cut.

        Source: ISO 32000-1, 14.11.2 (page boundaries).
        """
        insets = {"/MediaBox": 0.0, "/BleedBox": self.edge - self.bleed, "/TrimBox": self.edge}
        far = 2 * self.edge
        return {
            name: [
                round(side, 4) for side in (inset, inset, width + far - inset, height + far - inset)
            ]
            for name, inset in insets.items()
        }

    def crop_marks(self, width: float, height: float) -> bytes:
        """The marks as a content stream: in black, folds in dashes; none where none are wanted."""
        if not self.marks:
            return b""
        crops, folds = (drawn(lines) for lines in (self.crops(width, height), self.folds(height)))
        return f"q 0 G {MARK_PT} w 0 J [] 0 d\n{crops}{FOLD_DASH} 0 d\n{folds}Q\n".encode()

    @property
    def reach(self) -> tuple[float, float]:
        """Where marks begin and end, from the sheet's edge."""
        end = self.edge - self.bleed - GAP_MM * POINTS_PER_MM
        return end - MARK_MM * POINTS_PER_MM, end

    def crops(self, width: float, height: float) -> Iterator[Line]:
        """The eight crop marks, in line with the trim, outside of the bleed."""
        far, near = self.reach
        right = width + 2 * self.edge
        for x in (self.edge, self.edge + width):
            yield from self.upright(x, height)
        for y in (self.edge, self.edge + height):
            yield far, y, near, y
            yield right - near, y, right - far, y

    def folds(self, height: float) -> Iterator[Line]:
        """Two marks for each fold, above and below the page."""
        for fold in self.folds_mm:
            yield from self.upright(self.edge + fold * POINTS_PER_MM, height)

    def upright(self, x: float, height: float) -> Iterator[Line]:
        """A mark below the page and one above it."""
        far, near = self.reach
        top = height + 2 * self.edge
        yield x, far, x, near
        yield x, top - near, x, top - far


def drawn(lines: Iterable[Line]) -> str:
    """Lines as operators."""
    return "".join(f"{a:.3f} {b:.3f} m {c:.3f} {d:.3f} l S\n" for a, b, c, d in lines)
