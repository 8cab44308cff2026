"""A drill that is to be engraved: how wide, and how much of it is written."""

from dataclasses import dataclass
from enum import StrEnum

from bookgen.model.drill import Drill
from bookgen.model.event import Event
from bookgen.model.instrument import Instrument
from bookgen.model.music import play, turn_of


class Written(StrEnum):
    """How much of a drill is written.

    The way up alone, where the way back mirrors it and a sign says so; both ways on one line;
    or the way back on a line of its own.
    """

    UP = "up"
    BOTH = "both"
    TWO_LINES = "two lines"


@dataclass(frozen=True, slots=True)
class DrillScore:
    """A drill to be engraved.

    width_mm: of the line of music.
    music: its events as a document names their notes; None names them by the drill alone.
    """

    drill: Drill
    width_mm: float
    written: Written
    music: tuple[Event, ...] | None = None

    def events(self, instrument: Instrument) -> tuple[Event, ...]:
        """What is written."""
        events = self.music or play(self.drill, instrument)
        return events[: turn_of(events)] if self.written is Written.UP else events
