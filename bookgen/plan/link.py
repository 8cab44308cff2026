"""What ties two drills: what changes, what the hand keeps, and what the ear has met before."""

from collections.abc import Sequence
from typing import Final

from bookgen.errors import RefusedError
from bookgen.model.dimension import Dimension
from bookgen.model.drill import Drill
from bookgen.model.event import Begins, Event
from bookgen.plan.document import Keeps

Crossings = tuple[frozenset[str], frozenset[str]]
"""The intervals at the crossings of the way up, and of the way back."""

OTHER_HAND: Final = frozenset(
    {Dimension.PAIR, Dimension.FINGERS, Dimension.PLACE, Dimension.OCTAVE}
)
"""Changes after which the drill before was in other fingers or another place."""


def change(before: Drill, after: Drill) -> Dimension:
    """The one thing in which two linked drills differ.

    Raises:
        RefusedError: they differ in nothing, or in more than one thing.
    """
    changes = before.changes_to(after)
    if len(changes) != 1:
        told = ", ".join(changes) or "null"
        raise RefusedError("plan-link-drills", before=before.key, after=after.key, changes=told)
    return changes[0]


def kept(before: Drill, after: Drill) -> tuple[Keeps, ...]:
    """What the hand keeps from one drill to the next.

    Raises:
        RefusedError: they differ in nothing, or in more than one thing.
    """
    match change(before, after):
        case Dimension.PAIR:
            return kept_by_pair(before, after)
        case Dimension.FINGERS:
            return ("fingers",)
        case Dimension.PLACE | Dimension.OCTAVE:
            return "fingers", "spacing"
        case _:
            return "fingers", "place"


def kept_by_pair(before: Drill, after: Drill) -> tuple[Keeps, ...]:
    """What other fingers keep: they play the same notes, or one finger of both stays.

    Where one finger alone is left of a pair, or one between the two takes the part of the other,
    there is no spacing to keep.
    """
    if 1 in {len(before.order), len(after.order)}:
        return ("notes",) if len(before.order) == len(after.order) else ("finger",)
    if before.frame.spacings != after.frame.spacings:
        return ("finger",)
    return "spacing", "notes" if before.place == after.place else "finger"


def crossings(events: Sequence[Event]) -> Crossings:
    """The intervals at the crossings of the way up and of the way back.

    A double stop is heard by its own interval, not by the one that leads to it over the turn.
    """
    turn = next(index for index, event in enumerate(events) if event.begins is Begins.TURN)
    up, back = (
        frozenset(
            label
            for event in part
            for label in [event.within or (event.from_previous if event.crosses else None)]
            if label is not None
        )
        for part in (events[:turn], events[turn:])
    )
    return up, back


def named(sound: Crossings) -> bool:
    """Whether one interval names all crossings of each way."""
    return all(len(way) == 1 for way in sound)


def other_hand(one: Drill, other: Drill) -> bool:
    """Two drills are played with other fingers, or in another place."""
    return one.frame.fingers != other.frame.fingers or one.place != other.place
