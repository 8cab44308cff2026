"""The SQLite file of the practice log: opened, brought to the present schema, written whole."""

import sqlite3
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from datetime import datetime, timedelta
from pathlib import Path
from typing import Final

from bookgen.errors import BookgenError, Finding
from bookgen.studio.entries import instant_text
from bookgen.studio.schema import APPLICATION, MIGRATIONS

PATIENCE_SECONDS: Final = 20.0
"""How long one command waits while another one writes."""

Steps = Sequence[Sequence[str]]


@contextmanager
def opened(
    path: Path, *, make: bool = True, steps: Steps = MIGRATIONS
) -> Iterator[sqlite3.Connection]:
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
        connection = sqlite3.connect(place, timeout=PATIENCE_SECONDS, isolation_level=None)
    except sqlite3.Error as error:
        raise BookgenError(trouble(path, error)) from error
    try:
        prepare(connection)
        bring_up(connection, path, steps)
        yield connection
    except (sqlite3.IntegrityError, sqlite3.ProgrammingError):
        raise
    except sqlite3.DatabaseError as error:
        raise BookgenError(trouble(path, error)) from error
    finally:
        connection.close()


def prepare(connection: sqlite3.Connection) -> None:
    """Have every transaction on the disk, whole, before it counts as done."""
    connection.execute("PRAGMA foreign_keys = ON")
    connection.execute("PRAGMA journal_mode = DELETE")
    connection.execute("PRAGMA synchronous = EXTRA")  # FULL, and the folder's entry too


def bring_up(connection: sqlite3.Connection, path: Path, steps: Steps) -> None:
    """Bring a new or an older file to the present schema, in one transaction.

    Raises:
        BookgenError: the file is another program's, or a newer bookgen's.
    """
    if version_of(connection, path, steps) == len(steps):
        return
    with transaction(connection):
        for step in steps[version_of(connection, path, steps) :]:
            for statement in step:
                connection.execute(statement)
        connection.execute(f"PRAGMA application_id = {APPLICATION}")
        connection.execute(f"PRAGMA user_version = {len(steps)}")


def version_of(connection: sqlite3.Connection, path: Path, steps: Steps) -> int:
    """The version of a file's schema; 0 where the file is new.

    Raises:
        BookgenError: the file is another program's, or a newer bookgen's.
    """
    version = number(connection, "PRAGMA user_version")
    if number(connection, "PRAGMA application_id") != APPLICATION:
        if version == 0 and number(connection, "SELECT count(*) FROM sqlite_schema") == 0:
            return 0
        problem, mend = "a database, but no practice log of bookgen", "move it out of this folder"
        raise BookgenError(Finding(str(path), problem, mend))
    if version > len(steps):
        problem = f"its schema version {version} is a newer bookgen's; this one knows {len(steps)}"
        raise BookgenError(Finding(str(path), problem, "install the newer bookgen"))
    return version


def number(connection: sqlite3.Connection, question: str) -> int:
    """The one number that answers a question in SQL."""
    (answer,) = connection.execute(question).fetchone()
    return int(answer)


def rising(connection: sqlite3.Connection, table: str, column: str, instant: str) -> str:
    """An instant above all that a table holds, also where the clock was set back.

    instant: as the log keeps it; taken as it is where it lies above the others.
    """
    (last,) = connection.execute(f"SELECT max({column}) FROM {table}").fetchone()  # noqa: S608
    if last is None or instant > last:
        return instant
    return instant_text(datetime.fromisoformat(last) + timedelta(microseconds=1))


@contextmanager
def transaction(connection: sqlite3.Connection) -> Iterator[None]:
    """Do everything inside or nothing; other commands wait meanwhile, and see all or nothing."""
    connection.execute("BEGIN IMMEDIATE")
    try:
        yield
        connection.execute("COMMIT")
    except BaseException:
        if connection.in_transaction:
            connection.execute("ROLLBACK")
        raise


def trouble(path: Path, error: sqlite3.Error) -> Finding:
    """What SQLite says of a file, as a finding."""
    match error.sqlite_errorname.partition("_")[2] if has_name(error) else "":
        case "BUSY" | "LOCKED":
            return Finding(
                str(path), "another command holds it", "wait for that one, then try again"
            )
        case "NOTADB" | "CORRUPT":
            mend = "restore it from a copy, or move it away and import an export"
            return Finding(str(path), f"no sound practice log ({error})", mend)
        case _:
            mend = "see that the folder can be written and the disk has room"
            return Finding(str(path), f"cannot be used ({error})", mend)


def has_name(error: sqlite3.Error) -> bool:
    """Whether SQLite itself, not Python, raised the error."""
    return getattr(error, "sqlite_errorname", None) is not None
