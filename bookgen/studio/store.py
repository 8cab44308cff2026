"""The SQLite file of the practice log: opened with care, brought to the present schema, asked."""

import math
import sqlite3
import time
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime, timedelta
from functools import cache
from pathlib import Path
from typing import Final

from bookgen.errors import BookgenError, Finding, Message, Said
from bookgen.studio.entries import instant_text
from bookgen.studio.schema import APPLICATION, MIGRATIONS

PATIENCE_SECONDS: Final = 20.0
"""How long one command waits while another one writes."""
LONGEST_SECONDS: Final = 60.0
"""How long one question to the file may take; those of a sound log take far less than one."""
BREATH_SECONDS: Final = 0.1
"""How long SQLite itself waits for another command; in between this process can be ended."""
STEPS_BETWEEN: Final = 10_000
"""Steps of SQLite's machine, some milliseconds, after which the clock is looked at."""
LARGEST_CELL: Final = 256 * 1024 * 1024
"""Bytes of a plan document, or of a question."""

Cell = str | int | None
Steps = tuple[tuple[str, ...], ...]

DEFENCES: Final = {
    sqlite3.SQLITE_DBCONFIG_DEFENSIVE: True,
    sqlite3.SQLITE_DBCONFIG_TRUSTED_SCHEMA: False,
    sqlite3.SQLITE_DBCONFIG_LEGACY_ALTER_TABLE: False,
    sqlite3.SQLITE_DBCONFIG_DQS_DDL: False,
    sqlite3.SQLITE_DBCONFIG_DQS_DML: False,
}
"""A file from outside cannot make SQLite do more than read and write rows.

Source: sqlite.org, "Defense Against The Dark Arts" (from memory).
"""


class DamagedError(Exception):
    """The file holds what no practice log holds."""

    def __init__(self, what: Said) -> None:
        """Say what is odd."""
        super().__init__(str(what))
        self.what = what


class Store:
    """An open file of a practice log."""

    def __init__(self, connection: sqlite3.Connection) -> None:
        """Have every transaction on the disk, whole, before it counts as done."""
        self.connection = connection
        self.ends = math.inf
        for defence, is_on in DEFENCES.items():
            connection.setconfig(defence, is_on)
        connection.setlimit(sqlite3.SQLITE_LIMIT_LENGTH, LARGEST_CELL)
        connection.setlimit(sqlite3.SQLITE_LIMIT_ATTACHED, 0)
        connection.set_progress_handler(self.is_late, STEPS_BETWEEN)
        self.rows("PRAGMA foreign_keys = ON")
        self.rows("PRAGMA cell_size_check = ON")
        self.rows("PRAGMA journal_mode = DELETE")
        self.rows("PRAGMA synchronous = EXTRA")  # FULL, and the folder's entry too

    def is_late(self) -> bool:
        """Whether the question of the moment takes too long."""
        return time.monotonic() > self.ends

    def rows(self, question: str, *values: Cell) -> list[tuple[Cell, ...]]:
        """What answers a question in SQL; other commands are waited for.

        Raises:
            DamagedError: the answer takes too long, or is no text.
            OperationalError: another command holds the file, or it cannot be used.
            KeyboardInterrupt: meanwhile this process was told to end.
        """
        give_up = time.monotonic() + PATIENCE_SECONDS
        while True:
            self.ends = time.monotonic() + LONGEST_SECONDS
            try:
                return self.connection.execute(question, values).fetchall()
            except sqlite3.OperationalError as error:
                sort = sort_of(error)
                if sort == "INTERRUPT" and self.is_late():
                    endless = Message("log-endless", {"seconds": round(LONGEST_SECONDS)})
                    raise DamagedError(endless) from error
                if sort == "INTERRUPT":  # SQLite drops what a signal's handler raised
                    raise KeyboardInterrupt from error
                if not sort:  # letters that are none in UTF-8
                    raise DamagedError(Message("log-odd-rows", {"why": str(error)})) from error
                if sort != "BUSY" or time.monotonic() > give_up:
                    raise

    def number(self, question: str, *values: Cell) -> int:
        """The one number that answers a question in SQL."""
        ((answer,),) = self.rows(question, *values)
        return int(answer or 0)

    @contextmanager
    def transaction(self) -> Iterator[None]:
        """Do everything inside or nothing; other commands wait, and see all of it or nothing."""
        self.rows("BEGIN IMMEDIATE")
        try:
            yield
            self.rows("COMMIT")
        except BaseException:
            if self.connection.in_transaction:
                self.rows("ROLLBACK")
            raise

    def rising(self, table: str, column: str, instant: datetime) -> datetime:
        """An instant above all that a table holds, also where the clock was set back.

        instant: taken as it is where it lies above the others.
        """
        ((last,),) = self.rows(f"SELECT max({column}) FROM {table}")  # noqa: S608
        if last is None or instant_text(instant) > str(last):
            return instant
        return datetime.fromisoformat(str(last)) + timedelta(microseconds=1)

    def schema(self) -> frozenset[tuple[Cell, ...]]:
        """Tables, triggers, views and indexes; the white between words does not count.

        What SQLite notes for itself about the lengths of tables is none of them.
        """
        found = self.rows(
            "SELECT type, name, tbl_name, sql FROM sqlite_schema"
            " WHERE name NOT IN ('sqlite_stat1', 'sqlite_stat4')"
        )
        return frozenset((*words, " ".join(str(sql).split())) for *words, sql in found)


