"""A drill's block, measured: where number, boxes, words, chart and music stand."""

from dataclasses import dataclass
from enum import StrEnum

from bookgen.binder.page.canvas import Point
from bookgen.binder.page.typeset import MM_PER_POINT, Line
from bookgen.binder.parts.chart.measured import Chart
from bookgen.errors import Message, told
from bookgen.notation.engraved import InkBox


class Part(StrEnum):
    """Of which part of a block's words a line is, in the order in which they are read."""

    TITLE = "title"
    LINK = "link"
    ASIDE = "aside"
    BELOW = "below"


@dataclass(frozen=True, slots=True)
class PlacedLine:
    """A line of words: its left end and its baseline in millimetres, y downwards.

    part: of the block's words.
    """

    at: Point
    line: Line
    size: float
    part: Part = Part.TITLE


@dataclass(frozen=True, slots=True)
class PlacedMusic:
    """Engraved music: which of the engraving's, where its ink begins, and its return sign.

    turn: left end of the sign on the middle line of the last staff, or None without one.
    """

    index: int
    at: Point
    ink: InkBox
    turn: Point | None

    @property
    def bottom(self) -> float:
        """Where its ink ends."""
        return self.at[1] + self.ink.height * MM_PER_POINT


@dataclass(frozen=True, slots=True)
class Blank:
    """A rule on which an interval is to be named; above it, which strings it crosses."""

    at: Point
    width: float
    words: PlacedLine


@dataclass(frozen=True, slots=True)
class Block:
    """A drill's block. Points are millimetres from its upper left corner, y downwards.

    boxes: upper left corners of boxes to tick; chart_at: upper left corner of the chart.
    to: the number of the drill that it names as the one that it is like, or None.
    """

    number: int
    height: float
    lines: tuple[PlacedLine, ...]
    boxes: tuple[Point, ...]
    box_mm: float
    chart: Chart
    chart_at: Point
    music: PlacedMusic | None
    blanks: tuple[Blank, ...]
    signs: frozenset[str]
    outline: str
    to: int | None = None

    @property
    def called(self) -> Message:
        """The block in a finding."""
        return called(self.number)


def called(number: int) -> Message:
    """A drill in a finding."""
    return told("drill {number}", number=number)
