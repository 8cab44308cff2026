"""Where on our pages engraved music goes."""

from dataclasses import dataclass

from bookgen.binder.page.canvas import Point
from bookgen.binder.page.fonts import POINTS_PER_MM


@dataclass(frozen=True, slots=True)
class Placed:
    """Where a drill's music goes.

    page: from 0; drill: which of the engraving's; left, top: of its ink, in points from the
    page's lower left corner.
    """

    page: int
    drill: int
    left: float
    top: float


def placed(page: int, drill: int, corner: Point) -> Placed:
    """A place given in millimetres from the page's lower left corner."""
    return Placed(page, drill, corner[0] * POINTS_PER_MM, corner[1] * POINTS_PER_MM)
