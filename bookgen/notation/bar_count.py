"""Which bars of a piece stand on each line of its music, counted by the bar lines."""

import re
import zlib
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Final

from bookgen.notation.engraved import EngravedDrill

RECTANGLE: Final = re.compile(rb"(-?[\d.]+) (-?[\d.]+) (-?[\d.]+) (-?[\d.]+) re f")
OFF_PT: Final = 0.3
THICKEST_PT: Final = 4.0
TOGETHER_PT: Final = 6.0
"""Lines of one bar line are nearer."""

OPEN_PT: Final = 20.0
"""From the last bar line to the end of a line of music, where that ends within a bar."""


def bars_of_lines(lines: Sequence[EngravedDrill], bars: int) -> list[range] | None:
    """The bars of each line, from 0; a bar that goes on in the next line stands on both.

    bars: how many there are. None where there are more bar lines than bars, or fewer: a repeat
    that begins within a line is as good as one.
    """
    found: list[range] = []
    done = 0
    for line in lines:
        ends = [*bar_ends(line)]
        open_end = not ends or line.box.right - ends[-1] > OPEN_PT
        found.append(range(done, min(done + len(ends) + open_end, bars)))
        done += len(ends)
    return found if done == bars else None


def bar_ends(line: EngravedDrill) -> Iterator[float]:
    """Where bars end on a line of music, from left to right, in points."""
    box = line.box
    high = box.staff_bottom - box.staff_top
    every = (
        tuple(map(float, one)) for one in RECTANGLE.findall(zlib.decompress(line.plate.drawing))
    )
    upright = sorted(
        (x, x + wide)
        for x, y, wide, height in every
        if abs(y - box.staff_top) < OFF_PT and abs(height - high) < OFF_PT and wide < THICKEST_PT
    )
    for (_, right), (left, _) in pairwise([*upright, (float("inf"), 0.0)]):
        if left - right > TOGETHER_PT:
            yield right
