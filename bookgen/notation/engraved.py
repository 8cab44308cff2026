"""Engraved drills: pages of a PDF, and where the ink lies on each."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class InkBox:
    """The ink of one engraved drill on its page, in points, from the page's top left, y down.

    staff_top: top line of the first staff; staff_bottom: bottom line of the last one.
    systems: how many lines of music there are.
    """

    left: float
    top: float
    right: float
    bottom: float
    staff_top: float
    staff_bottom: float
    systems: int

    @property
    def width(self) -> float:
        """Width of the ink in points."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """Height of the ink in points."""
        return self.bottom - self.top


@dataclass(frozen=True, slots=True)
class EngravedDrill:
    """One drill: which file, which page of it (from 0), and its ink."""

    file: int
    page: int
    box: InkBox


@dataclass(frozen=True, slots=True)
class Engraving:
    """All engraved drills, in the order in which they were asked for.

    files: PDF files as LilyPond wrote them.
    """

    files: tuple[bytes, ...]
    drills: tuple[EngravedDrill, ...]
