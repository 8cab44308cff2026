"""What an ICC profile says of itself: for which device, in which inks, under which name."""

import struct
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Final

from bookgen.errors import RefusedError

HEADER: Final = 128
OUTPUT: Final = b"prtr"
INKS: Final[Mapping[bytes, int]] = {b"GRAY": 1, b"CMYK": 4}
"""Colour spaces in which black ink can be printed, with their number of inks."""

REGISTERED: Final = "ICCHDAT "
"""Stands before a name of the ICC's register of characterisation data (ICC.1:2010, 9.2.14)."""


@dataclass(frozen=True)
class Profile:
    """An output profile of black ink or of the four inks.

    Raises:
        RefusedError: the bytes are no ICC profile, or not one of a press that prints black.

    Source: ICC.1:2010, 7.2 (header), 7.3 (tag table), 10 (types of tags).
    """

    data: bytes

    def __post_init__(self) -> None:
        """Refuse all that cannot stand for a press.

        Raises:
            RefusedError: it is such a thing.
        """
        data = self.data
        if data[36:40] != b"acsp":
            raise RefusedError("profile-none")
        if int.from_bytes(data[:4]) != len(data) or not self.holds_its_tags():
            raise RefusedError("profile-damaged")
        if data[12:16] != OUTPUT:
            raise RefusedError("profile-device", kind=shown(data[12:16]))
        if data[16:20] not in INKS:
            raise RefusedError("profile-colour", colour=shown(data[16:20]))

    def holds_its_tags(self) -> bool:
        """Whether the table of tags and each of them lie within the profile."""
        count = int.from_bytes(self.data[HEADER : HEADER + 4])
        end = HEADER + 4 + 12 * count
        return end <= len(self.data) and all(
            end <= start and start + length <= len(self.data)
            for start, length in self.table.values()
        )

    @cached_property
    def table(self) -> Mapping[bytes, tuple[int, int]]:
        """Where each tag begins, and how long it is."""
        count = int.from_bytes(self.data[HEADER : HEADER + 4])
        rows = self.data[HEADER + 4 : HEADER + 4 + 12 * count]
        whole = len(rows) // 12 * 12
        return {name: (at, size) for name, at, size in struct.iter_unpack(">4sII", rows[:whole])}

    @property
    def inks(self) -> int:
        """How many."""
        return INKS[self.data[16:20]]

    @property
    def condition(self) -> str:
        """The registered printing condition that it was made for; empty where it names none."""
        text = self.text(b"targ")
        return text.removeprefix(REGISTERED).strip() if text.startswith(REGISTERED) else ""

    @property
    def name(self) -> str:
        """What its maker called it."""
        return self.text(b"desc").strip() or "ICC profile"

    def text(self, tag: bytes) -> str:
        """The words of a tag; empty where there is none."""
        start, length = self.table.get(tag, (0, 0))
        held = self.data[start : start + length]
        kind = held[:4] if tag in self.table else b""
        if kind == b"text":
            return held[8:].partition(b"\0")[0].decode("ascii", "replace")
        if kind == b"desc":
            return held[12:].partition(b"\0")[0].decode("ascii", "replace")
        if kind == b"mluc":
            size, at = int.from_bytes(held[20:24]), int.from_bytes(held[24:28])
            return held[at : at + size].decode("utf-16-be", "replace")
        return ""


def shown(signature: bytes) -> str:
    """Four bytes of a header as they are read."""
    return signature.decode("latin-1").strip()
