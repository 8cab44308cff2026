"""How a page lies on the sheet that is cut: trim, bleed, crop marks."""

from collections.abc import Iterator, Mapping, Sequence
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

BORDER_MM: Final = 1.0
"""White outside of the marks (own choice)."""

Line = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class Trim:
    """What is added around each page.

    bleed_mm: on all four sides; marks: with crop marks.
    """

    bleed_mm: float = BLEED_MM
    marks: bool = True

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
        """The crop marks as a content stream: in black, none where none are wanted."""
        if not self.marks:
            return b""
        lines = "".join(
            f"{a:.3f} {b:.3f} m {c:.3f} {d:.3f} l S\n" for a, b, c, d in self.lines(width, height)
        )
        return f"q 0 G {MARK_PT} w 0 J [] 0 d\n{lines}Q\n".encode()

    def lines(self, width: float, height: float) -> Iterator[Line]:
        """The eight marks, in line with the trim, outside of the bleed."""
        near = self.edge - self.bleed - GAP_MM * POINTS_PER_MM
        far = near - MARK_MM * POINTS_PER_MM
        right, top = width + 2 * self.edge, height + 2 * self.edge
        for x in (self.edge, self.edge + width):
            yield x, far, x, near
            yield x, top - near, x, top - far
        for y in (self.edge, self.edge + height):
            yield far, y, near, y
            yield right - near, y, right - far, y
