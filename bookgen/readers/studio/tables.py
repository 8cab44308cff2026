"""The tables of studio.toml: which keys they know, and in which words a wrong value is told."""

from typing import Annotated, Final, Literal

import msgspec

from bookgen.errors import open_sentence, told
from bookgen.readers.table import TABLE, Words

WEEKDAYS: Final = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")

Text = Annotated[str, msgspec.Meta(min_length=1)]
Weekday = Literal["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"]
Pair = Annotated[str, msgspec.Meta(pattern=r"\A(t1|t2|t3|12|13|14|23|24|34)\Z")]
Fingers = Annotated[str, msgspec.Meta(pattern=r"\A(?=..)(?!t?1?2?3?4?..{4})t?1?2?3?4?\Z")]
SpacingWord = Literal["half", "whole", "augmented", "minor-third", "major-third", "fourth"]


class StartTable(msgspec.Struct):
    """`[players.NAME.start]`; what is None follows from the area."""

    fingers: Pair | None = None
    spacing: SpacingWord | None = None
    position: Text | None = None
    secure_to_stage: Annotated[int, msgspec.Meta(ge=0, le=5)] = 0


class PlayerTable(msgspec.Struct):
    """`[players.NAME]`; pairs and spacings that are None are all that the hand takes."""

    formerly: Text | None = None
    instrument: Text = "violin"
    scordatura: Annotated[tuple[Text, ...], msgspec.Meta(min_length=2)] | None = None
    positions_by: Text | None = None
    size: Text | None = None
    minutes: Annotated[int, msgspec.Meta(ge=3, le=120)] = 10
    layout: Text | None = None
    language: Text | None = None
    practice_days: Annotated[tuple[Weekday, ...], msgspec.Meta(min_length=1)] = WEEKDAYS
    away: tuple[Text, ...] = ()
    lesson: Weekday | None = None
    positions: Annotated[tuple[Text, ...], msgspec.Meta(min_length=1)] | None = None
    pairs: Annotated[tuple[Pair, ...], msgspec.Meta(min_length=1)] | None = None
    hands: Annotated[tuple[Fingers, ...], msgspec.Meta(min_length=1)] | None = None
    spacings: Annotated[tuple[SpacingWord, ...], msgspec.Meta(min_length=1)] | None = None
    fewest_strings: Annotated[int, msgspec.Meta(ge=2, le=6)] | None = None
    extensions: bool = False
    highest_stage: Annotated[int, msgspec.Meta(ge=1, le=5)] = 5
    note: Annotated[str, msgspec.Meta(min_length=1, max_length=300)] | None = None
    start: dict[str, object] = {}
    known: tuple[object, ...] = ()
    passage: tuple[object, ...] = ()
    also: tuple[object, ...] = ()


class StudioTable(msgspec.Struct):
    """The whole file; each player's table is read by itself."""

    name: Text | None = None
    paper: Text | None = None
    layout: Text | None = None
    language: Text | None = None
    players: dict[str, object] = {}


HAND: Final = open_sentence("{value} is no hand of two, three or four fingers")
PAIR: Final = open_sentence("{value} is no finger pair")
POSITION: Final = open_sentence("{value} is no position")
SPACING: Final = open_sentence("{value} is no spacing")
STAGE: Final = open_sentence("{value} is no stage")

