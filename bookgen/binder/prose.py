"""Paragraphs under each other: headings, text and items, measured and drawn."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from bookgen.binder.canvas import Canvas, Face, Measure, Style
from bookgen.binder.typeset import (
    ASCENT,
    MM_PER_POINT,
    Line,
    Paragraph,
    draw_line,
    line_height,
    wrap,
)


@dataclass(frozen=True, slots=True)
class Look:
    """How the paragraphs of one part are set.

    size: in points; above: white before them; indent: of all lines; hang: more for all lines but
        the first, all in millimetres.
    bullet: printed before the first line, in the indent; heads: never the last of a column.
    """

    size: float
    above: float = 0.0
    indent: float = 0.0
    hang: float = 0.0
    bullet: str = ""
    heads: bool = False


@dataclass(frozen=True, slots=True)
class Set:
    """One paragraph in lines."""

    look: Look
    lines: tuple[Line, ...]
    step: float

    @property
    def height(self) -> float:
        """Height of its lines in millimetres, without the white above."""
        return len(self.lines) * self.step


def set_prose(
    found: Sequence[Paragraph],
    looks: Mapping[str, Look],
    width: float,
    leading: float,
    measure: Measure,
) -> list[Set]:
    """Break paragraphs into lines; what has no look is left out.

    width: of the column, in millimetres.
    """
    return [
        set_one(paragraph, looks[paragraph.part], width, leading, measure)
        for paragraph in found
        if paragraph.part in looks
    ]


def set_one(
    paragraph: Paragraph, look: Look, width: float, leading: float, measure: Measure
) -> Set:
    """Break one paragraph into lines."""
    room = width - look.indent - look.hang
    lines = wrap(paragraph.pieces, room, look.size, measure)
    return Set(look, tuple(lines), line_height(look.size, leading))


def height_of(sets: Sequence[Set]) -> float:
    """Height of paragraphs under each other; the first has no white above."""
    return sum(one.height for one in sets) + sum(one.look.above for one in sets[1:])


def draw_prose(canvas: Canvas, sets: Sequence[Set], left: float, top: float) -> float:
    """Draw paragraphs under each other.

    Returns:
        Where they end, from the paper's lower edge.
    """
    for index, one in enumerate(sets):
        look = one.look
        top -= look.above if index else 0.0
        baseline = top - look.size * ASCENT * MM_PER_POINT
        if look.bullet:
            canvas.text((left, baseline), look.bullet, Style(Face.REGULAR, look.size))
        for row, line in enumerate(one.lines):
            x = left + look.indent + (look.hang if row else 0.0)
            draw_line(canvas, (x, baseline - row * one.step), line, look.size)
        top -= one.height
    return top


def share_columns(sets: Sequence[Set], room: float) -> list[list[Set]]:
    """Fill columns of that height one after the other; no heading ends a column."""
    columns: list[list[Set]] = []
    column: list[Set] = []
    for group in with_headings(sets):
        if column and height_of([*column, *group]) > room:
            columns.append(column)
            column = []
        column.extend(group)
    return [*columns, column] if column else columns


def with_headings(sets: Sequence[Set]) -> list[list[Set]]:
    """Paragraphs one by one, but headings together with what they head."""
    groups: list[list[Set]] = []
    for one in sets:
        if groups and groups[-1][-1].look.heads:
            groups[-1].append(one)
        else:
            groups.append([one])
    return groups


def balanced(sets: Sequence[Set], room: float, count: int) -> list[list[Set]]:
    """The lowest columns that hold everything."""
    low, high = 0.0, room
    while high - low > 1.0:
        middle = (low + high) / 2
        if len(share_columns(sets, middle)) <= count:
            high = middle
        else:
            low = middle
    return share_columns(sets, high)
