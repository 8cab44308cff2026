"""A practice log and a copy of one: nothing is lost, nothing doubled."""

import sqlite3
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from datetime import datetime
from typing import Final

import msgspec

from bookgen.errors import BookgenError, Finding
from bookgen.studio.entries import instant_text
from bookgen.studio.log_copy import MEND, MOST_FINDINGS, DayRow, DrillRow, EntryRow, LogCopy

APART: Final = "keep the two logs apart, or import this one into an empty folder"

Cell = str | int | None
Cells = tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class Table:
    """A table of the log.

    columns: those of its key first; keys: how many they are.
    """

    name: str
    columns: tuple[str, ...]
    keys: int

    def select(self) -> str:
        """All rows, the same order for the same rows."""
        return f"SELECT {', '.join(self.columns)} FROM {self.name} ORDER BY {self.order()}"  # noqa: S608

    def insert(self) -> str:
        """One row."""
        marks = ", ".join("?" * len(self.columns))
        return f"INSERT INTO {self.name} ({', '.join(self.columns)}) VALUES ({marks})"  # noqa: S608

    def order(self) -> str:
        """The last column of the key comes first where it is an instant: as it happened."""
        return ", ".join(self.columns[: self.keys][::-1])


DAY: Final = Table("day", ("player", "date", "printed", "instrument", "size", "seed", "plan"), 3)
DRILL: Final = Table("drill", ("player", "number", "date", "printed", "key", "kind"), 2)
ENTRY: Final = Table("entry", ("player", "number", "entered", "result", "date", "undoes"), 3)


def copy_of(connection: sqlite3.Connection) -> LogCopy:
    """Everything that a log holds."""
    tables = {"days": DAY, "drills": DRILL, "entries": ENTRY}
    rows = {
        name: [
            dict(zip(table.columns, row, strict=True)) for row in connection.execute(table.select())
        ]
        for name, table in tables.items()
    }
    return msgspec.convert({**rows, "format": "bookgen-practice-log", "version": 1}, LogCopy)


def merged(connection: sqlite3.Connection, copied: LogCopy, file: str) -> tuple[int, int, int]:
    """Write inside a transaction what a log does not hold yet of a copy.

    file: the name under which the user knows the copy.
    Returns how many days, drills and entries were new.

    Raises:
        BookgenError: the copy says something else than the log, or is not whole.
    """
    merge = Merge(connection, file)
    try:
        days = merge.take_in(DAY, copied.days)
        drills = merge.take_in(DRILL, copied.drills)
        by_instant = sorted(copied.entries, key=lambda entry: entry.entered)
        entries = merge.take_in(ENTRY, by_instant)
    except ValueError as error:
        raise BookgenError(Finding(file, str(error), MEND)) from error
    if merge.findings:
        raise BookgenError(*merge.findings[:MOST_FINDINGS])
    for table, rows in ((DAY, days), (DRILL, drills), (ENTRY, entries)):
        connection.executemany(table.insert(), rows)
    return len(days), len(drills), len(entries)


class Merge:
    """What a log holds and what is taken in, by their keys."""

    def __init__(self, connection: sqlite3.Connection, file: str) -> None:
        """Begin with what the log holds."""
        self.file = file
        self.findings: list[Finding] = []
        self.held = {
            table.name: {
                tuple(row[: table.keys]): tuple(row) for row in connection.execute(table.select())
            }
            for table in (DAY, DRILL, ENTRY)
        }

    def take_in(self, table: Table, rows: Sequence[DayRow | DrillRow | EntryRow]) -> list[Cells]:
        """The rows that are new; what cannot be is told in `findings`."""
        held, new = self.held[table.name], []
        for row in rows:
            cells = tuple(cell_of(getattr(row, column)) for column in table.columns)
            before = held.setdefault(cells[: table.keys], cells)
            if before != cells:
                problem = f"{told(row)} is another one in the log"
                self.findings.append(Finding(self.file, problem, APART))
            elif before is cells:
                new.append(cells)
                self.findings += [Finding(self.file, fault, MEND) for fault in self.faults(row)]
        return new

    def faults(self, row: DayRow | DrillRow | EntryRow) -> Iterator[str]:
        """What a row belongs to and is not there."""
        match row:
            case DrillRow():
                if (row.player, str(row.date), instant_text(row.printed)) not in self.held["day"]:
                    yield f"{told(row)} stands on no printed day"
            case EntryRow():
                if (row.player, row.number) not in self.held["drill"]:
                    yield f"{told(row)} was never printed"
                if not self.is_entry(row):
                    yield f"{told(row)} is neither a result with its day nor takes one back"
            case DayRow():
                return

    def is_entry(self, row: EntryRow) -> bool:
        """Whether it is a result with its day, or takes an earlier result back."""
        if row.undoes is None:
            return row.result is not None and row.date is not None
        if row.result is not None or row.date is not None or row.undoes >= row.entered:
            return False
        undone = self.held["entry"].get((row.player, row.number, instant_text(row.undoes)))
        return undone is not None and undone[ENTRY.keys] is not None


def cell_of(value: str | int | Date | datetime | None) -> Cell:
    """A value as the log keeps it."""
    match value:
        case datetime():
            return instant_text(value)
        case Date():
            return value.isoformat()
        case _:
            return value


def told(row: DayRow | DrillRow | EntryRow) -> str:
    """A row as a teacher knows it."""
    match row:
        case DayRow():
            return f"{row.player}, {row.date}"
        case DrillRow():
            return f"{row.player}, No. {row.number}"
        case EntryRow():
            return f"{row.player}, No. {row.number}, entered {instant_text(row.entered)},"
