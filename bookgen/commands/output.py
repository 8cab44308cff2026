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


def write_whole(files: Sequence[tuple[Path, bytes]]) -> None:
    """Write all files, or none: each is written beside its place first, then all are moved in.

    Raises:
        BookgenError: a folder cannot be made or written; nothing is left behind.
    """
    waiting: list[tuple[Path, Path]] = []
    new_folders = [folder for path, _ in files for folder in missing_folders(path)]
    try:
        for path, content in files:
            waiting.append((written_beside(path, content), path))
        for temporary, path in waiting:
            temporary.replace(path)
    except OSError as error:
        for temporary, _ in waiting:
            temporary.unlink(missing_ok=True)
        for folder in new_folders:
            remove_if_empty(folder)
        place = str(error.filename or files[0][0])
        mend = "choose another place with --out, or free this one"
        problem = f"cannot be written ({error.strerror})"
        raise BookgenError(Finding(place, problem, mend)) from error


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
        IsADirectoryError: a folder stands in its place.
        OSError: the folder cannot be written.
    """
    if path.is_dir():
        raise IsADirectoryError(None, "it is a folder", str(path))
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(prefix=f".{path.name[:LONGEST_NAME]}.", dir=path.parent)
    temporary = Path(name)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(content)
        temporary.chmod(0o666 & ~current_umask())
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
