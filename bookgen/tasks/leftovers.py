"""Temporary files and folders: named so that the next run knows what a killed one left."""

import os
import platform
import re
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from hashlib import sha256
from pathlib import Path
from typing import Final

MACHINE: Final = sha256(platform.node().encode()).hexdigest()[:6]
"""Another machine may write into the same folder of a network; its processes are not ours."""

OURS: Final = re.compile(r"\.?bookgen-(?P<machine>[0-9a-f]{6})-(?P<process>[0-9]+)-\w+")


LONGEST_PROCESS: Final = 9
"""Digits; no system counts its processes further."""


def prefix() -> str:
    """How the names of this process's temporary files begin, behind a dot in a user's folder."""
    return f"bookgen-{MACHINE}-{os.getpid()}-"


def sweep(folder: Path) -> None:
    """Remove what killed runs on this machine left in a folder."""
    for path in (*folder.glob(".bookgen-*"), *folder.glob("bookgen-*")):
        if is_left(path.name):
            remove(path)


def is_left(name: str) -> bool:
    """Whether a name is one of ours, and the process that made it is no more."""
    match = OURS.fullmatch(name)
    if match is None or match["machine"] != MACHINE:
        return False
    return not is_running(int(match["process"][:LONGEST_PROCESS]))


def is_running(process: int) -> bool:
    """Whether there is a process of that number; where that cannot be asked, there may be."""
    if os.name != "posix":
        return True
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    except PermissionError:
        return True
    return True


def remove(path: Path) -> None:
    """Remove a file or a folder with all that is in it, if it is this user's."""
    if path.is_dir() and not path.is_symlink():
        shutil.rmtree(path, ignore_errors=True)
        return
    with suppress(PermissionError):  # another user's, in a folder that many write to
        path.unlink(missing_ok=True)


@contextmanager
def working_folder() -> Iterator[Path]:
    """A folder for the engraver, gone afterwards; what killed runs left is swept first."""
    sweep(Path(tempfile.gettempdir()))
    with tempfile.TemporaryDirectory(prefix=prefix()) as folder:
        yield Path(folder)