@contextmanager
def opened(path: Path, *, make: bool = True, steps: Steps = MIGRATIONS) -> Iterator[Store]:
    """Open the file of a practice log in the present schema.

    make: where there is no file, make it; otherwise an empty log stands in for it.
    steps: the schema's migrations.

    Raises:
        BookgenError: the file is no practice log, is damaged, was made by a newer bookgen,
            cannot be written, or another command holds it for too long.
        IntegrityError: bookgen broke a rule of the schema.
        ProgrammingError: bookgen used the connection wrongly.
    """
    place = str(path) if make or path.exists() else ":memory:"
    try:
        connection = sqlite3.connect(place, timeout=BREATH_SECONDS, isolation_level=None)
    except sqlite3.Error as error:
        raise BookgenError(trouble(path, error)) from error
    try:
        store = Store(connection)
        bring_up(store, path, steps)
        yield store
    except DamagedError as error:
        raise BookgenError(damaged(path, error.what)) from error
    except (sqlite3.IntegrityError, sqlite3.ProgrammingError):
        raise
    except sqlite3.DatabaseError as error:
        raise BookgenError(trouble(path, error)) from error
    finally:
        connection.close()


def bring_up(store: Store, path: Path, steps: Steps) -> None:
    """Bring a new or an older file to the present schema, in one transaction.

    Raises:
        BookgenError: the file is another program's, or a newer bookgen's.
        DamagedError: its schema is not the one that its version has, or its rows break the
            rules of the present one.
    """
    if version_of(store, path, steps) == len(steps):
        return
    with store.transaction():
        try:
            for step in steps[version_of(store, path, steps) :]:
                for statement in step:
                    store.rows(statement)
        except sqlite3.IntegrityError as error:
            raise DamagedError(Message("log-odd-rows", {"why": str(error)})) from error
        store.rows(f"PRAGMA application_id = {APPLICATION}")
        store.rows(f"PRAGMA user_version = {len(steps)}")


def version_of(store: Store, path: Path, steps: Steps) -> int:
    """The version of a file's schema; 0 where the file is new.

    Raises:
        BookgenError: the file is another program's, or a newer bookgen's.
        DamagedError: its schema is not the one that its version has.
    """
    version, schema = store.number("PRAGMA user_version"), store.schema()
    if store.number("PRAGMA application_id") != APPLICATION:
        if version == 0 and not schema:
            return 0
        raise BookgenError(Finding(str(path), Message("log-foreign"), Message("log-move-out")))
    if version > len(steps):
        known = {"version": version, "known": len(steps)}
        raise BookgenError(Finding(str(path), Message("log-newer", known), Message("log-install")))
    odd = schema ^ schema_of(steps[: max(version, 0)])
    if odd or version <= 0:
        names = ", ".join(sorted({repr(name) for _, name, *_ in odd})) or version
        raise DamagedError(Message("log-odd-schema", {"names": names}))
    return version


@cache
def schema_of(steps: Steps) -> frozenset[tuple[Cell, ...]]:
    """The schema to which steps lead."""
    connection = sqlite3.connect(":memory:", isolation_level=None)
    try:
        for step in steps:
            for statement in step:
                connection.execute(statement)
        return Store(connection).schema()
    finally:
        connection.close()


def trouble(path: Path, error: sqlite3.Error) -> Finding:
    """What SQLite says of a file, as a finding."""
    match sort_of(error):
        case "BUSY" | "LOCKED":
            return Finding(str(path), Message("log-held"), Message("log-wait"))
        case "NOTADB" | "CORRUPT" | "TOOBIG" | "FORMAT" | "MISMATCH":
            return damaged(path, str(error))
        case _:
            problem = Message("log-unusable", {"why": str(error)})
            return Finding(str(path), problem, Message("log-make-room"))


def damaged(path: Path, why: Said) -> Finding:
    """A file that is no sound log, and the way to rescue it."""
    return Finding(str(path), Message("log-damaged", {"why": why}), Message("log-rescue"))


def sort_of(error: sqlite3.Error) -> str:
    """SQLite's own name of an error without its details; empty where Python raised it.

    >>> error = sqlite3.OperationalError()
    >>> error.sqlite_errorname = "SQLITE_BUSY_SNAPSHOT"
    >>> sort_of(error)
    'BUSY'
    """
    return (getattr(error, "sqlite_errorname", None) or "_").split("_")[1]
