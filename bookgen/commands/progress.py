"""A word to the user when work takes more than a moment, and a bar where much of it is left."""

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from itertools import count
from threading import Timer
from typing import Final, TextIO

from bookgen.commands.screen import line
from bookgen.errors import Said

MOMENT_SECONDS: Final = 1.0
LEAST_PIECES: Final = 2
"""Of one piece of work nothing can be said before it is done."""


@dataclass(frozen=True, slots=True)
class Telling:
    """Tells a user at a screen what takes long.

    stream: the error stream if None, so that a command's result stays apart.
    """

    quiet: bool = False
    stream: TextIO | None = None
    moment_seconds: float = MOMENT_SECONDS

    @property
    def target(self) -> TextIO:
        """Where words go."""
        return self.stream or sys.stderr

    @contextmanager
    def __call__(self, what: Said) -> Iterator[None]:
        """Print a line if what runs inside is not done within a moment."""
        if self.quiet:
            yield
            return
        told = {"file": self.target, "flush": True}
        timer = Timer(self.moment_seconds, print, args=(line(what),), kwargs=told)
        timer.daemon = True
        timer.start()
        try:
            yield
        finally:
            timer.cancel()

    @contextmanager
    def through(self, pieces: int) -> Iterator[Callable[[Said], "Telling"]]:
        """Show how many pieces of work are left, where the words go to a terminal.

        What is given is called with the name of each piece that comes to its end next, and
        tells what that takes: nothing, where the bar does.
        """
        if self.quiet or pieces < LEAST_PIECES or not self.target.isatty():
            yield lambda _: self
            return
        from bookgen.commands.progress_bar import bar_on  # noqa: PLC0415  only where it is seen

        with bar_on(self.target) as bar:
            task, done = bar.add_task("", total=pieces), count()

            def next_one(name: Said) -> Telling:
                bar.update(task, description=line(name), completed=next(done))
                return Telling(quiet=True)

            yield next_one
