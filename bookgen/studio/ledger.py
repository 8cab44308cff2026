"""The rows of the practice log, read as values and written from them."""

import sqlite3
from collections.abc import Sequence
from datetime import date as Date  # noqa: N812
from datetime import datetime

from bookgen.plan.document import Plan
from bookgen.plan.record import Result
from bookgen.studio.entries import Entered, Marking, PrintedDrill, instant_text
from bookgen.studio.store import rising


def printed_drills(connection: sqlite3.Connection, player: str) -> tuple[PrintedDrill, ...]:
    """Every drill that was printed for a player, in the order of the numbers."""
    rows = connection.execute(
        "SELECT number, date, printed, key, kind FROM drill WHERE player = ? ORDER BY number",
        (player,),
    )
    return tuple(
        PrintedDrill(
            player, number, Date.fromisoformat(date), datetime.fromisoformat(printed), key, kind
        )
        for number, date, printed, key, kind in rows
    )


def valid_results(connection: sqlite3.Connection, player: str) -> dict[int, tuple[Result, Date]]:
    """The valid result of every number of a player that has one, and its day."""
    rows = connection.execute("SELECT number, result, date FROM valid WHERE player = ?", (player,))
    return {number: (Result(word), Date.fromisoformat(date)) for number, word, date in rows}


def entries_made(connection: sqlite3.Connection, player: str | None) -> tuple[Entered, ...]:
    """Every entry for a player, or for everyone, in the order in which they were made."""
    rows = connection.execute(
        "SELECT player, number, entered, result, date, undoes, EXISTS ("
        "  SELECT 1 FROM entry AS undo WHERE undo.player = entry.player"
        "  AND undo.number = entry.number AND undo.undoes = entry.entered)"
        " FROM entry WHERE player = coalesce(?, player) ORDER BY entered, player, number",
        (player,),
    )
    return tuple(
        Entered(
            player=name,
            number=number,
            entered=datetime.fromisoformat(entered),
            result=None if result is None else Result(result),
            date=None if date is None else Date.fromisoformat(date),
            undoes=None if undoes is None else datetime.fromisoformat(undoes),
            taken_back=bool(taken_back),
        )
        for name, number, entered, result, date, undoes, taken_back in rows
    )


def write_days(
    connection: sqlite3.Connection, player: str, sheets: Sequence[tuple[Plan, str]], printed: str
) -> None:
    """Write plans of one day each with their documents, inside a transaction.

    printed: when, as the log keeps instants.
    """
    instant = rising(connection, "day", "printed", printed)
    for sheet, text in sheets:
        (day,) = sheet.days
        date = day.date.isoformat()
        connection.execute(
            "INSERT INTO day (player, date, printed, instrument, size, seed, plan)"
            " VALUES (?, ?, ?, ?, ?, ?, ?)",
            (player, date, instant, sheet.instrument, sheet.size, sheet.seed, text),
        )
        connection.executemany(
            "INSERT INTO drill (player, number, date, printed, key, kind)"
            " VALUES (?, ?, ?, ?, ?, ?)",
            [
                (player, entry.number, date, instant, entry.drill.key, entry.kind.value)
                for entry in day.drills
            ],
        )


def write_results(
    connection: sqlite3.Connection, markings: Sequence[Marking], entered: str
) -> None:
    """Write results with their days, inside a transaction.

    entered: when, as the log keeps instants.
    """
    instant = rising(connection, "entry", "entered", entered)
    connection.executemany(
        "INSERT INTO entry (player, number, entered, result, date) VALUES (?, ?, ?, ?, ?)",
        [
            (marking.player, marking.number, instant, marking.result.value, str(marking.date))
            for marking in markings
        ],
    )


def write_undo(connection: sqlite3.Connection, results: Sequence[Entered], entered: str) -> None:
    """Write that results are taken back, inside a transaction.

    entered: when, as the log keeps instants.
    """
    instant = rising(connection, "entry", "entered", entered)
    connection.executemany(
        "INSERT INTO entry (player, number, entered, undoes) VALUES (?, ?, ?, ?)",
        [(entry.player, entry.number, instant, instant_text(entry.entered)) for entry in results],
    )
