"""`bookgen new-studio`: a studio file to begin with, every line of it explained."""

import argparse
from importlib import resources
from pathlib import Path

from bookgen.commands.arguments import Commands
from bookgen.commands.output import missing_folders, remove_if_empty, written_beside
from bookgen.commands.roster import STUDIO_FILE
from bookgen.errors import BookgenError, Finding


def add(commands: Commands) -> None:
    """Describe the command to the parser."""
    parser = commands.add_parser("new-studio", help="write a studio.toml to begin with")
    parser.add_argument(
        "folder",
        type=Path,
        nargs="?",
        default=Path(),
        metavar="DIR",
        help="this folder if not given",
    )
    parser.add_argument("--quiet", action="store_true", help="print nothing but errors")
    parser.set_defaults(run=run_new_studio)


def run_new_studio(given: argparse.Namespace) -> Path:
    """Write the file where there is none yet. Returns its path.

    Raises:
        BookgenError: there is one, or the folder cannot be written.
    """
    path: Path = given.folder / STUDIO_FILE
    write_new(path, starter())
    return path


def starter() -> bytes:
    """An invented studio, explained line by line."""
    return (resources.files("bookgen") / "data" / STUDIO_FILE.name).read_bytes()


def write_new(path: Path, content: bytes) -> None:
    """Write a file whole where there is none, or nothing.

    Raises:
        BookgenError: something of that name is there, or the folder cannot be written.
    """
    if path.exists() or path.is_symlink():
        mend = "it stays as it is: change it there, or name another folder"
        raise BookgenError(Finding(str(path), "there is one already", mend))
    made = missing_folders(path)
    try:
        temporary = written_beside(path, content)
        try:
            move_new(temporary, path)
        finally:
            temporary.unlink(missing_ok=True)
    except OSError as error:
        for folder in made:
            remove_if_empty(folder)
        problem = f"cannot be written ({error.strerror})"
        raise BookgenError(Finding(str(path), problem, "name another folder")) from error


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
