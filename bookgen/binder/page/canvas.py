"""What a page drawing needs of the paper; ReportLab is one canvas, a test's list another."""

from collections.abc import Sequence
from contextlib import AbstractContextManager
from dataclasses import dataclass
from enum import StrEnum
from typing import Protocol

from bookgen.binder.structure.tag import Tag

Point = tuple[float, float]
"""Millimetres from the lower left corner of the page."""


class Face(StrEnum):
    """Which cut of the text face."""

    REGULAR = "regular"
    BOLD = "bold"
    ITALIC = "italic"


@dataclass(frozen=True, slots=True)
class Style:
    """How a piece of text is set.

    size: in points.
    """

    face: Face
    size: float


class Measure(Protocol):
    """What setting a line needs to know of the fonts."""

    def width(self, text: str, style: Style) -> float:
        """How wide the text runs, in millimetres."""


class Canvas(Measure, Protocol):
    """Black ink on a page. All lengths are in millimetres, gray is 0 for black to 1 for white."""

    def line(self, start: Point, end: Point, *, width: float, gray: float = 0.0) -> None:
        """Draw a straight line with round ends."""

    def dashes(self, start: Point, end: Point, *, width: float) -> None:
        """Draw a straight line in dashes."""

    def spot(self, centre: Point, *, radius: float, gray: float = 0.0) -> None:
        """Draw a filled round spot."""

    def ring(self, centre: Point, *, radius: float, width: float) -> None:
        """Draw the outline of a circle."""

    def box(self, corner: Point, size: Point, *, width: float) -> None:
        """Draw the outline of a box; the corner is the lower left one."""

    def shape(self, corners: Sequence[Point], *, gray: float = 0.0) -> None:
        """Draw a filled shape."""

    def curve(self, start: Point, one: Point, other: Point, end: Point, *, width: float) -> None:
        """Draw a Bézier curve with round ends; one and other are its control points."""

    def text(self, start: Point, text: str, style: Style, *, gray: float = 0.0) -> None:
        """Set one line of text; the start is where its baseline begins."""

    def tagged(self, tag: Tag) -> AbstractContextManager[None]:
        """What is drawn meanwhile belongs to a tag, where pages tell what is read on them."""

    def reading(self, *tags: Tag) -> None:
        """These are read one after the other, in whatever order they are drawn."""

    def begin(self, title: str, level: int) -> None:
        """A section of the book begins, which has that entry in the outline."""
