"""A table of words: columns as wide as they ask for; where they ask for too much, cells break."""

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Final

from bookgen.binder.page.canvas import Canvas, Face, Style
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.piece import Piece, Slot
from bookgen.binder.page.placed import Placed
from bookgen.binder.page.typeset import ASCENT, MM_PER_POINT, draw_line, line_height, wrap

GAP_MM: Final = 2.4
"""White between two columns."""

WHITE_MM: Final = 0.8
"""White above and below the words of a row."""

RULE_MM: Final = 0.2
RULE_GRAY: Final = 0.45
NOTHING: Final[Mapping[int, float]] = {}


def widths_of(
    rows: Sequence[Sequence[str]],
    desk: Desk,
    *,
    drawn: Mapping[int, float] = NOTHING,
    typed: Mapping[int, float] = NOTHING,
) -> tuple[float, ...] | None:
    """The width of each column in millimetres, with the white behind it; the last has the rest.

    Where there is too little room the widest columns give way, but none below its longest word.

    rows: all of them, the heads first.
    drawn: the width of what is drawn in a column, by its index.
    typed: most of the width for a column of users' words, which may be cut.
    Returns None where even the longest words have no room beside each other.
    """
    style, whole = Style(Face.BOLD, desk.layout.text.small_pt), desk.sheet.column
    columns = [*zip(*rows, strict=True)]

    def widest(texts: Iterable[str]) -> float:
        return max((desk.fonts.width(f"{text} ", style) for text in texts), default=0.0) + GAP_MM

    least = [widest(word for cell in column for word in cell.split()) for column in columns]
    most = [widest(column) for column in columns]
    for at, width in drawn.items():
        least[at] = most[at] = max(least[at], width + GAP_MM)
    for at, width in typed.items():
        least[at], most[at] = min(least[at], width), min(most[at], width)
    if sum(least) > whole:
        return None
    widths = next(
        found
        for cap in range(math.ceil(whole), -1, -1)
        if sum(found := [*map(max, least, (min(cap, width) for width in most))]) <= whole
    )
    return (*widths[:-1], whole - sum(widths[:-1]))


def table_row(
    cells: Sequence[str], widths: Sequence[float], faces: Sequence[Face], desk: Desk
) -> Piece:
    """One row with a thin rule below it, as high as its longest cell asks for.

    faces: the cut of each cell.
    """
    text = desk.layout.text
    step = line_height(text.small_pt, text.leading)
    broken = [
        wrap([(cell, face)], width - GAP_MM, text.small_pt, desk.fonts)
        for cell, face, width in zip(cells, faces, widths, strict=True)
    ]
    height = max(1, *map(len, broken)) * step + 2 * WHITE_MM

    def draw(canvas: Canvas, slot: Slot) -> Iterator[Placed]:
        baseline, left = first_baseline(slot.top, desk), slot.left
        for lines, width in zip(broken, widths, strict=True):
            for down, line in enumerate(lines):
                draw_line(canvas, (left, baseline - down * step), line, text.small_pt)
            left += width
        y = slot.top - height
        canvas.line((slot.left, y), (slot.left + slot.width, y), width=RULE_MM, gray=RULE_GRAY)
        return iter(())

    return Piece(height, draw, called=cells[0])


def first_baseline(top: float, desk: Desk) -> float:
    """Where the first line of a row stands whose upper edge is there, in millimetres."""
    return top - WHITE_MM - desk.layout.text.small_pt * ASCENT * MM_PER_POINT
