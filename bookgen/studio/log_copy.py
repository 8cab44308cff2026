"""A whole practice log as one value, and its JSON."""

from typing import Final, Literal

import msgspec

from bookgen.errors import BookgenError, Finding, Message
from bookgen.studio.copy_version_1 import LogCopy1, brought_up
from bookgen.studio.rows import DayRow, DrillRow, EntryRow, ItemRow, Row

MEND: Final = Message("log-export-anew")
FORMAT: Final = "bookgen-practice-log"
VERSION: Final = 2


class LogCopy(Row, frozen=True, kw_only=True):
    """A whole practice log."""

    format: Literal["bookgen-practice-log"] = FORMAT
    version: Literal[2] = VERSION
    days: tuple[DayRow, ...]
    drills: tuple[DrillRow, ...]
    items: tuple[ItemRow, ...]
    entries: tuple[EntryRow, ...]


class Version(msgspec.Struct):
    """Which version of the copy a document is."""

    version: int = VERSION


def as_json(copied: LogCopy) -> bytes:
    """The copy as JSON text, two spaces a level."""
    return msgspec.json.format(msgspec.json.encode(copied), indent=2) + b"\n"


def from_json(text: bytes, file: str) -> LogCopy:
    """Read a copy's JSON, also that of version 1.

    file: the name under which the user knows it.

    Raises:
        BookgenError: the text is no copy of a log.
    """
    try:
        if msgspec.json.decode(text, type=Version).version == 1:
            return LogCopy(**brought_up(msgspec.json.decode(text, type=LogCopy1)))
        return msgspec.json.decode(text, type=LogCopy)
    except msgspec.ValidationError as error:
        problem, _, path = str(error).partition(" - at ")
        where = path.strip("`").removeprefix("$").removeprefix(".")
        raise BookgenError(Finding(f"{file}, {where}" if where else file, problem, MEND)) from error
    except (msgspec.DecodeError, UnicodeDecodeError, RecursionError) as error:
        no_json = Message("log-copy-no-json", {"why": str(error)})
        raise BookgenError(Finding(file, no_json, MEND)) from error
