"""Files that appear whole or not at all."""

import os
import re
import tempfile
import unicodedata
from collections.abc import Sequence
from pathlib import Path
from typing import Final

from bookgen.errors import BookgenError, Finding

OUTPUT: Final = Path("output")
LONGEST_NAME: Final = 40


def refuse_places(*places: tuple[str, Path | None]) -> None:
    """Refuse places where no file can be written, before any work is done.

    places: the option's name as the user knows it, and the path given with it.

    Raises:
        BookgenError: a place is a folder or no ordinary file, lies under a file, or is given
            twice; all of them are told.
    """
    findings: list[Finding] = []
    taken: dict[Path, str] = {}
    for option, path in places:
        if path is None:
            continue
        problem = place_problem(path)
        if problem is None and path.resolve() in taken:
            problem = f"the same place as {taken[path.resolve()]}"
        if problem is not None:
            findings.append(Finding(f"{option} {path}", problem, "choose another place"))
        taken.setdefault(path.resolve(), option)
    if findings:
        raise BookgenError(*findings)


def place_problem(path: Path) -> str | None:
    """Why no file can be written there, or None."""
    try:
        if path.is_dir():
            return "it is a folder"
        if path.exists() and not path.is_file():
            return "it is no ordinary file"
        nearest = next(folder for folder in path.absolute().parents if folder.exists())
    except OSError as error:
        return f"it cannot be looked at ({error.strerror})"
    if not nearest.is_dir():
        return f"{nearest.name} is no folder"
    return None if os.access(nearest, os.W_OK) else f"the folder {nearest} cannot be written"


def write_whole(files: Sequence[tuple[Path, bytes]]) -> None:
    """Write all files, or none: each is written beside its place first, then all are moved in.

    A symbolic link is followed; the permissions of a file that is replaced stay.

    Raises:
        BookgenError: a folder cannot be made or written; nothing is left behind.
    """
    waiting: list[tuple[Path, Path]] = []
    new_folders = [folder for path, _ in files for folder in missing_folders(path)]
    place = files[0][0]
    try:
        for place, content in files:
            waiting.append((written_beside(place.resolve(), content), place.resolve()))
        for temporary, place in waiting:
            temporary.replace(place)
    except OSError as error:
        for temporary, _ in waiting:
            temporary.unlink(missing_ok=True)
        for folder in new_folders:
            remove_if_empty(folder)
        problem = f"cannot be written ({error.strerror})"
        raise BookgenError(Finding(str(place), problem, "choose another place")) from error


def missing_folders(path: Path) -> list[Path]:
    """The folders that must be made for a file, the innermost first."""
    return [folder for folder in path.parents if not folder.exists()]


def remove_if_empty(folder: Path) -> None:
    """Take back a folder that was made for files which then could not be written."""
    if folder.is_dir() and not any(folder.iterdir()):
        folder.rmdir()


def written_beside(path: Path, content: bytes) -> Path:
    """Write the content into a temporary file in the folder of its place.

    Raises:
        OSError: the folder cannot be written.
    """
    path.parent.mkdir(parents=True, exist_ok=True)
    mode = path.stat().st_mode & 0o777 if path.exists() else 0o666 & ~current_umask()
    handle, name = tempfile.mkstemp(prefix=f".{path.name[:LONGEST_NAME]}.", dir=path.parent)
    temporary = Path(name)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(content)
        temporary.chmod(mode)
    except BaseException:
        temporary.unlink(missing_ok=True)
        raise
    return temporary


def current_umask() -> int:
    """The permissions that new files do not get; reading them means setting them twice."""
    mask = os.umask(0)
    os.umask(mask)
    return mask


def file_stem(name: str) -> str:
    """A file name from a player's name: small letters and digits of any script, hyphens.

    >>> file_stem("Ines O'Hara")
    'ines-o-hara'
    """
    plain = unicodedata.normalize("NFKC", name).casefold()
    words = re.findall(r"[^\W_]+", plain)
    return "-".join(words)[:LONGEST_NAME].rstrip("-") or "player"
