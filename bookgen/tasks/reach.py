"""What the user is told of positions and fingers that a long booklet does not reach."""

from collections.abc import Iterator
from functools import partial
from typing import Final

from bookgen.errors import Message, told
from bookgen.planner.reach import unreached
from bookgen.studio.practice_log import PracticeLog
from bookgen.tasks.plans import Printing, known_of
from bookgen.tasks.span import Span
from bookgen.tasks.wish import NOTHING_KNOWN, Asked
from bookgen.words.reach import places, steps_further
from bookgen.words.speech import Phrase

MONTH: Final = 28
"""Days from which a booklet ought to reach all that is asked for."""


def reach_lines(
    asked: Asked, span: Span, log: PracticeLog | None, printing: Printing
) -> Iterator[Message]:
    """What is not reached in a month, and why; nothing where something is wished for the days."""
    short = (span.last - span.first).days + 1 < MONTH
    if short or asked.is_stranger or asked.wished is not None:
        return
    known = NOTHING_KNOWN if log is None or not asked.name else known_of(log, asked.name)
    drills = [entry.drill for entry in printing.plan.drills]
    found = unreached(asked.request(span.first, known), drills)
    later = [one for one in found if one.steps is not None]
    if later:
        cells = [(one.cell.position, one.cell.fingers) for one in later]
        furthest = max(one.steps or 0 for one in later)
        yield told(
            "{player}: not reached in {span}, as each hand goes through its stages first: {places};"
            " {steps}: plan on, or cover less",
            player=asked.name or "",
            span=span.name,
            places=Phrase(partial(places, cells)),
            steps=Phrase(partial(steps_further, furthest)),
        )
    never = [(one.cell.position, one.cell.fingers) for one in found if one.steps is None]
    if never:
        yield told(
            "{player}: nothing leads to {places}; cover the positions between as well",
            player=asked.name or "",
            places=Phrase(partial(places, never)),
        )
