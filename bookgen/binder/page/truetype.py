"""What a TrueType file says of itself: its family."""

from pathlib import Path
from struct import error as StructError  # noqa: N812
from struct import unpack_from
from typing import Final

from bookgen.errors import RefusedError

OUTLINES: Final = (b"\x00\x01\x00\x00", b"true")
"""First bytes of a file with TrueType outlines (OpenType specification, table directory)."""

FAMILY: Final = 1
WINDOWS: Final = 3


def family_name(file: Path) -> str:
    """Name of a TrueType file's family.

    Raises:
        RefusedError: the file has no TrueType outlines, or does not name its family.

    Source: OpenType specification, table directory and naming table.
    """
    data = file.read_bytes()
    if data[:4] not in OUTLINES:
        raise RefusedError("font-outlines")
    try:
        for record in name_records(data):
            platform, name, text = record
            if (platform, name) == (WINDOWS, FAMILY):
                return text.decode("utf-16-be")
    except (StructError, UnicodeDecodeError) as error:
        raise RefusedError("font-names") from error
    raise RefusedError("font-family")


def name_records(data: bytes) -> list[tuple[int, int, bytes]]:
    """Platform, number and text of every name in the file."""
    (tables,) = unpack_from(">H", data, 4)
    for index in range(tables):
        tag, _, start, _ = unpack_from(">4sLLL", data, 12 + 16 * index)
        if tag == b"name":
            _, count, texts = unpack_from(">HHH", data, start)
            records = [
                unpack_from(">HHHHHH", data, start + 6 + 12 * number) for number in range(count)
            ]
            return [
                (platform, name, data[start + texts + at : start + texts + at + length])
                for platform, _, _, name, length, at in records
            ]
    return []
