"""A publisher's spec of a book with a thousand drills, for the benchmarks."""

from typing import Final

DRILLS: Final = 1000
HANDS: Final = tuple(
    (pair, spacing) for pair in ("12", "23", "34") for spacing in ("half", "whole")
)

HEAD: Final = """
title = "A Thousand Crossings"
author = "Harbour Lane Strings"
instruments = ["violin"]
"""
CHAPTER: Final = """
[[chapter]]
title = "Fingers {fingers}, a {spacing} step"
text = "One hand, on every string."
take = "{take}"
hands = ["{fingers}"]
spacings = ["{spacing}"]
limit = {limit}
"""
SORTED: Final = """
strings = [["IV", "III", "II", "I"], ["IV", "III", "II"], ["III", "II", "I"]]
"""


def thousand(*, way: bool = False) -> str:
    """The spec: chapters that are sorted by hand, position, strings and stage; or ways."""
    found = HEAD
    for at, (fingers, spacing) in enumerate(HANDS):
        limit = DRILLS * (at + 1) // len(HANDS) - DRILLS * at // len(HANDS)
        take = "way" if way else "every"
        found += CHAPTER.format(fingers=fingers, spacing=spacing, take=take, limit=limit)
        found += "" if way else SORTED
    return found
