"""Letters that run from right to left: their order on the line, and which of them join."""

import re
import unicodedata
from typing import Final

from bidi.algorithm import get_display

RIGHT: Final = re.compile("[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufefc]")
"""Hebrew, Arabic and their neighbours (The Unicode Standard, names of the blocks)."""

OPEN, CLOSE = "\N{FIRST STRONG ISOLATE}", "\N{POP DIRECTIONAL ISOLATE}"
NAME: Final = re.compile(f"({OPEN}[^{CLOSE}]*{CLOSE}?)")
ISOLATES: Final = dict.fromkeys(map(ord, (OPEN, CLOSE)))


def isolated(text: str) -> str:
    """Words of another that do not change the order of a sentence in which they stand."""
    return f"{OPEN}{text}{CLOSE}" if RIGHT.search(text) else text


def bare(text: str) -> str:
    """The words without what isolates them, for places that are not drawn by us."""
    return text.translate(ISOLATES)


def in_visual_order(text: str) -> str:
    """The characters of a line of left-to-right words from left to right as they are printed.

    >>> in_visual_order("Ines \u05d0\u05d1 12")
    'Ines 12 \u05d1\u05d0'
    """
    if not RIGHT.search(text):
        return bare(text)
    return "".join(
        turned(bare(part), None if part.startswith(OPEN) else "L") for part in NAME.split(text)
    )


def turned(text: str, direction: str | None) -> str:
    """Words in visual order by Unicode's algorithm; None takes the direction of the first letter.

    The algorithm of the library that mirrors brackets, which knows no isolates.
    """
    return str(get_display(text, base_dir=direction)) if text else ""


def joins(character: str) -> bool:
    """The letter's form hangs on its neighbours."""
    return unicodedata.bidirectional(character) == "AL"
