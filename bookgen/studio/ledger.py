"""What the practice log's rows say together: a player's drills, and every entry."""

from collections import defaultdict
from datetime import datetime
from typing import Final

import msgspec

from bookgen.plan.document import Link, Role
from bookgen.plan.record import Played, Printed, Result
from bookgen.studio.entries import Entered, KeptDrill, KeptItem, Marking
from bookgen.studio.rows import DRILL, ENTRY, ITEM, DrillRow, EntryRow, sound
from bookgen.studio.store import Store

KNOWN_ROLES: Final = frozenset(Role)


def kept_drills(store: Store, player: str) -> tuple[KeptDrill, ...]:
    """Every drill that has a number for a player, in the order of the numbers.

    Raises:
        DamagedError: a row holds what no log holds.
    """
    by_key: dict[str, list[DrillRow]] = defaultdict(list)
    for row in DRILL.read(store, player):
        by_key[row.key].append(row)
    items: dict[int, list[KeptItem]] = defaultdict(list)
    for item in ITEM.read(store, player):
        found = KeptItem(item.date, item.printed, item.turn, item.number, item.role)
        items[item.number].append(found)
    results = valid_results(store, player)
    return tuple(
        KeptDrill(
            numbers=tuple(row.number for row in rows),
            key=key,
            items=tuple(
                sorted(
                    (item for row in rows for item in items[row.number]),
                    key=lambda item: (item.printed, item.date, item.turn),
                )
            ),
            results=tuple(results[key]),
            link=next((link_of(row.link) for row in rows if row.link is not None), None),
        )
        for key, rows in by_key.items()
    )


def valid_results(store: Store, player: str) -> dict[str, list[Played]]:
    """The valid results of a player by their drills' keys, by date.

    Raises:
        DamagedError: a row holds what no log holds.
    """
    found: dict[str, list[Played]] = defaultdict(list)
    for key, entry in valid_entries(store, player):
        if entry.result is not None and entry.date is not None:
            found[key].append(Played(entry.date, Result(entry.result)))
    return found


def valid_entries(store: Store, player: str | None) -> list[tuple[str, EntryRow]]:
    """The entries whose results are valid, by date, each with the key of its drill.

    Raises:
        DamagedError: a row holds what no log holds.
    """
    columns = ", ".join(f"entry.{column}" for column in ENTRY.columns)
    rows = store.rows(
        f"SELECT key, {columns} FROM valid JOIN entry USING (player, number, entered)"  # noqa: S608
        " WHERE player = coalesce(?, player) ORDER BY entry.date, player, number",
        player,
    )
    return [(str(key), ENTRY.value(tuple(cells))) for key, *cells in rows]


def entries_made(store: Store, player: str | None) -> tuple[Entered, ...]:
    """Every entry for a player, or for everyone, in the order in which they were made.

    Raises:
        DamagedError: a row holds what no log holds.
    """
    rows = ENTRY.read(store, player)
    undone = {(row.player, row.number, row.undoes) for row in rows}
    valid = {(row.player, row.number, row.entered) for _, row in valid_entries(store, player)}
    return tuple(
        Entered(
            player=row.player,
            number=row.number,
            entered=row.entered,
            result=None if row.result is None else Result(row.result),
            date=row.date,
            undoes=row.undoes,
            taken_back=(row.player, row.number, row.entered) in undone,
            valid=(row.player, row.number, row.entered) in valid,
        )
        for row in rows
    )


def link_of(text: str) -> Link:
    """A drill's link from its row.

    Raises:
        DamagedError: the text is no link of a plan document.
    """
    return sound(lambda: msgspec.json.decode(text, type=Link))


def printed_days(kept: KeptDrill) -> tuple[Printed, ...]:
    """The days of a drill by date, in roles that this bookgen knows; what was reprinted once."""
    days = {
        (item.date, item.turn, Role(item.role)) for item in kept.items if item.role in KNOWN_ROLES
    }
    return tuple(Printed(date, role, turn) for date, turn, role in sorted(days))


def result_row(marking: Marking, entered: datetime) -> EntryRow:
    """A result as the log keeps it."""
    return EntryRow(
        player=marking.player,
        number=marking.number,
        entered=entered,
        result=marking.result.value,
        date=marking.date,
        replaces="day",
    )


def undo_row(entry: Entered, entered: datetime) -> EntryRow:
    """That a result is taken back, as the log keeps it."""
    return EntryRow(player=entry.player, number=entry.number, entered=entered, undoes=entry.entered)
