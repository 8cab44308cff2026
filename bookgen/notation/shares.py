"""How drills are shared out to processes of LilyPond."""

from collections.abc import Sequence
from itertools import accumulate, pairwise
from typing import Final

from bookgen.model.instrument import Instrument
from bookgen.notation.drill_score import DrillScore

TWO_PROCESSES_FROM: Final = 600
"""Events from which two processes are faster than one (measured on two cores)."""


def shares_of(
    scores: Sequence[DrillScore], instrument: Instrument, *, split: bool
) -> list[tuple[int, int]]:
    """Which drills each process engraves: from the first to before the second.

    split: many go to two.
    """
    middle = middle_of([len(score.events(instrument)) for score in scores]) if split else 0
    return list(pairwise([0, middle, len(scores)] if middle else [0, len(scores)]))


def middle_of(events: Sequence[int]) -> int:
    """How many drills the first of two processes gets; 0 where one process takes them all.

    Few are engraved by one process; many by two, which get about the same number of events.

    events: of each drill.
    """
    total = sum(events)
    if total < TWO_PROCESSES_FROM or len(events) == 1:
        return 0
    sums = list(accumulate(events))
    return min(range(1, len(events)), key=lambda cut: abs(2 * sums[cut - 1] - total))
