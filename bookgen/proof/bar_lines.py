"""The bar lines of a staff as they are printed: short ones, double ones, the one at the end."""

from collections.abc import Iterator, Sequence
from enum import StrEnum
from typing import Final

from bookgen.proof.printed import Shape

ON_LINE: Final = 0.06
"""Ends of a bar line may be off a line of the staff by that, in its spaces."""

THIN: Final = 0.3
"""The thick line of the last bar is wider, the others are finer, in spaces."""

TOGETHER: Final = 1.2
"""Two lines of one bar are nearer, in spaces."""

ENDS: Final = ((1, 3), (0, 4))
"""Lines of the staff, from the lowest, between which a short line stands, and a whole one."""


class BarLine(StrEnum):
    """A bar line: short in the middle of the staff, one line, two of them, the last one thick."""

    SHORT = "short"
    SINGLE = "single"
    DOUBLE = "double"
    FINAL = "final"


def bars_on(
    bottom: float, space: float, shapes: Sequence[Shape]
) -> Iterator[tuple[float, BarLine]]:
    """The bar lines of a staff from left to right, each with its left edge.

    bottom: of its lowest line; space: from line to line; shapes: of the piece of music.
    """
    upright = (shape for shape in shapes if shape.dark and shape.box.width < space)
    placed = ((shape, ends_of(shape, bottom, space)) for shape in upright)
    lines = sorted(
        ((shape.box, ends) for shape, ends in placed if ends in ENDS), key=lambda one: one[0].left
    )
    while lines:
        (box, ends), *others = lines
        with_it = [other for other in others if other[0].left - box.right < TOGETHER * space]
        lines = others[len(with_it) :]
        thick = any(other.width > THIN * space for other, _ in with_it)
        if ends == ENDS[0]:
            yield box.left, BarLine.SHORT
        elif with_it:
            yield box.left, BarLine.FINAL if thick else BarLine.DOUBLE
        else:
            yield box.left, BarLine.SINGLE


def ends_of(shape: Shape, bottom: float, space: float) -> tuple[int, int] | None:
    """The lines of the staff, from 0, at which a line begins and ends; None where it does not."""
    ends = [(y - bottom) / space for y in (shape.box.bottom, shape.box.top)]
    low, high = map(round, ends)
    return (low, high) if all(abs(end - round(end)) < ON_LINE for end in ends) else None
