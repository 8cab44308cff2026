"""Where a command may write: never over a studio, a practice log or anything that it reads."""

import os
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from bookgen.errors import BookgenError, Finding, Said, told
from bookgen.studio.practice_log import LOG_NAME
from bookgen.tasks.studio_folder import STUDIO_NAME

DATABASE: Final = b"SQLite format 3\0"
"""How every file of SQLite begins (sqlite.org/fileformat.html, 1.3)."""

ELSEWHERE: Final = told("choose another place")


@dataclass(frozen=True, slots=True)
class Place:
    """A file that a command is to write.

    option: how the user knows the place, e.g. "--plan".
    endings: those that its name may have; none where any will do.
    """

    option: str
    path: Path
    endings: tuple[str, ...] = ()

    @property
    def name(self) -> str:
        """The place as the user gave it."""
        return f"{self.option} {self.path}".strip()


def refuse_places(places: Iterable[Place], inputs: Iterable[Path]) -> None:
    """Refuse places where nothing may be written, before any work is done.

    inputs: files that the command reads.

    Raises:
        BookgenError: a place has another ending, is a folder or no ordinary file, lies under a
            file, is a studio file, a practice log or an input, or is given twice; all of them
            are told.
    """
    findings: list[Finding] = []
    taken: list[Place] = []
    read = list(inputs)
    for place in places:
        finding = ending_fault(place)
        problem = place_problem(place.path) or keeper(place.path, read) or twin(place, taken)
        if finding is not None:
            findings.append(finding)
        elif problem is not None:
            findings.append(Finding(place.name, problem, ELSEWHERE))
        taken.append(place)
    if findings:
        raise BookgenError(*findings)


def ending_fault(place: Place) -> Finding | None:
    """What is wrong with the ending of a name, or None."""
    ending = place.path.suffix
    if not place.endings or ending.lower() in place.endings:
        return None
    problem = (
        told("the name ends in {ending}", ending=repr(ending))
        if ending
        else told("the name has no ending")
    )
    mend = told("let it end in {endings}", endings=" or ".join(place.endings))
    return Finding(place.name, problem, mend)


def place_problem(path: Path) -> Said | None:
    """Why no file can be written there, or None."""
    try:
        return standing(path) or folder_problem(path)
    except OSError as error:
        return told("it cannot be looked at ({reason})", reason=error.strerror)
    except RuntimeError:  # Python's word for links in a circle
        return told("it is a link that leads back to itself")


def standing(path: Path) -> Said | None:
    """What stands in a place where a file is to be, and is none; or None.

    Raises:
        OSError: it cannot be looked at.
        RuntimeError: it is a link that leads back to itself.
    """
    target = path.resolve()
    if target.is_dir():
        return told("it is a folder")
    if target.exists() and not target.is_file():
        return told("it is no ordinary file")
    return None


def folder_problem(path: Path) -> Said | None:
    """Why nothing can be written into the folder of a place, or None.

    Raises:
        OSError: it cannot be looked at.
    """
    nearest = next(folder for folder in path.absolute().parents if folder.exists())
    if not nearest.is_dir():
        return told("{file} is no folder", file=nearest.name)
    if os.access(nearest, os.W_OK):
        return None
    return told("the folder {folder} cannot be written", folder=nearest)


def keeper(path: Path, inputs: Iterable[Path]) -> Said | None:
    """What stands in a place that must stay as it is, or None."""
    target = path.resolve()
    name = target.name.casefold()
    if name == STUDIO_NAME:
        return told("it is a studio file, which is never overwritten")
    if name.startswith(LOG_NAME) or is_database(target):
        return told("it is a practice log, which is never overwritten")
    for file in inputs:
        if is_same(target, file):
            return told("it is read by this command, and stays as it is")
    return None


def twin(place: Place, taken: Iterable[Place]) -> Said | None:
    """That a place was given before, or None."""
    for other in taken:
        if is_same(place.path, other.path):
            return told("the same place as {option}", option=other.option)
    return None


def is_same(one: Path, other: Path) -> bool:
    """Whether two paths lead to one file: by links, by another case, from another folder."""
    if os.path.realpath(one) == os.path.realpath(other):
        return True
    return one.exists() and other.exists() and one.samefile(other)


def is_database(path: Path) -> bool:
    """Whether a file is one of SQLite, whatever its name is."""
    if not path.is_file() or not os.access(path, os.R_OK):
        return False
    with path.open("rb") as stream:
        return stream.read(len(DATABASE)) == DATABASE


def files_in(folder: Path) -> Iterator[Path]:
    """Every file of a folder that is read, e.g. one with a layout."""
    if folder.is_dir():
        yield from (path for path in folder.rglob("*") if path.is_file())
