"""Numbers of drills as they are typed: single ones, ranges, several at once."""

import re
from collections.abc import Iterator, Sequence
from typing import Final

from bookgen.errors import BookgenError, Finding, Message, Said, told

NUMBERS: Final = re.compile("([0-9]{1,7})(?:[-\u2013]([0-9]{1,7}))?")
LONGEST_RANGE: Final = 10_000


def numbers_of(words: Sequence[str], place: Said) -> list[int]:
    """Every number that is meant, in the order in which they stand.

    >>> numbers_of(["3", "5-7,12"], "NUMBER")
    [3, 5, 6, 7, 12]

    place: where they were given, as the user knows it.

    Raises:
        BookgenError: a word is no number or range; all of them are told.
    """
    parts = [part for word in words for part in word.split(",") if part]
    mend = told("write e.g. 3 or 5-8")
    findings = [
        Finding(
            place, told("{text} is no number of a drill or range of them", text=repr(part)), mend
        )
        for part in parts or [" ".join(words)]
        if not is_range(part)
    ]
    if findings:
        raise BookgenError(*findings)
    return [number for part in parts for number in spread(part)]


def no_number(text: str) -> Message:
    """That a word is no number."""
    return told("{text} is no number of a drill or range of them", text=repr(text))


def is_range(part: str) -> bool:
    """Whether a word is one number, or a range that rises."""
    match = NUMBERS.fullmatch(part)
    if match is None:
        return False
    first, last = int(match[1]), int(match[2] or match[1])
    return 1 <= first <= last < first + LONGEST_RANGE


def spread(part: str) -> Iterator[int]:
    """The numbers of one number or range."""
    match = NUMBERS.fullmatch(part)
    if match is not None:
        yield from range(int(match[1]), int(match[2] or match[1]) + 1)
