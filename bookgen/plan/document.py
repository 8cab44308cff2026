"""A plan: which drills come on which day, as plain values that anyone can engrave."""

from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from enum import StrEnum

from bookgen.model.dimension import Dimension
from bookgen.model.drill import Drill
from bookgen.model.event import Event
from bookgen.model.instrument import Instrument
from bookgen.model.music import play
from bookgen.model.spelling import spell

MinutesOfPractice = float


class Kind(StrEnum):
    """Why a drill stands on the page.

    A new drill brings moves that the player has not met; a variant is played for the first
    time, but all its moves are known; an item of a cold test is played once, and the first try
    counts.
    """

    OPENING = "opening"
    REVIEW = "review"
    NEW = "new"
    LADDER = "ladder"
    VARIANT = "variant"
    TEST = "test"

    @property
    def first_time(self) -> bool:
        """The player meets the drill for the first time."""
        return self in {Kind.NEW, Kind.VARIANT}


class Character(StrEnum):
    """What sort of a day it is; a light one and one with a cold test come once a week."""

    ORDINARY = "ordinary"
    LIGHT = "light"
    TEST = "test"


@dataclass(frozen=True, slots=True)
class Link:
    """What ties a drill to one before it.

    to: number of a drill earlier in the plan, key of a secure one, or None at the start.
    changes: the one dimension in which the two differ; None at the start.
    text: the link in words, as printed.
    """

    to: int | str | None
    changes: Dimension | None
    text: str


@dataclass(frozen=True, slots=True)
class PlannedDrill:
    """A drill with its number on the page, its notes and its link.

    number: as printed; numbers rise through the plan, each is there once.
    position: the trade's label of the place, e.g. "1st".
    minutes: time meant for it.
    only_if: number of the drill, earlier in the plan, that must be secure before this one.
    """

    number: int
    kind: Kind
    drill: Drill
    position: str
    minutes: MinutesOfPractice
    link: Link
    events: tuple[Event, ...]
    only_if: int | None = None


@dataclass(frozen=True, slots=True)
class Day:
    """One sheet.

    minutes: the time the day has; its drills take no more.
    """

    date: Date
    minutes: MinutesOfPractice
    drills: tuple[PlannedDrill, ...]
    character: Character = Character.ORDINARY


@dataclass(frozen=True, slots=True)
class Plan:
    """A run of days for one player on one instrument.

    instrument: key of the instrument; size: name of its size.
    player: None where nobody is named.
    seed: what the planner was told besides dates and player.
    """

    instrument: str
    size: str
    player: str | None
    seed: int
    days: tuple[Day, ...]


def planned(
    drill: Drill,
    instrument: Instrument,
    *,
    number: int,
    kind: Kind,
    minutes: MinutesOfPractice,
    link: Link,
) -> PlannedDrill:
    """Put a drill into a plan: its notes and its position follow from the instrument.

    Raises:
        ValueError: the instrument or its hand cannot play the drill.
    """
    events = play(drill, instrument)
    position = place_label(drill, instrument)
    return PlannedDrill(number, kind, drill, position, minutes, link, events)


def place_label(drill: Drill, instrument: Instrument) -> str:
    """The trade's label of a drill's place, from its lowest finger on its lowest string."""
    string, finger = drill.strings[0], drill.frame.fingers[0]
    spelled = spell(instrument, drill.frame, drill.place, drill.strings)
    return instrument.position_rule.label(
        finger, drill.place, spelled.pitches[string, finger], instrument.open_pitch(string)
    )
