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
    """The whole file."""

    name: str | None = None
    paper: str | None = None
    layout: str | None = None
    players: dict[str, PlayerTable] = {}


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
        table = msgspec.toml.decode(text, type=StudioTable)
    except msgspec.DecodeError as error:
        problem, _, place = str(error).partition(" - at ")
        path = place.strip("`").removeprefix("$").removeprefix(".")
        where = f"{file}, {path}" if path else file
        raise BookgenError(Finding(where, problem, "mend it in the file")) from error
    players = {
        name: Player(name, entry.instrument, entry.size, entry.minutes)
        for name, entry in table.players.items()
    }
    return Studio(table.name, table.paper, table.layout, players)
