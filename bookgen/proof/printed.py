"""What stands on a finished page: words, music and shapes with their places, as a reader sees them.

Lengths are points from the page's lower left corner.
"""

from collections.abc import Iterable, Iterator

import msgspec


class Box(msgspec.Struct, frozen=True, gc=False):
    """Where something lies."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def middle(self) -> tuple[float, float]:
        """Its middle."""
        return (self.left + self.right) / 2, (self.bottom + self.top) / 2

    @property
    def width(self) -> float:
        """From left to right."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """From bottom to top."""
        return self.top - self.bottom

    def holds(self, point: tuple[float, float]) -> bool:
        """Whether a point lies in it."""
        return self.left <= point[0] <= self.right and self.bottom <= point[1] <= self.top


class Run(msgspec.Struct, frozen=True, gc=False):
    """Characters that are set together.

    x, y: where their baseline begins; size: of the type; face: its name in the file.
    white: words set in white; music: which piece of engraved music they belong to, or None.
    """

    text: str
    x: float
    y: float
    size: float
    face: str
    white: bool
    box: Box
    music: int | None


class Shape(msgspec.Struct, frozen=True, gc=False):
    """A line or an area.

    stroke: how thick it is drawn, 0 where it is not; dark, light: filled in black, or in white.
    """

    box: Box
    stroke: float
    dark: bool
    light: bool
    music: int | None


class Page(msgspec.Struct, frozen=True, gc=False):
    """A page.

    label: its number as readers show it; music: the boxes of the pieces of music on it.
    """

    label: str
    runs: tuple[Run, ...]
    shapes: tuple[Shape, ...]
    music: tuple[Box, ...]

    @property
    def words(self) -> Iterator[Run]:
        """What is set by us, not by the engraver, in the order in which it is drawn."""
        return (run for run in self.runs if run.music is None)

    @property
    def text(self) -> str:
        """All words without what parts them."""
        return bare("".join(run.text for run in self.words))


def bare(text: str) -> str:
    """Words without white space and hidden signs, which lines and pages change.

    >>> bare("Drills 1, 2")
    'Drills1,2'
    """
    close = "".join(text.split())
    return close if close.isprintable() else "".join(filter(str.isprintable, close))


def around(boxes: Iterable[Box]) -> Box:
    """The box that holds others; there is one at least."""
    lefts, bottoms, rights, tops = zip(
        *((box.left, box.bottom, box.right, box.top) for box in boxes), strict=True
    )
    return Box(min(lefts), min(bottoms), max(rights), max(tops))
