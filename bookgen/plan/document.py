"""A plan: each drill once, by its number, and the days on which it is played. Facts only."""

from collections.abc import Iterator, Mapping
from datetime import date as Date  # noqa: N812
from enum import StrEnum
from functools import cached_property, lru_cache
from typing import Annotated, Literal

import msgspec

from bookgen.model.dimension import Dimension
from bookgen.model.drill import Drill, Lead
from bookgen.model.route import Return
from bookgen.plan.ahead import Deadline, Further, Unreached
from bookgen.plan.calendar import Calendar
from bookgen.plan.facts import Facts, Key, Minutes, Name, Number
from bookgen.plan.part import Part
from bookgen.plan.scope import Scope
from bookgen.plan.supplement import Supplement
from bookgen.plan.wished import Wished

Finger = Annotated[int, msgspec.Meta(ge=-1, le=4, description="0 is the open string, -1 the thumb")]
String = Annotated[int, msgspec.Meta(ge=1, le=6, description="1 is the highest string")]
Height = Annotated[int, msgspec.Meta(ge=0, le=36, description="semitones above the open string")]
PitchName = Annotated[str, msgspec.Meta(pattern=r"^[A-G](##?|bb?)?-?\d$")]
Label = Annotated[str, msgspec.Meta(pattern=r"^(dd|d|m|P|M|A|AA)[1-9]\d?$")]
NoteValue = Annotated[str, msgspec.Meta(pattern=r"^[1-9]\d{0,2}/[1-9]\d{0,2}$")]


class Role(StrEnum):
    """Why a drill stands on a day.

    start opens the day; new brings moves that the player has not met; other way is played for
    the first time, but all its moves are known; again is a review; step back is easier than
    what was not yet secure; cold is played once and the first try counts; passage leads to bars
    of a real piece.
    """

    START = "start"
    NEW = "new"
    OTHER_WAY = "other way"
    AGAIN = "again"
    STEP_BACK = "step back"
    COLD = "cold"
    PASSAGE = "passage"

    @property
    def first_time(self) -> bool:
        """The player meets the drill for the first time."""
        return self in {Role.NEW, Role.OTHER_WAY, Role.PASSAGE}


class Character(StrEnum):
    """What sort of a day it is; a light one and one with a cold test come once a week."""

    ORDINARY = "ordinary"
    LIGHT = "light"
    TEST = "test"


class StopEntry(Facts, omit_defaults=True, frozen=True, kw_only=True):
    """A finger on a string, and what sounds; `held` where it stays from the event before."""

    string: String
    finger: Finger
    semitones: Height
    pitch: PitchName
    midi: Annotated[int, msgspec.Meta(ge=0, le=127)]
    hz: Annotated[float, msgspec.Meta(gt=0)]
    held: bool = False


class EventEntry(Facts, omit_defaults=True, frozen=True, kw_only=True):
    """What sounds; `begins` a group or the way back, `shifts` how far the hand has moved."""

    stops: Annotated[tuple[StopEntry, ...], msgspec.Meta(min_length=1, max_length=2)]
    duration: NoteValue
    from_previous: Label | None
    crosses: bool
    within: Label | None = None
    begins: Literal["group", "turn"] | None = None
    shifts: Annotated[int, msgspec.Meta(ge=-36, le=36)] = 0


Keeps = Literal["fingers", "finger", "spacing", "place", "notes"]
"""What the hand keeps from one drill to the next."""


class Echo(Facts, frozen=True, kw_only=True):
    """Where the drill's crossings were heard before, in other fingers or another place.

    `interval` is that of the crossings on the way up.
    """

    interval: Label
    number: Number


class Link(Facts, omit_defaults=True, frozen=True, kw_only=True):
    """What ties a drill to one that is secure or stands earlier.

    `to` is its number, or the key of a drill that has none, or null where the player starts;
    `changes` is the one dimension in which the two differ; `keeps` is what stays. A drill keeps
    the link with which it was first printed.
    """

    to: Number | Key | None
    changes: Dimension | None
    keeps: tuple[Keeps, ...] = ()
    echo: Echo | None = None


class DrillEntry(Facts, omit_defaults=True, frozen=True, kw_only=True, dict=True):
    """A drill with its number, its link and its notes.

    `position` is the trade's label of the place; `order` stands only where the fingers run
    neither straight up nor straight down, `to` (place, position) only where the hand shifts.
    """

    number: Number
    key: Key
    stage: Annotated[int, msgspec.Meta(ge=1, le=5)]
    fingers: tuple[Finger, ...]
    spacings: tuple[str, ...]
    lead: Lead
    back: Return = msgspec.field(name="return")
    place: Height
    position: str
    strings: tuple[String, ...]
    link: Link
    events: tuple[EventEntry, ...]
    order: tuple[Finger, ...] | None = None
    to: Height | None = None
    to_position: str | None = None

    @property
    def drill(self) -> Drill:
        """The drill that the key names; a ValueError where it names none."""
        return drill_of(self.key)


