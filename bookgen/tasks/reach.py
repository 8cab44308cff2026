"""What of a player's area a long booklet does not reach, and what the user is told of it."""

from collections.abc import Iterator, Sequence
from functools import partial
from typing import Final

from bookgen.errors import Message, told
from bookgen.plan.ahead import Unreached
from bookgen.plan.document import Plan
from bookgen.planner.reach import unreached
from bookgen.studio.practice_log import PracticeLog
from bookgen.tasks.plans import Printing, known_of
from bookgen.tasks.span import Span
from bookgen.tasks.wish import NOTHING_KNOWN, Asked
from bookgen.words.reach import places, steps_further
from bookgen.words.speech import Phrase

MONTH: Final = 28
"""Days from which a booklet ought to reach all that is asked for."""


def unreached_in(
    asked: Asked, span: Span, log: PracticeLog | None, printing: Printing
) -> tuple[Unreached, ...]:
    """What is not reached in a month; nothing where something is wished for the days."""
    short = (span.last - span.first).days + 1 < MONTH
    if short or asked.is_stranger or asked.wished is not None:
        return ()
    known = NOTHING_KNOWN if log is None or not asked.name else known_of(log, asked.name)
    drills = [entry.drill for entry in printing.plan.drills]
    return tuple(unreached(asked.request(span.first, known), drills))


def reach_lines(plan: Plan, span: Span) -> Iterator[Message]:
    """What the user is told of what is not reached, and why."""
    found: Sequence[Unreached] = plan.binding.unreached if plan.binding else ()
    later = [one for one in found if one.steps is not None]
    if later:
        yield told(
            "{player}: not reached in {span}, as each hand goes through its stages first: {places};"
            " {steps}: plan on, or cover less",
            player=plan.player or "",
            span=span.name,
            places=Phrase(partial(places, later)),
            steps=Phrase(partial(steps_further, later)),
        )
    never = [one for one in found if one.steps is None]
    if never:
        yield told(
            "{player}: nothing leads to {places}; cover the positions between as well",
            player=plan.player or "",
            places=Phrase(partial(places, never)),
        )