WORDS: Final = {
    "name": Words(
        open_sentence("{value} is no name of a studio"),
        told('write it in quotes, e.g. "Harbour Lane Strings"'),
    ),
    "paper": Words(open_sentence("{value} is no paper"), told('write "a4", "a5" or "letter"')),
    "layout": Words(
        open_sentence("{value} is no layout"),
        told("write the name of a layout or of a folder with one"),
    ),
    "language": Words(
        open_sentence("{value} is no language"), told('write it in quotes, e.g. "de"')
    ),
    "players": Words(TABLE, told("write a table [players.NAME] for each")),
    "formerly": Words(
        open_sentence("{value} is no name"), told("write the player's former name in quotes")
    ),
    "instrument": Words(
        open_sentence("{value} is no instrument"), told('write its name, e.g. "violin"')
    ),
    "scordatura": Words(
        open_sentence("{value} is no list of notes"), told('write e.g. ["G3", "D3", "G2", "C2"]')
    ),
    "positions_by": Words(
        open_sentence("{value} is no name of a table"), told('write e.g. "davidov"')
    ),
    "size": Words(open_sentence("{value} is no size"), told('write it in quotes, e.g. "3/4"')),
    "minutes": Words(open_sentence("{value} is no practice time"), told("give 3 to 120")),
    "practice_days": Words(
        open_sentence("{value} is no list of weekdays"),
        told('write e.g. ["Mon", "Wed"], from Mon Tue Wed Thu Fri Sat Sun'),
        open_sentence("{value} is no weekday"),
    ),
    "away": Words(
        open_sentence("{value} is no list of days away"),
        told('write e.g. ["2026-12-21/2027-01-03"]'),
        open_sentence("{value} is no run of days"),
    ),
    "lesson": Words(
        open_sentence("{value} is no weekday"),
        told("write one of Mon Tue Wed Thu Fri Sat Sun in quotes"),
    ),
    "positions": Words(
        open_sentence("{value} is no list of positions"),
        told('write e.g. ["half", "1st"]'),
        POSITION,
    ),
    "pairs": Words(
        open_sentence("{value} is no list of finger pairs"), told('write e.g. ["12", "23"]'), PAIR
    ),
    "hands": Words(
        open_sentence("{value} is no list of hands"),
        told('write e.g. ["12", "23", "34", "123", "1234"]'),
        HAND,
    ),
    "spacings": Words(
        open_sentence("{value} is no list of spacings"),
        told('write e.g. ["half", "whole"]'),
        SPACING,
    ),
    "fewest_strings": Words(
        open_sentence("{value} is no number of strings"), told("give 2 or more")
    ),
    "extensions": Words(
        open_sentence("{value} is neither true nor false"), told("write true or false")
    ),
    "highest_stage": Words(STAGE, told("give 1 to 5")),
    "note": Words(open_sentence("{value} is no note"), told("write 1 to 300 letters in quotes")),
    "start": Words(TABLE, told("write a table [players.NAME.start]")),
    "fingers": Words(PAIR, told('write e.g. "12"')),
    "spacing": Words(SPACING, told('write e.g. "whole"')),
    "position": Words(POSITION, told('write e.g. "1st"')),
    "secure_to_stage": Words(STAGE, told("give 0 (nothing is secure) to 5")),
    "known": Words(
        open_sentence("{value} is no list of what is known"),
        told("write a table [[players.NAME.known]] for each"),
    ),
    "strings": Words(
        open_sentence("{value} is no list of strings"),
        told('write two or more, the lowest first, e.g. ["IV", "III"]'),
        open_sentence("{value} is no string"),
    ),
    "stage": Words(STAGE, told("give 1 to 5")),
    "also": Words(
        open_sentence("{value} is no list of instruments"),
        told("write a table [[players.NAME.also]] for each"),
    ),
    "passage": Words(
        open_sentence("{value} is no list of passages"),
        told("write a table [[players.NAME.passage]] for each"),
    ),
    "file": Words(
        open_sentence("{value} is no file"), told('write its name, e.g. "minuet.musicxml"')
    ),
    "ready_by": Words(
        open_sentence("{value} is no date"), told("write year-month-day, e.g. 2026-12-20")
    ),
    "bars": Words(open_sentence("{value} is no run of bars"), told('write e.g. "5-8"')),
    "part": Words(
        open_sentence("{value} is no part"), told("write its name in the file, in quotes")
    ),
    "prefer": Words(open_sentence("{value} is no preference"), told('write e.g. "low"')),
}
