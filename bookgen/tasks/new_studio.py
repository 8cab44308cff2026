"""A studio file to begin with, every line of it explained."""

from importlib import resources
from pathlib import Path

from bookgen.errors import BookgenError, Finding, told
from bookgen.tasks.files import missing_folders, remove_if_empty, sync_folders, written_beside
from bookgen.tasks.look import Made
from bookgen.tasks.studio_folder import STUDIO_NAME, StudioFolder


def make_studio(folder: StudioFolder) -> Made:
    """Write the file where there is none yet.

    Raises:
        BookgenError: there is one, or the folder cannot be written.
    """
    write_new(folder.file, starter())
    return Made((folder.file,))


def starter() -> bytes:
    """An invented studio, explained line by line."""
    return (resources.files("bookgen") / "data" / STUDIO_NAME).read_bytes()


def write_new(path: Path, content: bytes) -> None:
    """Write a file whole where there is none, or nothing.

    Raises:
        BookgenError: something of that name is there, or the folder cannot be written.
    """
    if path.exists() or path.is_symlink():
        mend = told("it stays as it is: change it there, or name another folder")
        raise BookgenError(Finding(str(path), told("there is one already"), mend))
    made = missing_folders(path)
    try:
        temporary = written_beside(path, content)
        try:
            move_new(temporary, path)
            sync_folders([path.parent])
        finally:
            temporary.unlink(missing_ok=True)
    except OSError as error:
        for folder in made:
            remove_if_empty(folder)
        problem = told("cannot be written ({reason})", reason=error.strerror)
        raise BookgenError(Finding(str(path), problem, told("name another folder"))) from error


def move_new(temporary: Path, path: Path) -> None:
    """Move a file to a place where there is none; unlike a plain move this replaces nothing.

    Raises:
        FileExistsError: another command was quicker.
    """
    try:
        path.hardlink_to(temporary)
    except FileExistsError:
        raise
    except OSError:  # a file system without hard links
        temporary.replace(path)
