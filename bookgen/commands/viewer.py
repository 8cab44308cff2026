"""Hands a finished file to the program with which the user looks at such files."""

import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

from bookgen.errors import BookgenError, Finding, told

Start = Callable[[list[str]], object]


def start_apart(command: list[str]) -> object:
    """Start a program and let it run on by itself."""
    return subprocess.Popen(  # noqa: S603  the command is ours, the path an argument
        command,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        start_new_session=True,
    )


def open_file(path: Path, *, platform: str = sys.platform, start: Start = start_apart) -> None:
    """Open a file as a double click would.

    Raises:
        BookgenError: this system has no opener; the file itself is written all the same.
    """
    openers = {"darwin": "open", "win32": "explorer"}
    opener = shutil.which(openers.get(platform, "xdg-open"))
    if opener is None:
        problem = told("no program to open files here")
        raise BookgenError(Finding("--open", problem, told("open {file}", file=path)))
    start([opener, str(path.resolve())])
