"""A profile of one black ink on book paper, for where the printer has given none."""

import struct
from functools import cache
from typing import Final

PAPER_LIGHTNESS: Final = 95.7
"""CIE L* of white uncoated paper (FOGRA29, 2003: offset on paper type 4)."""

BLACK_LIGHTNESS: Final = 31.9
"""CIE L* of full black on it (FOGRA29)."""

TONE_GAIN: Final = 0.215
"""How much larger a half tone prints. Own choice: with it each step of FOGRA29's ramp of black is
met within 1.2 of L* (`tests/published/black_ramp.toml`)."""

STEPS: Final = 256
D50: Final = (0.9642, 1.0, 0.8249)
"""The light in which profiles are seen (ICC.1:2010, 7.2.16)."""

NAME: Final = "Black ink on uncoated paper"
RIGHTS: Final = "No copyright is claimed."
WRITTEN: Final = (2026, 1, 1, 0, 0, 0)


def luminance(lightness: float) -> float:
    """CIE Y of L*, where white is 1.

    >>> luminance(100.0), round(luminance(50.0), 4)
    (1.0, 0.1842)

    Source: CIE 15:2004, 8.2.1.
    """
    return ((lightness + 16) / 116) ** 3 if lightness > 8 else lightness / 903.3  # noqa: PLR2004


def printed(tone: float) -> float:
    """The share of the paper that a tone covers in print: none and all stay what they are.

    >>> printed(0.0), printed(0.5), printed(1.0)
    (0.0, 0.715, 1.0)
    """
    return tone + 4 * TONE_GAIN * tone * (1 - tone)


def reflected(gray: float) -> float:
    """How light a gray prints, 0 for black to 1 for white, where the paper is 1.

    Source: Murray and Davies, 1936: dots and the paper between them, by their shares.
    """
    black = luminance(BLACK_LIGHTNESS) / luminance(PAPER_LIGHTNESS)
    return 1 - printed(1 - gray) * (1 - black)


@cache
def gray_profile() -> bytes:
    """The profile: monochrome, of an output device (ICC.1:2001-04, 6.3.3.1)."""
    curve = [round(65535 * reflected(step / (STEPS - 1))) for step in range(STEPS)]
    paper = [round(65536 * part * luminance(PAPER_LIGHTNESS)) for part in D50]
    words = NAME.encode("ascii") + b"\0"
    return bound(
        {
            b"desc": b"desc\0\0\0\0" + struct.pack(">I", len(words)) + words + bytes(78),
            b"cprt": b"text\0\0\0\0" + RIGHTS.encode("ascii") + b"\0",
            b"wtpt": b"XYZ \0\0\0\0" + struct.pack(">3i", *paper),
            b"kTRC": b"curv\0\0\0\0" + struct.pack(f">I{STEPS}H", STEPS, *curve),
        }
    )


def bound(tags: dict[bytes, bytes]) -> bytes:
    """Header, table and tags as one profile of version 2.1."""
    table, body = struct.pack(">I", len(tags)), b""
    start = 128 + 4 + 12 * len(tags)
    for tag, data in tags.items():
        table += tag + struct.pack(">II", start + len(body), len(data))
        body += data + bytes(-len(data) % 4)
    light = [round(65536 * part) for part in D50]
    header = struct.pack(
        ">I4xI4s4s4s6H4s28x3i48x",
        128 + len(table) + len(body),
        0x02100000,
        b"prtr",
        b"GRAY",
        b"XYZ ",
        *WRITTEN,
        b"acsp",
        *light,
    )
    return header + table + body
