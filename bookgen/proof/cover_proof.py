"""A finished cover compared with its book: its title, the width of its spine, its number."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import inf
from typing import Final

from bookgen.errors import Message, told
from bookgen.proof.bar_digits import digits_of
from bookgen.proof.printed import Box, Page, bare

MM: Final = 25.4 / 72
OFF_MM: Final = 0.05
ELLIPSIS: Final = "\N{HORIZONTAL ELLIPSIS}"

LEAST_SPINE_MM: Final = 6.0
"""From here on a spine has words (docs/how-to/press.md)."""


@dataclass(frozen=True, slots=True)
class Cover:
    """What a cover has to be.

    title, author: as they can be printed; digits: of its number, or None.
    page_mm: width of a page of the book; spine_mm: how thick its leaves are together.
    """

    title: str
    author: str
    digits: str | None
    page_mm: float
    spine_mm: float


def cover_faults(page: Page, trim: Box, cover: Cover) -> Iterator[Message]:
    """What is wrong on a cover; trim: the sheet as it is cut, in points."""
    spine = trim.width * MM - 2 * cover.page_mm
    if abs(spine - cover.spine_mm) > OFF_MM:
        yield told(
            "the spine is {found} mm wide, and should be {wanted} mm",
            found=f"{spine:.2f}",
            wanted=f"{cover.spine_mm:.2f}",
        )
    back = trim.left + cover.page_mm / MM
    front = trim.right - cover.page_mm / MM

    def words(left: float, right: float) -> str:
        return bare("".join(run.text for run in page.words if left <= run.box.middle[0] < right))

    if bare(cover.title) not in words(front, inf):
        yield told("the title is missing on the front")
    said = words(back, front)
    whole = ELLIPSIS not in said
    if cover.spine_mm >= LEAST_SPINE_MM and whole and said != bare(cover.title + cover.author):
        yield told("the spine says {found}", found=repr(said))
    yield from number_faults(page, words(-inf, back), cover.digits)


def number_faults(page: Page, said: str, digits: str | None) -> Iterator[Message]:
    """What is wrong with the number: in its bars, in the digits below them and over them.

    said: the words of the back.
    """
    bars = digits_of(page.shapes)
    if bars != digits:
        yield told(
            "the bars are those of {found}, and should be of {wanted}",
            found=bars or NO_NUMBER,
            wanted=digits or NO_NUMBER,
        )
    if digits is not None and said.replace("-", "").count(digits) < TWICE:
        yield told("the digits {digits} are missing at the bars", digits=digits)


TWICE: Final = 2
NO_NUMBER: Final = "\N{EN DASH}"
