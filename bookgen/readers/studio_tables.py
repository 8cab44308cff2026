"""The tables of studio.toml: which keys they know, and how a wrong value is told."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Annotated, Final, Literal

import msgspec

from bookgen.errors import Finding

WEEKDAYS: Final = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
LONGEST_SHOWN: Final = 40

Text = Annotated[str, msgspec.Meta(min_length=1)]
Weekday = Literal["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"]
Pair = Annotated[str, msgspec.Meta(pattern=r"\A(12|13|14|23|24|34)\Z")]
SpacingWord = Literal["half", "whole", "augmented", "minor-third", "major-third"]


class StartTable(msgspec.Struct):
    """`[players.NAME.start]`; what is None follows from the area."""

    fingers: Pair | None = None
    spacing: SpacingWord | None = None
    position: Text | None = None
    secure_to_stage: Annotated[int, msgspec.Meta(ge=0, le=5)] = 0


class PlayerTable(msgspec.Struct):
    """`[players.NAME]`; pairs and spacings that are None are all that the hand takes."""

    instrument: Text = "violin"
    size: Text | None = None
    minutes: Annotated[int, msgspec.Meta(ge=3, le=120)] = 10
    practice_days: Annotated[tuple[Weekday, ...], msgspec.Meta(min_length=1)] = WEEKDAYS
    positions: Annotated[tuple[Text, ...], msgspec.Meta(min_length=1)] | None = None
    pairs: Annotated[tuple[Pair, ...], msgspec.Meta(min_length=1)] | None = None
    spacings: Annotated[tuple[SpacingWord, ...], msgspec.Meta(min_length=1)] | None = None
    fewest_strings: Annotated[int, msgspec.Meta(ge=2, le=6)] = 3
    highest_stage: Annotated[int, msgspec.Meta(ge=1, le=5)] = 5
    note: Annotated[str, msgspec.Meta(min_length=1, max_length=300)] | None = None
    start: dict[str, object] = {}
    passage: tuple[object, ...] = ()


class StudioTable(msgspec.Struct):
    """The whole file; each player's table is read by itself."""

    name: Text | None = None
    paper: Text | None = None
    layout: Text | None = None
    players: dict[str, object] = {}


@dataclass(frozen=True, slots=True)
class Words:
    """How a wrong value is told.

    what: what it should be; each: what a thing in a list should be.
    """

    what: str
    mend: str
    each: str = ""


WORDS: Final = {
    "name": Words("name of a studio", 'write it in quotes, e.g. "Harbour Lane Strings"'),
    "paper": Words("paper", 'write "a4", "a5" or "letter"'),
    "layout": Words("layout", "write the name of a layout or of a folder with one"),
    "players": Words("table", "write a table [players.NAME] for each"),
    "instrument": Words("instrument", 'write its name, e.g. "violin"'),
    "size": Words("size", 'write it in quotes, e.g. "3/4"'),
    "minutes": Words("practice time", "give 3 to 120"),
    "practice_days": Words(
        "list of weekdays", 'write e.g. ["Mon", "Wed"], from Mon Tue Wed Thu Fri Sat Sun', "weekday"
    ),
    "positions": Words("list of positions", 'write e.g. ["half", "1st"]', "position"),
    "pairs": Words("list of finger pairs", 'write e.g. ["12", "23"]', "finger pair"),
    "spacings": Words("list of spacings", 'write e.g. ["half", "whole"]', "spacing"),
    "fewest_strings": Words("number of strings", "give 2 or more"),
    "highest_stage": Words("stage", "give 1 to 5"),
    "note": Words("note", "write 1 to 300 letters in quotes"),
    "start": Words("table", "write a table [players.NAME.start]"),
    "fingers": Words("finger pair", 'write e.g. "12"'),
    "spacing": Words("spacing", 'write e.g. "whole"'),
    "position": Words("position", 'write e.g. "1st"'),
    "secure_to_stage": Words("stage", "give 0 (nothing is secure) to 5"),
    "passage": Words("list of passages", "write a table [[players.NAME.passage]] for each"),
    "file": Words("file", 'write its name, e.g. "minuet.musicxml"'),
    "ready_by": Words("date", "write year-month-day, e.g. 2026-12-20"),
    "bars": Words("run of bars", 'write e.g. "5-8"'),
    "part": Words("part", "write its name in the file, in quotes"),
    "prefer": Words("preference", 'write e.g. "low"'),
}
PATH: Final = re.compile(r"`\$\.(\w+)(?:\[(\d+)\])?")


def converted[Table: msgspec.Struct](
    value: object, kind: type[Table], place: str, findings: list[Finding], *, prefix: str = ""
) -> Table:
    """A table of the file as our values; what is wrong in it is told and left at its default.

    place: file and player as the user knows them; prefix: of the keys, in a table inside.
    """
    if not isinstance(value, dict):
        findings.append(Finding(place, f"{shown(value)} is no table", "write a table"))
        return kind()
    table: dict[str, object] = dict(value)
    known = kind.__struct_fields__
    for key in [key for key in table if key not in known]:
        del table[key]
        findings.append(unknown_key(f"{place}, {prefix}{plain(key)}", key, known))
    while True:
        try:
            return msgspec.convert(table, kind)
        except msgspec.ValidationError as error:
            findings.append(wrong_value(table, str(error), f"{place}, {prefix}"))


def unknown_key(place: str, key: str, known: tuple[str, ...]) -> Finding:
    """A finding for a key that there is not, with the nearest one that there is."""
    near = get_close_matches(key.lower(), known, n=1)
    mend = f"perhaps {near[0]}" if near else f"the keys here are {', '.join(known)}"
    return Finding(place, "there is no such key", mend)


def wrong_value(table: dict[str, object], message: str, place: str) -> Finding:
    """The finding for what the schema refuses; the value is taken out of the table.

    message: what the schema's library says; its path leads to the value.
    place: as the user knows it, up to the key.
    """
    path = PATH.search(message)
    if path is None:
        table.clear()
        return Finding(place.rstrip(", "), message, "mend it in the file")
    key, index = path[1], path[2]
    words, value = WORDS[key], table.pop(key)
    where = f"{place}{key}"
    if index is None or not isinstance(value, list):
        return Finding(where, f"{shown(value)} is no {words.what}", words.mend)
    wrong = value[int(index)]
    rest = [*value[: int(index)], *value[int(index) + 1 :]]
    if rest:
        table[key] = rest
    return Finding(where, f"{shown(wrong)} is no {words.each}", words.mend)


def plain(name: str) -> str:
    """A name from the file as it can stand in a line: cut, without line breaks and the like."""
    cut = name if len(name) <= LONGEST_SHOWN else f"{name[:LONGEST_SHOWN]} …"
    return cut if cut.isprintable() else ascii(cut)


def shown(value: object) -> str:
    """A value as it stands in the file, cut where it is long."""
    match value:
        case bool():
            return str(value).lower()
        case []:
            return "an empty list"
        case list():
            return "a list"
        case Mapping():
            return "a table"
        case str():
            return repr(value if len(value) <= LONGEST_SHOWN else f"{value[:LONGEST_SHOWN]} …")
        case _:
            return str(value)[:LONGEST_SHOWN]


def unknown(place: str, kind: str, given: str, known: tuple[str, ...]) -> Finding:
    """A finding for a name that is not among those there are; the nearest one is named."""
    near = get_close_matches(given.lower(), known, n=1)
    hint = f"perhaps {near[0]}; " if near else ""
    return Finding(place, f"no {kind} {shown(given)}", f"{hint}choose {', '.join(known)}")
