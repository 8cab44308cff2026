"""Where on our pages engraved music goes."""

from dataclasses import dataclass, field

from bookgen.binder.page.canvas import Point
from bookgen.binder.page.fonts import POINTS_PER_MM
from bookgen.binder.structure.tag import Tag


@dataclass(frozen=True, slots=True)
class Placed:
    """Where a drill's music goes.

    page: from 0; drill: which of the engraving's; left, top: of its ink, in points from the
    page's lower left corner.
    tag: where it is read, if not where it is drawn; mark: with which it is marked, or nothing.
    """

    page: int
    drill: int
    left: float
    top: float
    tag: Tag | None = field(default=None, compare=False)
    mark: str = ""


def placed(page: int, drill: int, corner: Point, tag: Tag | None = None) -> Placed:
    """A place given in millimetres from the page's lower left corner."""
    return Placed(page, drill, corner[0] * POINTS_PER_MM, corner[1] * POINTS_PER_MM, tag)
