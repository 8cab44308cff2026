"""What a finished file says of itself: title, author, how its pages are numbered."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

CREATOR: Final = "bookgen"


@dataclass(frozen=True, slots=True)
class Numbering:
    """How a run of pages is numbered, from 1.

    first: its first page, from 0; prefix: before the number; roman: small Roman numerals.
    """

    first: int
    prefix: str = ""
    roman: bool = False


@dataclass(frozen=True, slots=True)
class Imprint:
    """What the file says of itself.

    title, author, subject: as shown by a reader's window and by catalogues.
    page_labels: the runs of pages in their order.
    language: of its words, as in the catalogues.
    """

    title: str
    author: str
    subject: str
    page_labels: Sequence[Numbering] = ()
    language: str = "en"
