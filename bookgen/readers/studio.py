"""studio.toml: the studio and its players, or everything that is wrong with the file."""

from collections.abc import Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Annotated

import msgspec

from bookgen.errors import BookgenError, Finding

Minutes = Annotated[int, msgspec.Meta(ge=3, le=120)]


class PlayerTable(msgspec.Struct, forbid_unknown_fields=True):
    """`[players.NAME]`."""

    instrument: str = "violin"
    size: str | None = None
    minutes: Minutes = 10


class StudioTable(msgspec.Struct, forbid_unknown_fields=True):
    """The file without its players."""

    name: str | None = None
    paper: str | None = None
    layout: str | None = None


@dataclass(frozen=True, slots=True)
class Player:
    """Who plays.

    size: name of a size of the instrument, or None for its usual one.
    minutes: practice time of an ordinary day.
    """

    name: str
    instrument: str
    size: str | None
    minutes: int


@dataclass(frozen=True, slots=True)
class Studio:
    """A studio and its roster; paper and layout are None where the file says nothing."""

    name: str | None
    paper: str | None
    layout: str | None
    players: Mapping[str, Player]

    def player(self, name: str, file: str) -> Player:
        """The player of that name.

        Raises:
            BookgenError: nobody of that name is on the roster.
        """
        if name in self.players:
            return self.players[name]
        near = get_close_matches(name, self.players, n=1)
        mend = f"perhaps {near[0]!r}" if near else f'add a table [players."{name}"]'
        raise BookgenError(Finding(file, f"no player {name!r}", mend))


def parse_studio(text: str, file: str) -> Studio:
    """Read the text of a studio file.

    file: the name under which the user knows it.

    Raises:
        BookgenError: the text is no TOML, has an unknown key, or a value of the wrong kind.
    """
    try:
        everything = msgspec.toml.decode(text)
    except msgspec.DecodeError as error:
        raise BookgenError(Finding(file, f"no TOML ({error})", "mend it in the file")) from error
    findings: list[Finding] = []
    roster = everything.pop("players", {})
    top = converted(everything, StudioTable, file, findings)
    if not isinstance(roster, dict):
        finding = Finding(f"{file}, players", "no table", "write a table [players.NAME] for each")
        raise BookgenError(finding)
    players = {}
    for name, table in roster.items():
        entry = converted(table, PlayerTable, f'{file}, player "{name}"', findings)
        if entry is not None:
            players[name] = Player(name, entry.instrument, entry.size, entry.minutes)
    if findings or top is None:
        raise BookgenError(*findings)
    return Studio(top.name, top.paper, top.layout, players)


def converted[Table](
    value: object, kind: type[Table], place: str, findings: list[Finding]
) -> Table | None:
    """A table of the file as our values; what is wrong with it is added to the findings.

    place: file and table as the user knows them.
    """
    try:
        return msgspec.convert(value, kind)
    except msgspec.ValidationError as error:
        problem, _, path = str(error).partition(" - at ")
        key = path.strip("`").removeprefix("$").removeprefix(".")
        where = f"{place}, {key}" if key else place
        findings.append(Finding(where, problem, "mend it in the file"))
        return None
