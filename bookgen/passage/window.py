"""What makes another fingering really different: where it has to differ from the best one."""

from collections.abc import Sequence
from math import ceil
from typing import Final

from bookgen.passage.cheapest import Way
from bookgen.passage.elsewhere import Window, choices
from bookgen.passage.lattice import Column, Steps

FEWEST: Final = 4
"""Sounds that have to differ at least, where the phrase has as many; own choice."""

SHARE: Final = 0.125
"""Part of the sounds of a phrase that has to differ at least; own choice."""

ENOUGH: Final = 16
"""So many sounds are enough, however long the phrase is; own choice."""


def windows_of(columns: Sequence[Column], best: Way, steps: Steps) -> list[Window]:
    """Cut a phrase into the windows in one of which another way has to differ.

    Another way is really different when in a whole window the hand lies elsewhere than in the
    best one and every sound has other stops. Sounds that the best way plays on open strings
    alone are free, and so are those that nothing else can play. A window is a placement of the
    best way, or one bar of it, as soon as that has the least number of sounds that are not free;
    shorter ones are joined to what follows. What is too short at the end is joined to the window
    before it.
    """
    counts = [not all(choices(column, node)) for column, node in zip(columns, best, strict=True)]
    if not any(counts):
        return []
    least = min(max(FEWEST, ceil(sum(counts) * SHARE)), ENOUGH)
    cuts, count = [0], 0
    for index, counted in enumerate(counts):
        if count >= least and new(columns, best, steps, index):
            cuts.append(index)
            count = 0
        count += counted
    if count < least and len(cuts) > 1:
        cuts.pop()
    ends = [*cuts[1:], len(best)]
    return [Window(first, end - 1) for first, end in zip(cuts, ends, strict=True)]


def new(columns: Sequence[Column], best: Way, steps: Steps, index: int) -> bool:
    """Whether a bar or a placement begins at a column."""
    if columns[index].event.bar != columns[index - 1].event.bar:
        return True
    before, node = best[index - 1], best[index]
    if not node.pose.place:
        return False
    return before.place != node.place or not steps.stays(before.pose, node.pose)
