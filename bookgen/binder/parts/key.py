"""A key that is too long for the foot of a page, as a piece by itself."""

from collections.abc import Iterator

from bookgen.binder.page.canvas import Canvas
from bookgen.binder.page.frame import Frame, key_rows
from bookgen.binder.page.piece import Piece, Slot
from bookgen.binder.page.placed import Placed
from bookgen.binder.page.typeset import ASCENT, MM_PER_POINT
from bookgen.errors import told


def key_pieces(frame: Frame, above: float) -> Iterator[Piece]:
    """The key of a book whose foot does not have it; nothing where the foot has it.

    above: white above it, in millimetres.
    """
    rows = key_rows(frame.apart, frame.desk)
    if not rows:
        return

    def draw(canvas: Canvas, slot: Slot) -> Iterator[Placed]:
        baseline = slot.top - frame.desk.layout.text.small_pt * ASCENT * MM_PER_POINT
        for at, row in enumerate(rows):
            frame.draw_key(canvas, row, slot.left, baseline - at * frame.step)
        return iter(())

    called = told("the key of the signs")
    yield Piece(len(rows) * frame.step, draw, above=above, ruled=True, called=called)
