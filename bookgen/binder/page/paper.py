"""The papers with their margins, and the refusal of what has no room on them."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Final

from bookgen.errors import Message, RefusedError, Said, told
from bookgen.model.units import Millimetres

PAPERS: Final[Mapping[str, tuple[float, float]]] = {
    "a4": (210.0, 297.0),  # ISO 216
    "a5": (148.0, 210.0),  # ISO 216
    "letter": (215.9, 279.4),  # ANSI Y14.1, size A
    "half-letter": (139.7, 215.9),  # half of size A
}
"""Width and height of the papers in millimetres, upright."""

SMALLEST_COLUMN_MM: Final = 90.0
"""Own choice: a narrower column leaves chart and words no room beside each other."""


class NoRoomError(RefusedError):
    """A part does not fit its page: the layout's type or staff is too large for the paper."""

    def __init__(self, part: Said, needs: float, has: float, *, wide: bool = False) -> None:
        """Name the part.

        needs, has: millimetres; wide: of width, not of height.
        """
        super().__init__("no-room", part=str(part), needs=needs, has=has, wide=wide)
        facts = {"part": part, "needs": f"{needs:.1f}", "has": f"{has:.1f}"}
        self.message: Message = (
            told("{part} needs {needs} mm of width; there are {has} mm", **facts)
            if wide
            else told("{part} needs {needs} mm of height; there are {has} mm", **facts)
        )


@dataclass(frozen=True, slots=True)
class Margins:
    """White around the page's contents, in millimetres."""

    top: float
    right: float
    bottom: float
    left: float


@dataclass(frozen=True, slots=True)
class Sheet:
    """A paper with its margins, in millimetres."""

    width: float
    height: float
    margins: Margins

    @property
    def column(self) -> Millimetres:
        """Width between the side margins: the longest line of music and words."""
        return Millimetres(self.width - self.margins.left - self.margins.right)

    @property
    def top(self) -> Millimetres:
        """Where the contents begin, counted from the paper's lower edge."""
        return Millimetres(self.height - self.margins.top)

    @property
    def bottom(self) -> Millimetres:
        """Where the contents end, counted from the paper's lower edge."""
        return Millimetres(self.margins.bottom)

    @property
    def mirrored(self) -> "Sheet":
        """The sheet as a left-hand page."""
        margins = self.margins
        turned = replace(margins, left=margins.right, right=margins.left)
        return replace(self, margins=turned)


def refuse_narrow(sheet: Sheet) -> None:
    """Margins must leave room for music.

    Raises:
        NoRoomError: the column is too narrow, or higher than it is open.
    """
    if sheet.column < SMALLEST_COLUMN_MM:
        part = told("music between the left and the right margin")
        raise NoRoomError(part, SMALLEST_COLUMN_MM, sheet.column, wide=True)
    if sheet.top - sheet.bottom < SMALLEST_COLUMN_MM:
        part = told("a drill between the upper and the lower margin")
        raise NoRoomError(part, SMALLEST_COLUMN_MM, sheet.top - sheet.bottom)
