"""The whole practice log as a file to keep or to take in: CSV or JSON by its ending."""

from pathlib import Path
from typing import Final

from bookgen.commands.output import refuse_places, write_whole
from bookgen.commands.roster import LOG_FILE
from bookgen.errors import BookgenError, Finding
from bookgen.studio.log_copy import as_csv, as_json, from_csv, from_json
from bookgen.studio.practice_log import open_log

WRITE: Final = {".csv": as_csv, ".json": as_json}
READ: Final = {".csv": from_csv, ".json": from_json}
LARGEST: Final = 1024 * 1024 * 1024
"""Bytes; a year of one player has about ten million."""


def export_log(path: Path) -> Path:
    """Copy everything into a file. Returns its path.

    Raises:
        BookgenError: there is no log, the ending is another one, or the file cannot be written.
    """
    write = WRITE[ending("--export", path)]
    refuse_places(("--export", path))
    if not LOG_FILE.exists():
        mend = "print a sheet first"
        raise BookgenError(Finding(str(LOG_FILE), "there is no practice log in this folder", mend))
    with open_log(LOG_FILE) as log:
        copied = log.export()
    write_whole([(path, write(copied))])
    return path


def import_log(path: Path) -> str:
    """Take in everything of a copy that the log does not hold yet; make a log if need be.

    Raises:
        BookgenError: the file cannot be read, is no copy of a log, or is at odds with ours.
    """
    read = READ[ending("--import", path)]
    copied = read(bytes_of(path), str(path))
    with open_log(LOG_FILE) as log:
        new = log.restore(copied, str(path))
    counted = f"printed days {new.days}, drills {new.drills}, entries {new.entries}"
    return f"new in the log: {counted}\n{LOG_FILE}"


def ending(option: str, path: Path) -> str:
    """The ending of a file's name, which chooses its form.

    Raises:
        BookgenError: it is none of those that there are.
    """
    found = path.suffix.lower()
    if found not in WRITE:
        problem = f"the name ends in {found!r}" if found else "the name has no ending"
        raise BookgenError(Finding(f"{option} {path}", problem, "let it end in .csv or .json"))
    return found


def bytes_of(path: Path) -> bytes:
    """The content of a file.

    Raises:
        BookgenError: it cannot be read, or is far too large.
    """
    mend = "give a file that --export wrote"
    try:
        with path.open("rb") as stream:
            content = stream.read(LARGEST + 1)
    except OSError as error:
        problem = f"cannot be read ({error.strerror})"
        raise BookgenError(Finding(str(path), problem, mend)) from error
    if len(content) > LARGEST:
        raise BookgenError(Finding(str(path), "larger than any practice log", mend))
    return content
