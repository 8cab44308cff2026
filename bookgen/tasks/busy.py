"""What a task tells of itself while it works."""

from collections.abc import Callable
from contextlib import AbstractContextManager
from typing import Protocol

from bookgen.errors import Said


class Busy(Protocol):
    """Tells the user what takes a while, for as long as it does."""

    def __call__(self, what: Said) -> AbstractContextManager[None]:
        """Tell one thing."""

    def through(self, pieces: int) -> AbstractContextManager[Callable[[Said], "Busy"]]:
        """Tell how much is left of work in pieces; what is given is called for each by name."""
