"""A player of another name: all that the log holds of them goes on under it."""

from typing import Final

import msgspec

from bookgen.errors import BookgenError, Finding, Message
from bookgen.studio.log_copy import LogCopy
from bookgen.studio.rows import DayRow, DrillRow, EntryRow, ItemRow
from bookgen.studio.store import Store

TABLES: Final = ("day", "drill", "item", "entry")
"""Those whose rows belong to a player."""


def rename(store: Store, formerly: str, player: str, file: str) -> None:
    """Let all rows of a former name have the present one, or none of them.

    file: the name under which the user knows the log.

    Raises:
        BookgenError: the log holds pages of both names.
    """
    if not is_known(store, formerly):
        return
    with store.transaction():
        if is_known(store, player):
            both = Message("log-two-names", {"formerly": formerly, "player": player})
            raise BookgenError(Finding(file, both, Message("log-one-name")))
        store.rows("PRAGMA defer_foreign_keys = ON")
        store.rows("INSERT INTO renaming (formerly, player) VALUES (?, ?)", formerly, player)
        for table in TABLES:
            store.rows(
                f"UPDATE {table} SET player = ? WHERE player = ?",  # noqa: S608
                player,
                formerly,
            )


def is_known(store: Store, player: str) -> bool:
    """Whether the log holds anything of a player."""
    return any(
        store.number(f"SELECT count(*) FROM {table} WHERE player = ?", player)  # noqa: S608
        for table in ("drill", "day")
    )


def under_present_names(store: Store, copied: LogCopy) -> LogCopy:
    """A copy from before a player had another name, as if it were made today.

    A name that somebody has now is left alone.
    """
    renamings = store.rows("SELECT formerly, player FROM renaming ORDER BY turn")
    present: dict[str, str] = {}
    for name in {drill.player for drill in copied.drills} | {day.player for day in copied.days}:
        last = name
        for formerly, player in renamings if not is_known(store, name) else ():
            last = str(player) if last == formerly else last
        present[name] = last

    def renamed[R: DayRow | DrillRow | ItemRow | EntryRow](rows: tuple[R, ...]) -> tuple[R, ...]:
        return tuple(
            msgspec.structs.replace(row, player=present.get(row.player, row.player)) for row in rows
        )

    return LogCopy(
        days=renamed(copied.days),
        drills=renamed(copied.drills),
        items=renamed(copied.items),
        entries=renamed(copied.entries),
    )
