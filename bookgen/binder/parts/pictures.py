"""A chart or engraved music by itself, as a picture."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import Final

from bookgen.binder.page.canvas import Canvas
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.piece import Slot
from bookgen.binder.page.placed import Placed, placed
from bookgen.binder.page.signs import RETURN_MM, Sign, draw_return
from bookgen.binder.page.typeset import MM_PER_POINT
from bookgen.binder.parts.chart.drawing import draw_chart
from bookgen.binder.parts.chart.measured import Chart
from bookgen.binder.structure.tag import Role, Tag
from bookgen.notation.engraved import InkBox

TURN_MM: Final = 1.0
"""From the end of the music to its return sign."""


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture, measured in millimetres.

    draw: with its upper left corner in the slot; tells where music goes.
    signs: for the page's key.
    """

    width: float
    height: float
    draw: Callable[[Canvas, Slot], Iterable[Placed]]
    signs: frozenset[str] = frozenset()


def chart_picture(chart: Chart, desk: Desk, signs: frozenset[str]) -> Picture:
    """A chart by itself.

    signs: on it, for the page's key.
    """

    def draw(canvas: Canvas, slot: Slot) -> Iterator[Placed]:
        draw_chart(canvas, chart, desk, slot.left, slot.top)
        return iter(())

    return Picture(chart.end, chart.height, draw, signs)


def music_picture(index: int, ink: InkBox, desk: Desk, *, turns: bool) -> Picture:
    """Engraved music by itself.

    index: which of the engraving's; turns: the return sign stands at its end.
    """
    wide, high = ink.width * MM_PER_POINT, ink.height * MM_PER_POINT
    staff = desk.layout.music.staff_height_mm
    middle = (ink.staff_bottom - ink.top) * MM_PER_POINT - staff / 2

    def draw(canvas: Canvas, slot: Slot) -> Iterator[Placed]:
        tag = Tag(Role.FIGURE)
        if turns:
            with canvas.tagged(tag):
                draw_return(canvas, (slot.left + wide + TURN_MM, slot.top - middle), staff)
        yield placed(slot.page, index, (slot.left, slot.top), tag)

    signs: frozenset[str] = frozenset({Sign.RETURN}) if turns else frozenset()
    return Picture(wide + RETURN_MM * turns, high, draw, signs)
