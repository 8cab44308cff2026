"""A complete book without dates: its words, and the chapters with the numbers of their drills."""

from collections.abc import Iterator
from typing import Annotated

import msgspec

from bookgen.plan.facts import Facts, Name, Number

Prose = Annotated[
    str,
    msgspec.Meta(
        max_length=40_000, description="paragraphs in Markdown: **bold** and *italic*, no more"
    ),
]


class Piece(Facts, omit_defaults=True, frozen=True, kw_only=True):
    """Bars of a piece to which a chapter's drills lead.

    `music` is a MusicXML 4.0 file of the bars with their fingers and strings; `spots` is how many
    hard spots of it are wanted, where that is said.
    """

    title: Name
    music: str
    spots: Annotated[int, msgspec.Meta(ge=1, le=200)] | None = None


class Chapter(Facts, omit_defaults=True, frozen=True, kw_only=True):
    """A chapter with its drills in their order.

    `text` stands over them; `for_teacher` is printed in the teacher's edition only; `piece` is
    what the drills lead to. It has none where earlier chapters lead there already.
    """

    title: Name
    numbers: tuple[Number, ...]
    text: Prose = ""
    for_teacher: Prose = ""
    piece: Piece | None = None


class Supplement(Facts, omit_defaults=True, frozen=True, kw_only=True):
    """What a publisher says of a book, in its language.

    `edition` is which printing it is; `imprint` stands on the page behind the title, and below it
    the `number` by which the book is traded; `teacher` says that it is the edition with answers
    and notes.
    """

    title: Name
    chapters: Annotated[tuple[Chapter, ...], msgspec.Meta(min_length=1)]
    subtitle: Name | None = None
    author: Name | None = None
    edition: Name | None = None
    imprint: Prose = ""
    number: Name | None = None
    preface: Prose = ""
    teacher: bool = False

    def texts(self) -> Iterator[tuple[str, str]]:
        """Every text with its place."""
        yield "imprint", self.imprint
        yield "preface", self.preface
        for index, chapter in enumerate(self.chapters):
            yield f"chapters[{index}].text", chapter.text
            yield f"chapters[{index}].for_teacher", chapter.for_teacher
