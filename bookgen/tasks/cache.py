"""The user's cache folder: what was made once and can be made again, by its key."""

import os
import tempfile
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import Final

from bookgen.errors import BookgenError, Finding, told
from bookgen.tasks.leftovers import prefix, sweep

MOST_BYTES: Final = 100_000_000
"""Some twenty thousand drills; a player's month has about a hundred."""

CHECK: Final = sha256().digest_size


@dataclass(frozen=True, slots=True)
class Cache:
    """A folder of entries, each a file that tells by itself whether it is whole.

    Several processes may use it at once: a file appears there whole, and one that is missing is
    only made again. Nothing here ever fails: where the folder cannot be read it is empty, and
    where it cannot be written nothing is kept.

    most: bytes of all entries; those that were used longest ago go first.
    """

    folder: Path
    most: int = MOST_BYTES

    def get(self, key: str) -> bytes | None:
        """The entry of that key, if it is there and undamaged; it counts as used now."""
        file = self.folder / key
        try:
            content = file.read_bytes()
        except OSError:  # it is not there, or not to be read: then it is made anew
            return None
        with suppress(OSError):  # a folder that may only be read is of use too
            os.utime(file)
        check, entry = content[:CHECK], content[CHECK:]
        return entry if sha256(entry).digest() == check else None

    def put(self, entries: Mapping[str, bytes]) -> None:
        """Keep entries, and let go of the oldest where there are too many."""
        with suppress(OSError):  # a full or locked disk: they are made again next time
            self.folder.mkdir(mode=0o700, parents=True, exist_ok=True)
            for key, entry in entries.items():
                self.write(key, entry)
            sweep(self.folder)
            self.trim()

    def write(self, key: str, entry: bytes) -> None:
        """Write one entry beside its place, then move it there.

        Raises:
            OSError: it cannot be written.
        """
        handle, name = tempfile.mkstemp(prefix=prefix(), dir=self.folder)
        try:
            with os.fdopen(handle, "wb") as stream:
                stream.write(sha256(entry).digest() + entry)
            Path(name).replace(self.folder / key)
        except BaseException:
            Path(name).unlink(missing_ok=True)
            raise

    def trim(self) -> None:
        """Remove the entries that were used longest ago, until the others are few enough.

        Raises:
            OSError: the folder cannot be read, or an entry cannot be removed.
        """
        files = sorted(self.entries(), key=lambda found: found[1])
        total = sum(size for _, _, size in files)
        for file, _, size in files:
            if total <= self.most:
                return
            file.unlink(missing_ok=True)
            total -= size

    def entries(self) -> list[tuple[Path, int, int]]:
        """All entries with the time of their last use and their bytes.

        Raises:
            OSError: the folder cannot be read.
        """
        found = []
        for file in self.folder.iterdir():
            with suppress(FileNotFoundError):  # another process has just removed it
                facts = file.stat()
                found.append((file, facts.st_mtime_ns, facts.st_size))
        return found

    def clear(self) -> int:
        """Remove all entries. Returns how many bytes they had.

        Raises:
            BookgenError: one cannot be removed.
        """
        try:
            files = self.entries() if self.folder.is_dir() else []
            for file, _, _ in files:
                file.unlink(missing_ok=True)
        except OSError as error:
            problem = told("cannot be cleared ({reason})", reason=error.strerror)
            mend = told("make the folder yours to write, or remove it")
            raise BookgenError(Finding(str(self.folder), problem, mend)) from error
        return sum(size for _, _, size in files)
