"""The whole practice log as a file to keep or to take in: CSV or JSON by its ending."""

from pathlib import Path
from typing import Final

from bookgen.errors import BookgenError, Finding, told
from bookgen.studio.copy_csv import as_csv, from_csv, is_csv_copy
from bookgen.studio.entries import Counts
from bookgen.studio.log_copy import as_json, from_json
from bookgen.studio.practice_log import LOG_NAME
from bookgen.tasks.files import write_whole
from bookgen.tasks.look import Made, PageWish, inputs_of
from bookgen.tasks.places import Place, ending_fault, refuse_places
from bookgen.tasks.studio_folder import StudioFolder

WRITE: Final = {".csv": as_csv, ".json": as_json}
READ: Final = {".csv": from_csv, ".json": from_json}
TABLES: Final = (".tsv", ".txt")
"""Endings that only a table of results has, beside .csv."""

LARGEST: Final = 1024 * 1024 * 1024
"""Bytes; a year of one player has about ten million."""


def export_log(folder: StudioFolder, path: Path) -> Made:
    """Copy everything into a file.

    Raises:
        BookgenError: there is no log, the ending is another one, or the file cannot be written.
    """
    target = folder.path / path
    refuse_places([Place("--export", target, tuple(WRITE))], inputs_of(folder, PageWish()))
    if not folder.log_file.exists():
        problem = told("there is no practice log in this folder")
        raise BookgenError(Finding(LOG_NAME, problem, told("print a sheet first")))
    with folder.log() as log:
        copied = log.export()
    write_whole([(target, WRITE[path.suffix.lower()](copied))])
    return Made((target,))


def holds_copy(folder: StudioFolder, path: Path) -> bool:
    """Whether a file to be taken in is a copy of a log; else it is a table of results.

    Raises:
        BookgenError: it cannot be read, or its ending is that of neither.
    """
    fault = ending_fault(Place("--import", path, (*READ, *TABLES)))
    if fault is not None:
        raise BookgenError(fault)
    content = bytes_of(folder.path / path)
    return path.suffix.lower() == ".json" or is_csv_copy(content)


def import_log(folder: StudioFolder, path: Path) -> Counts:
    """Take in everything of a copy that the log does not hold yet; make a log if need be.

    Raises:
        BookgenError: the file cannot be read, is no copy of a log, or is at odds with ours.
    """
    copied = READ[path.suffix.lower()](bytes_of(folder.path / path), str(path))
    with folder.log() as log:
        return log.restore(copied, str(path))


def bytes_of(path: Path) -> bytes:
    """The content of a file.

    Raises:
        BookgenError: it cannot be read, or is far too large.
    """
    mend = told("give a table of results, or a file that --export wrote")
    try:
        with path.open("rb") as stream:
            content = stream.read(LARGEST + 1)
    except OSError as error:
        problem = told("cannot be read ({reason})", reason=error.strerror)
        raise BookgenError(Finding(str(path), problem, mend)) from error
    if len(content) > LARGEST:
        raise BookgenError(Finding(str(path), told("larger than any practice log"), mend))
    return content
