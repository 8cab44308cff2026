"""The passage document's JSON, field by field: what stands in the file."""

from typing import Annotated, Final, Literal

import msgspec

from bookgen.model.marking import MOST_SLURS, Dynamic, Hairpin, Instruction, Sign
from bookgen.plan.document import (
    Finger,
    Height,
    NoteValue,
    PitchName,
    Plan,
    String,
)
from bookgen.plan.facts import Name

PASSAGE_FORMAT: Final = "bookgen-passage"
PASSAGE_VERSION: Final = 3

Time = Annotated[
    str, msgspec.Meta(pattern=r"^(0|[1-9]\d*(/[1-9]\d*)?)$", description="in whole notes")
]
StopHeight = Annotated[
    int,
    msgspec.Meta(
        ge=-12, le=36, description="semitones above the open string; below it behind the nut"
    ),
]
Index = Annotated[int, msgspec.Meta(ge=0)]
Letters = Annotated[str, msgspec.Meta(pattern=r"^[A-Z]{1,3}$")]


class Table(msgspec.Struct, forbid_unknown_fields=True, kw_only=True):
    """An object of the document in which every key is known."""


class WrittenNoteTable(Table, omit_defaults=True):
    """A note as it was given; `finger` and `string` where the source fixes them."""

    pitch: PitchName
    finger: Finger | None = None
    string: String | None = None
    tied: bool = False
    harmonic: bool = False


class MarkingTable(Table, omit_defaults=True):
    """What stands with a sound; names as in MusicXML 4.0.

    `slurs_end` and `slurs_begin` count slurs; `hand_ends` and `hand_begins` stand for a group of
    the player's own, which one hand takes.
    """

    slurs_end: Annotated[int, msgspec.Meta(ge=0, le=MOST_SLURS)] = 0
    slurs_begin: Annotated[int, msgspec.Meta(ge=0, le=MOST_SLURS)] = 0
    hand_ends: bool = False
    hand_begins: bool = False
    signs: tuple[Sign, ...] = ()
    dynamic: Dynamic | None = None
    hairpin_ends: bool = False
    hairpin: Hairpin | None = None
    terms: tuple[Instruction, ...] = ()


class TempoTable(Table, omit_defaults=True):
    """How fast: words, and so many beats a minute."""

    words: str = ""
    beat: Time | None = None
    per_minute: float | None = None


class SoundTable(Table, omit_defaults=True):
    """Notes that begin together, from low to high; none for a rest.

    `at` counts from the beginning of the bar; a grace note lasts 0.
    """

    at: Time
    duration: Time
    notes: list[WrittenNoteTable]
    grace: bool = False
    marking: MarkingTable | None = None


class BarTable(Table, omit_defaults=True):
    """A bar; `meter` and `sharps` (flats are negative) where they change."""

    number: str
    length: Time
    sounds: list[SoundTable]
    meter: NoteValue | None = None
    sharps: int | None = None
    tempo: TempoTable | None = None


class PlayedTable(Table):
    """A finger on a string, with the note as it is written."""

    string: String
    finger: Finger
    semitones: StopHeight
    pitch: PitchName


class PlacedTable(Table, omit_defaults=True):
    """How a sound is played.

    `bar` and `sound` are indexes from 0; `stops` has an entry for each note of the sound, null
    where it cannot be played. `place` is that of finger 1 in semitones from the nut, null where
    only open strings sound. `cost` is that of coming here, by its parts. `touched` are the
    indexes of the notes that are natural harmonics.
    """

    bar: Index
    sound: Index
    stops: list[PlayedTable | None]
    place: int | None
    cost: dict[str, float]
    touched: tuple[Index, ...] = ()


class StopTable(Table):
    """A finger on a string."""

    string: String
    finger: Finger
    semitones: StopHeight


class GroupTable(Table, omit_defaults=True):
    """A run of sounds in one frame: in its place every finger has one height on each string.

    `first` and `last` are indexes into `placed`, both included; `bars` are numbers as printed.
    Equal frames have one letter, and `stops` are where the fingers stand in all of them. `passing`
    are sounds in which a finger stands elsewhere for a moment.
    """

    letter: Letters
    bars: list[str]
    first: Index
    last: Index
    place: Height
    position: str
    stops: list[StopTable]
    passing: tuple[Index, ...] = ()


class UnplayableTable(Table):
    """What cannot be played in a bar; `problem` is a name for it, `facts` are what it is about."""

    bar: str
    problem: Annotated[str, msgspec.Meta(pattern=r"^[a-z-]+$")]
    facts: dict[str, str | int | list[str]]


class FingeringTable(Table):
    """One way to play the passage; `cost` is the sum over its sounds."""

    cost: float
    placed: list[PlacedTable]
    groups: list[GroupTable]
    unplayable: list[UnplayableTable]


class SpotTable(Table):
    """A hard spot: sounds from `first` to `last`, of which `peak` is the hardest.

    `parts` say what is hard at it, `score` counts speed and repetition in. `others` are the first
    sounds of the same spot elsewhere.
    """

    number: Annotated[int, msgspec.Meta(ge=1)]
    bars: list[str]
    first: Index
    last: Index
    peak: Index
    parts: dict[str, float]
    score: float
    others: list[Index]


class NeedTable(Table, omit_defaults=True):
    """A move, or a double stop; `shift` is by how much the hand goes up between."""

    first: StopTable
    then: StopTable
    together: bool = False
    shift: int = 0


class LadderTable(Table, omit_defaults=True):
    """The keys of the drills that lead to a spot, or to the frame of a letter.

    `shared` are those of an earlier ladder, `missing` what no drill has, `crowded` what had no
    room among them.
    """

    drills: list[str]
    shared: list[str]
    missing: list[NeedTable]
    crowded: list[NeedTable]
    spot: Index = 0
    letter: str = ""


class PassageTable(Table):
    """The whole document; `easier` is how many more spots there would be."""

    format: Literal["bookgen-passage"]
    version: Literal[3]
    title: str
    instrument: Name
    size: str
    bars: Annotated[list[BarTable], msgspec.Meta(min_length=1)]
    best: FingeringTable
    other: FingeringTable | None
    spots: list[SpotTable]
    easier: Index
    ladders: list[LadderTable]
    plan: Plan | None


def passage_schema() -> dict[str, object]:
    """The JSON Schema of the document, as docs/reference/passage.schema.json holds it."""
    schema: dict[str, object] = msgspec.json.schema(PassageTable)
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **schema}