class Earlier(Facts, frozen=True, kw_only=True):
    """A drill of an earlier page that this document names: by a link, an echo or a gate."""

    number: Number
    key: Key


class Towards(Facts, omit_defaults=True, frozen=True, kw_only=True):
    """What an item leads to: a drill that was not yet secure, or bars of a piece."""

    number: Number | None = None
    title: Name | None = None
    bars: tuple[str, str] | None = None


class Item(Facts, omit_defaults=True, frozen=True, kw_only=True):
    """A drill on a day; `only_if` is the drill that must be secure before it."""

    number: Number
    role: Role
    minutes: Minutes
    only_if: Number | None = None
    towards: Towards | None = None


class Day(Facts, omit_defaults=True, frozen=True, kw_only=True):
    """A day with its items in the order of play, which take no more than its minutes.

    `wish` is what was wished for it instead of what would have been planned.
    """

    date: Date
    minutes: Minutes
    items: Annotated[tuple[Item, ...], msgspec.Meta(min_length=1)]
    character: Character = Character.ORDINARY
    wish: Wished | None = None


class Gauge(Facts, frozen=True, kw_only=True):
    """The moves that begin or end at one place of a string, by how they stand.

    `aimed` of them are secure when all drills of the plan are.
    """

    string: String
    semitones: Height
    secure: int
    practised: int
    new: int
    aimed: int


class Coverage(Facts, frozen=True, kw_only=True):
    """How the moves of the player's area stood before the first day."""

    secure: int
    practised: int
    new: int
    aimed: int
    gauges: tuple[Gauge, ...]


class Binding(Facts, omit_defaults=True, frozen=True, kw_only=True):
    """How the plan was bound: told to `bookgen bind`, it gives the same book.

    `book` is which book; `first` and `last` are the days for which it was ordered; `calendar`
    tells the days without practice and the lessons among them; `deadlines` are passages that are
    to be ready then; `unreached` is what of the area comes on none of the days of a month;
    `further` says that nothing of the area is left, and what could be added to it;
    `parts` are the other instruments of a class.
    """

    book: Literal["sheet", "booklet", "drill", "supplement", "class"]
    first: Date | None = None
    last: Date | None = None
    studio: str | None = None
    note: str | None = None
    paper: str = "a4"
    layout: str = "ordinary"
    language: str = "en"
    from_memory: bool = False
    by_day: bool = False
    fold: bool = False
    cents: bool = False
    coverage: Coverage | None = None
    calendar: Calendar | None = None
    deadlines: tuple[Deadline, ...] = ()
    unreached: tuple[Unreached, ...] = ()
    further: Further | None = None
    supplement: Supplement | None = None
    parts: tuple[Part, ...] = ()


class Plan(Facts, frozen=True, kw_only=True, dict=True):
    """The whole document."""

    format: Literal["bookgen-plan"] = "bookgen-plan"
    version: Literal[2] = 2
    instrument: Name
    size: str
    player: Name | None
    seed: int
    title: Name | None = None
    drills: Annotated[tuple[DrillEntry, ...], msgspec.Meta(min_length=1)]
    earlier: tuple[Earlier, ...] = ()
    days: tuple[Day, ...] = ()
    scope: Scope | None = None
    binding: Binding | None = None

    @cached_property
    def by_number(self) -> Mapping[int, DrillEntry]:
        """The document's drills by their numbers."""
        return {entry.number: entry for entry in self.drills}

    @cached_property
    def named(self) -> Mapping[int, Drill]:
        """Every drill that has a number here: the document's own, and those of earlier pages."""
        earlier = {one.number: drill_of(one.key) for one in self.earlier}
        return {**earlier, **{entry.number: entry.drill for entry in self.drills}}

    def linked(self, entry: DrillEntry) -> Drill | None:
        """The drill to which one is linked, or None where the player starts."""
        match entry.link.to:
            case int() as number:
                return self.named[number]
            case str() as key:
                return drill_of(key)
            case None:
                return None

    def items(self) -> Iterator[tuple[Day, Item, DrillEntry]]:
        """Every item with its day and its drill, in the order of play."""
        for day in self.days:
            for item in day.items:
                yield day, item, self.by_number[item.number]


@lru_cache(maxsize=65_536)
def drill_of(key: str) -> Drill:
    """The drill that a key names; a ValueError where it names none."""
    return Drill.parse_key(key)


def encode(plan: Plan) -> bytes:
    """Write a plan as JSON text, two spaces a level, the same for the same plan."""
    return msgspec.json.format(msgspec.json.encode(plan), indent=2) + b"\n"


def plan_schema() -> dict[str, object]:
    """The JSON Schema of the document, as docs/reference/plan.schema.json holds it."""
    schema: dict[str, object] = msgspec.json.schema(Plan)
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **schema}
