"""The digits that the bars of a book's number stand for, read from the bars alone."""

from collections.abc import Sequence
from typing import Final

from bookgen.proof.printed import Shape

LEAST_PT: Final = 50.0
"""Bars are higher: 22.85 mm at full size, and no cover has them below 80 %."""

WIDEST_PT: Final = 8.0
"""A bar has four modules at most."""

MODULES: Final = 95
DIGIT: Final = 7
LEFT, RIGHT = 3, 50
"""Where the two halves of six digits begin, in modules."""

ODD: Final = (
    *("0001101", "0011001", "0010011", "0111101", "0100011"),
    *("0110001", "0101111", "0111011", "0110111", "0001011"),
)
"""Number set A of EAN-13, by digit; C has black for white, B is C backwards (ISO/IEC 15420:2009,
table 1; from memory)."""

FIRST: Final = (
    *("AAAAAA", "AABABB", "AABBAB", "AABBBA", "ABAABB"),
    *("ABBAAB", "ABBBAA", "ABABAB", "ABABBA", "ABBABA"),
)
"""The number sets of the left half, by the first digit (ISO/IEC 15420:2009, table 3; from
memory)."""


def digits_of(shapes: Sequence[Shape]) -> str | None:
    """Thirteen digits; a question mark for bars that are no digit; None where there are no bars."""
    bars = [
        shape.box
        for shape in shapes
        if shape.dark and shape.box.height > LEAST_PT and shape.box.width < WIDEST_PT
    ]
    if not bars:
        return None
    left = min(box.left for box in bars)
    module = (max(box.right for box in bars) - left) / MODULES
    black = {
        at
        for box in bars
        for at in range(round((box.left - left) / module), round((box.right - left) / module))
    }
    modules = "".join("1" if at in black else "0" for at in range(MODULES))
    halves = [
        [modules[start + DIGIT * at : start + DIGIT * (at + 1)] for at in range(6)]
        for start in (LEFT, RIGHT)
    ]
    sets, begun = zip(*map(left_digit, halves[0]), strict=True)
    ended = [digit_in(swapped(one)) for one in halves[1]]
    used = "".join(sets)
    first = str(FIRST.index(used)) if used in FIRST else UNREADABLE
    return "".join((first, *begun, *ended))


UNREADABLE: Final = "?"


def left_digit(modules: str) -> tuple[str, str]:
    """The number set and the digit of modules in the left half."""
    if modules in ODD:
        return "A", digit_in(modules)
    return "B", digit_in(swapped(modules[::-1]))


def digit_in(modules: str) -> str:
    """A digit of number set A."""
    return str(ODD.index(modules)) if modules in ODD else UNREADABLE


def swapped(modules: str) -> str:
    """Black for white."""
    return modules.translate(str.maketrans("01", "10"))
