"""The plan document's JSON, field by field: what stands in the file."""

from datetime import date as Date  # noqa: N812
from typing import Annotated, Final, Literal

import msgspec

from bookgen.model.dimension import Dimension
from bookgen.model.drill import Lead
from bookgen.model.route import Return
from bookgen.plan.document import Character, Kind

FORMAT: Final = "bookgen-plan"
VERSION: Final = 1

Count = Annotated[int, msgspec.Meta(ge=1, le=100_000)]
Finger = Annotated[int, msgspec.Meta(ge=0, le=4, description="0 is the open string")]
String = Annotated[int, msgspec.Meta(ge=1, le=6, description="1 is the highest string")]
Height = Annotated[int, msgspec.Meta(ge=0, le=36, description="semitones above the open string")]
Minutes = Annotated[float, msgspec.Meta(gt=0, le=1440)]
Text = Annotated[str, msgspec.Meta(max_length=2000)]
Name = Annotated[str, msgspec.Meta(min_length=1, max_length=2000)]
PitchName = Annotated[str, msgspec.Meta(pattern=r"^[A-G](##?|bb?)?-?\d$")]
Label = Annotated[str, msgspec.Meta(pattern=r"^(dd|d|m|P|M|A|AA)[1-9]\d?$")]
NoteValue = Annotated[str, msgspec.Meta(pattern=r"^[1-9]\d{0,2}/[1-9]\d{0,2}$")]


class Table(msgspec.Struct, forbid_unknown_fields=True, kw_only=True):
    """An object of the document in which every key is known."""


class StopTable(Table, omit_defaults=True):
    """A finger on a string, and what sounds; `held` where it stays from the event before."""

    string: String
    finger: Finger
    semitones: Height
    pitch: PitchName
    midi: Annotated[int, msgspec.Meta(ge=0, le=127)]
    hz: Annotated[float, msgspec.Meta(gt=0)]
    held: bool = False


class EventTable(Table):
    """What sounds at one moment; `begins` a group of the hand, or the way back."""

    stops: Annotated[list[StopTable], msgspec.Meta(min_length=1, max_length=2)]
    duration: NoteValue
    from_previous: Label | None
    crosses: bool
    within: Label | None = None
    begins: Literal["group", "turn"] | None = None


class LinkTable(Table):
    """What ties a drill to an earlier one of the plan (a number) or a secure one (a key)."""

    to: int | str | None
    changes: Dimension | None
    text: Text


class DrillTable(Table, omit_defaults=True):
    """One drill; `order` only where the fingers run neither straight up nor straight down.

    `only_if`: number of the earlier drill that must be secure before this one.
    """

    number: Count
    key: str
    kind: Kind
    stage: Annotated[int, msgspec.Meta(ge=1, le=5)]
    fingers: list[Finger]
    spacings: list[str]
    lead: Lead
    back: Return = msgspec.field(name="return")
    place: Height
    position: str
    strings: list[String]
    minutes: Minutes
    link: LinkTable
    events: list[EventTable]
    order: list[Finger] | None = None
    only_if: Count | None = None


class DayTable(Table, omit_defaults=True):
    """One sheet."""

    date: Date
    minutes: Minutes
    drills: Annotated[list[DrillTable], msgspec.Meta(min_length=1)]
    character: Character = Character.ORDINARY


class PlanTable(Table):
    """The whole document."""

    format: Literal["bookgen-plan"]
    version: Literal[1]
    instrument: str
    size: str
    player: Name | None
    seed: int
    days: Annotated[list[DayTable], msgspec.Meta(min_length=1)]


def plan_schema() -> dict[str, object]:
    """The JSON Schema of the document, as docs/reference/plan.schema.json holds it."""
    schema: dict[str, object] = msgspec.json.schema(PlanTable)
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **schema}
