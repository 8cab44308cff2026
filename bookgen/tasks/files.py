"""Files that appear together, whole and on the disk, or not at all."""

import errno
import os
import shutil
import tempfile
from collections.abc import Iterable, Sequence
from contextlib import ExitStack
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from bookgen.errors import BookgenError, Finding, told
from bookgen.tasks.leftovers import prefix, sweep

NO_SYNC: Final = frozenset({errno.EINVAL, errno.ENOTSUP})
"""A file system that cannot be asked to write a folder down says so."""


@dataclass(slots=True)
class Move:
    """A file on its way: written beside its place, then moved there.

    backup: what stood in the place before, once that is kept; None where nothing did.
    """

    temporary: Path
    place: Path
    backup: Path | None = None

    def make(self) -> None:
        """Keep what stands in the place, and move the new file there.

        Raises:
            OSError: either cannot be done; the place is as it was.
        """
        if self.place.exists():
            self.backup = beside(self.place)
            self.backup.unlink()
            keep_as(self.place, self.backup)
        self.temporary.replace(self.place)

    def take_back(self) -> None:
        """Put back what stood in the place.

        Raises:
            OSError: it cannot be put back.
        """
        if self.backup is not None:
            self.backup.replace(self.place)
        else:
            self.place.unlink(missing_ok=True)

    def clear(self) -> None:
        """Remove what is left beside the place."""
        for path in (self.temporary, self.backup):
            if path is not None:
                path.unlink(missing_ok=True)


def write_whole(files: Sequence[tuple[Path, bytes]]) -> None:
    """Write all files, or none, and have them on the disk.

    Each is written beside its place first, then all are moved in; where one cannot be, those
    before it are taken back. A symbolic link is followed; the permissions of a file that is
    replaced stay.

    Raises:
        BookgenError: a folder cannot be made or written; nothing is left behind.
    """
    new_folders = [folder for path, _ in files for folder in missing_folders(path)]
    place = files[0][0]
    with ExitStack() as after:
        moves: list[Move] = []
        after.callback(clear, moves, new_folders)
        try:
            for place, content in files:
                moves.append(Move(written_beside(place.resolve(), content), place.resolve()))
            with ExitStack() as undo:
                for move in moves:
                    place = move.place
                    move.make()
                    undo.callback(move.take_back)
                sync_folders(move.place.parent for move in moves)
                undo.pop_all()
        except OSError as error:
            problem = told("cannot be written ({reason})", reason=error.strerror)
            finding = Finding(str(place), problem, told("choose another place"))
            raise BookgenError(finding) from error


def clear(moves: Iterable[Move], new_folders: Iterable[Path]) -> None:
    """Remove what is no longer needed: temporary files, and folders that stayed empty."""
    for move in moves:
        move.clear()
    for folder in new_folders:
        remove_if_empty(folder)


def missing_folders(path: Path) -> list[Path]:
    """The folders that must be made for a file, the innermost first."""
    return [folder for folder in path.parents if not folder.exists()]


def remove_if_empty(folder: Path) -> None:
    """Take back a folder that was made for files which then could not be written."""
    if folder.is_dir() and not any(folder.iterdir()):
        folder.rmdir()


def written_beside(path: Path, content: bytes) -> Path:
    """Write the content into a temporary file in the folder of its place, down to the disk.

    Raises:
        OSError: the folder cannot be written.
    """
    path.parent.mkdir(parents=True, exist_ok=True)
    sweep(path.parent)
    mode = path.stat().st_mode & 0o777 if path.exists() else 0o666 & ~current_umask()
    temporary = beside(path)
    try:
        with temporary.open("wb") as stream:
            stream.write(content)
            stream.flush()
            os.fsync(stream.fileno())
        temporary.chmod(mode)
    except BaseException:
        temporary.unlink(missing_ok=True)
        raise
    return temporary


def beside(path: Path) -> Path:
    """A new, empty temporary file in the folder of a place.

    Raises:
        OSError: the folder cannot be written.
    """
    handle, name = tempfile.mkstemp(prefix=f".{prefix()}", dir=path.parent)
    os.close(handle)
    return Path(name)


def keep_as(path: Path, backup: Path) -> None:
    """Have a file under a second name.

    Raises:
        OSError: it can be neither linked nor copied.
    """
    try:
        backup.hardlink_to(path)
    except OSError:  # a file system without hard links
        shutil.copy2(path, backup)


def sync_folders(folders: Iterable[Path]) -> None:
    """Have the entries of folders on the disk, where the system can be asked for it.

    Raises:
        OSError: a folder cannot be opened.
    """
    if os.name != "posix":
        return
    for folder in set(folders):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        except OSError as error:
            if error.errno not in NO_SYNC:
                raise
        finally:
            os.close(handle)


def current_umask() -> int:
    """The permissions that new files do not get; reading them means setting them twice."""
    mask = os.umask(0)
    os.umask(mask)
    return mask
