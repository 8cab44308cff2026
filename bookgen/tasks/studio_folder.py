"""The folder of a studio: studio.toml, the practice log, and files that are named there."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Final

from bookgen.errors import BookgenError, Finding, told
from bookgen.readers.studio.file import Player, Studio, parse_studio
from bookgen.readers.studio.language import named_language
from bookgen.studio.practice_log import LOG_NAME, PracticeLog, open_log
from bookgen.studio.renaming import rename

STUDIO_NAME: Final = "studio.toml"
OUTPUT: Final = "output"
"""Folder for what is made, where no other place is given."""

NO_STUDIO: Final = Studio()


@dataclass(frozen=True)
class StudioFolder:
    """A folder in which a studio may stand; every path that a user gives is relative to it."""

    path: Path

    @property
    def file(self) -> Path:
        """The studio's file."""
        return self.path / STUDIO_NAME

    @property
    def log_file(self) -> Path:
        """The practice log's file."""
        return self.path / LOG_NAME

    @property
    def output(self) -> Path:
        """Where files go for which nothing else is said."""
        return self.path / OUTPUT

    @cached_property
    def studio(self) -> Studio:
        """The studio, or an empty one where there is none.

        Raises:
            BookgenError: there is a studio file, but it is damaged.
        """
        if not self.file.exists():
            return NO_STUDIO
        try:
            return parse_studio(self.file.read_text(encoding="utf-8-sig"), str(self.file))
        except (OSError, UnicodeDecodeError) as error:
            problem = told("cannot be read ({reason})", reason=error)
            mend = told("make it a readable text file in UTF-8")
            raise BookgenError(Finding(str(self.file), problem, mend)) from error

    @property
    def language(self) -> str | None:
        """The language that the studio's file names, whatever else may be wrong with the file."""
        try:
            return named_language(self.file.read_text(encoding="utf-8-sig"))
        except (OSError, UnicodeDecodeError):
            return None

    @property
    def has_studio(self) -> bool:
        """Whether there is a studio file.

        Raises:
            BookgenError: it is damaged.
        """
        return self.studio is not NO_STUDIO

    def keeps(self, player: Player) -> bool:
        """Whether the practice log keeps what is printed for a player: they are on the roster."""
        return player.name in self.studio.players

    @contextmanager
    def log(self, *, make: bool = True) -> Iterator[PracticeLog]:
        """The practice log, in which everyone has their present name.

        make: False leaves the disk as it is: where there is no log, it is an empty one.

        Raises:
            BookgenError: it is damaged, cannot be written, or held too long by another command.
        """
        with open_log(self.log_file, make=make) as log:
            for player in self.studio.players.values():
                if player.formerly is not None:
                    rename(log.store, player.formerly, player.name, LOG_NAME)
            yield log

    @contextmanager
    def log_of(self, player: Player) -> Iterator[PracticeLog | None]:
        """The practice log, or None where it does not keep what is printed for the player.

        Raises:
            BookgenError: as `log` does.
        """
        if not self.keeps(player):
            yield None
            return
        with self.log() as log:
            yield log
