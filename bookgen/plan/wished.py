"""What was wished for a day, and whether a drill is of that sort."""

from collections.abc import Iterator, Sequence
from typing import Annotated

import msgspec

from bookgen.model.drill import Drill
from bookgen.model.event import Begins, Event
from bookgen.model.finger import THUMB
from bookgen.model.instrument import Instrument
from bookgen.model.music import play
from bookgen.model.place import place_label
from bookgen.model.position import THUMB_POSITION
from bookgen.plan.facts import Facts

TWO = 2
"""Notes of a double stop."""


class Wished(Facts, omit_defaults=True, frozen=True, kw_only=True):
    """A sort of drills; what is null or empty is left open.

    `position` is the trade's label; `hands` are fingers that lie together; `interval` is heard from
    note to note or together; with `double_stops` every note is struck together with another, and
    the interval is one of those. The thumb is finger -1.
    """

    stage: Annotated[int, msgspec.Meta(ge=1, le=5)] | None = None
    position: str | None = None
    hands: tuple[tuple[Annotated[int, msgspec.Meta(ge=-1, le=4)], ...], ...] = ()
    interval: Annotated[str, msgspec.Meta(pattern=r"^(dd|d|m|P|M|A|AA)[1-9]\d?$")] | None = None
    double_stops: bool = False

    def holds(self, drill: Drill, instrument: Instrument) -> bool:
        """Whether a drill is of that sort; the instrument's hand takes it."""
        if self.stage not in {None, drill.stage}:
            return False
        if self.hands and drill.frame.fingers not in self.hands:
            return False
        if self.position is not None and place_label(drill, instrument) != self.position:
            return False
        if self.interval is None and not self.double_stops:
            return True
        events = play(drill, instrument)
        if self.double_stops:
            struck = all(len(event.notes) == TWO for event in events)
            labels = {event.within for event in events}
            return struck and self.interval in {None, *labels}
        return self.interval in heard(events)

    @property
    def begins_at(self) -> str | None:
        """The position in which somebody begins who knows nothing; None is first position.

        Who asks for the thumb has their hand there.
        """
        asks = self.position == THUMB_POSITION or any(THUMB in hand for hand in self.hands)
        return THUMB_POSITION if asks else None

    def foremost(self, drill: Drill) -> bool:
        """Whether a drill that is of that sort comes first: in thumb position the thumb itself."""
        return self.position != THUMB_POSITION or THUMB in drill.frame.fingers

    def parts(self) -> Iterator["Wished"]:
        """The same wish for each of its hands by itself."""
        for hand in self.hands:
            yield msgspec.structs.replace(self, hands=(hand,))
        if not self.hands:
            yield self


def heard(events: Sequence[Event]) -> set[str]:
    """The intervals from note to note, but not over the turn, and those of notes together."""
    found = {event.within for event in events}
    found |= {event.from_previous for event in events if event.begins is not Begins.TURN}
    return {label for label in found if label is not None}
