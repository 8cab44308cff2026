"""A word to the user when work takes more than a moment."""

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from threading import Timer
from typing import Final, TextIO

MOMENT_SECONDS: Final = 1.0


@contextmanager
def told_after_a_moment(
    text: str, *, quiet: bool, stream: TextIO | None = None, moment: float = MOMENT_SECONDS
) -> Iterator[None]:
    """Print a line if what runs inside is not done within a moment.

    stream: None is the standard error stream, so that a command's result stays apart.
    """
    if quiet:
        yield
        return
    target = stream or sys.stderr
    timer = Timer(moment, print, args=(text,), kwargs={"file": target, "flush": True})
    timer.daemon = True
    timer.start()
    try:
        yield
    finally:
        timer.cancel()
