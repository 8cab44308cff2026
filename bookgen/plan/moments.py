"""The moments of a drill one by one: in which bar and on which way each stands."""

from collections.abc import Iterator
from dataclasses import dataclass

from bookgen.plan.document import DrillEntry, EventEntry


@dataclass(frozen=True, slots=True)
class Moment:
    """What sounds at once.

    turn: which of the drill's moments it is, from 1; bar: in which of its bars, from 1.
    back: on the way back.
    """

    turn: int
    bar: int
    back: bool
    event: EventEntry


def moments_of(entry: DrillEntry) -> Iterator[Moment]:
    """The moments of a drill in the order of play; a bar is one laying of the hand."""
    bar, back = 1, False
    for turn, event in enumerate(entry.events, start=1):
        bar += event.begins is not None
        back = back or event.begins == "turn"
        yield Moment(turn, bar, back, event)
