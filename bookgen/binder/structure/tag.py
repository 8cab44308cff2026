"""What a piece of a page is: a head, a paragraph, a figure; or nothing that is read."""

from collections.abc import Callable
from enum import StrEnum
from typing import Final

from msgspec import Struct

Box = tuple[float, float, float, float]
"""Left, lower, right and upper edge on a page, in millimetres."""


class Role(StrEnum):
    """What is read as what: standard structure types (ISO 32000-1, 14.8.4), and three of ours.

    head: of a section, at the level that it has there; artifact: not read; loose: drawn without a
    tag, which is a defect of ours.
    """

    DOCUMENT = "Document"
    SECTION = "Sect"
    HEAD = "H"
    PARAGRAPH = "P"
    LIST = "L"
    ITEM = "LI"
    LABEL = "Lbl"
    BODY = "LBody"
    TABLE = "Table"
    ROW = "TR"
    OVER = "TH"
    CELL = "TD"
    CONTENTS = "TOC"
    ENTRY = "TOCI"
    REFERENCE = "Reference"
    LINK = "Link"
    FIGURE = "Figure"
    SPAN = "Span"
    ARTIFACT = "Artifact"
    LOOSE = "Loose"


class Tag(Struct, frozen=True, eq=False):
    """One thing that is read. What is drawn under the same tag, on any page, belongs to it.

    Each is another one, and quickly made: pages for paper have as many.

    within: in which it stands; None for the section that is read.
    alt: a figure in words, said only where they are wanted.
    depth: of a head, below that of its section; box: of a figure.
    once: drawn again it is not read again; last: read after all else on its page.
    name: by which links find it; goal: of a link, such a name.
    rows: of a cell, over how many it reaches; scope: of a head in a table, Column or Row.
    artifact: of what kind, as operands of a mark.
    """

    role: Role
    within: "Tag | None" = None
    alt: Callable[[], str] | None = None
    depth: int = 0
    box: Box | None = None
    once: bool = False
    last: bool = False
    name: str = ""
    goal: str = ""
    rows: int = 1
    scope: str = "Column"
    artifact: str = ""

    @property
    def whole(self) -> bool:
        """Nothing in it is read by itself."""
        return self.role in {Role.ARTIFACT, Role.FIGURE}


ARTIFACT: Final = Tag(Role.ARTIFACT, artifact="/Type /Layout")
"""Rules and decoration; boxes to tick."""

HEADER: Final = Tag(Role.ARTIFACT, artifact="/Type /Pagination /Subtype /Header")
FOOTER: Final = Tag(Role.ARTIFACT, artifact="/Type /Pagination /Subtype /Footer")


def paragraph() -> Tag:
    """A paragraph."""
    return Tag(Role.PARAGRAPH)


def head(depth: int = 0, *, name: str = "", once: bool = False) -> Tag:
    """The head of a section; or one below that, at a depth from 1."""
    return Tag(Role.HEAD, depth=depth, once=once, name=name)


def item(listed: Tag) -> Tag:
    """What stands in an item of a list."""
    return Tag(Role.BODY, within=Tag(Role.ITEM, within=listed))


def of_page(folio: str) -> str:
    """A page by its printed number, as a goal of links."""
    return f"page-{folio}"


def of_drill(number: int) -> str:
    """A drill by its number, as a goal of links."""
    return f"drill-{number}"
