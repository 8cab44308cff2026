"""The tables of a book's spec: which keys they know, and how a wrong value is told."""

from typing import Annotated, Final, Literal

import msgspec

from bookgen.binder.prepress.spine import BULK, GRAMS
from bookgen.errors import open_sentence, told
from bookgen.readers.studio.tables import HAND, POSITION, SPACING, STAGE, Fingers, SpacingWord, Text
from bookgen.readers.table import Words

LONGEST: Final = 40_000
"""Letters of a text; about ten pages."""

Title = Annotated[str, msgspec.Meta(min_length=1, max_length=200)]
Long = Annotated[str, msgspec.Meta(max_length=LONGEST)]
Titles = Title | dict[str, Title]
Texts = Long | dict[str, Long]
"""Words for all languages, or by their languages."""

Kind = Literal["student", "teacher", "from-memory"]
Take = Literal["every", "way", "picked", "passage"]
OrderWord = Literal["easiest", "hand", "position", "strings", "stage", "lead", "return"]
Numeral = Literal["I", "II", "III", "IV", "V", "VI"]

Run = Annotated[tuple[Numeral, ...], msgspec.Meta(min_length=2)]


class SpecTable(msgspec.Struct):
    """The whole file; each chapter is read by itself."""

    title: Titles | None = None
    subtitle: Titles | None = None
    author: Title | None = None
    edition: Titles | None = None
    imprint: Texts = ""
    instruments: Annotated[tuple[Text, ...], msgspec.Meta(min_length=1, max_length=20)] = (
        "violin",
    )
    size: str | dict[str, str] | None = None
    languages: Annotated[tuple[Text, ...], msgspec.Meta(min_length=1, max_length=20)] = ("en",)
    editions: Annotated[tuple[Kind, ...], msgspec.Meta(min_length=1)] = ("student",)
    paper: Text = "a4"
    layout: Text = "ordinary"
    preface: Texts = ""
    back: Texts = ""
    isbn: dict[str, Text] = {}
    paper_grams: Annotated[float, msgspec.Meta(ge=GRAMS[0], le=GRAMS[1])] | None = None
    paper_bulk: Annotated[float, msgspec.Meta(ge=BULK[0], le=BULK[1])] = 1.25
    chapter: tuple[object, ...] = ()


class ChapterTable(msgspec.Struct):
    """`[[chapter]]`; what is None is all that the hand takes, or the usual."""

    title: Titles | None = None
    text: Texts = ""
    for_teacher: Texts = ""
    instruments: Annotated[tuple[Text, ...], msgspec.Meta(min_length=1)] | None = None
    take: Take = "every"
    hands: Annotated[tuple[Fingers, ...], msgspec.Meta(min_length=1)] | None = None
    spacings: Annotated[tuple[SpacingWord, ...], msgspec.Meta(min_length=1)] = ("half", "whole")
    positions: Annotated[tuple[Text, ...], msgspec.Meta(min_length=1)] | None = None
    strings: Annotated[tuple[Run, ...], msgspec.Meta(min_length=1)] | None = None
    stages: Annotated[
        tuple[Annotated[int, msgspec.Meta(ge=1, le=5)], ...], msgspec.Meta(min_length=1)
    ] = (1, 2, 3, 4, 5)
    leads: Annotated[tuple[Literal["low", "high"], ...], msgspec.Meta(min_length=1)] = (
        "low",
        "high",
    )
    returns: Annotated[tuple[Literal["same", "mirror"], ...], msgspec.Meta(min_length=1)] = (
        "same",
        "mirror",
    )
    order: tuple[OrderWord, ...] | None = None
    limit: Annotated[int, msgspec.Meta(ge=1, le=2000)] | None = None
    difficulty: float | tuple[float, float] | None = None
    drills: tuple[Text, ...] = ()
    file: Text | None = None
    bars: Annotated[str, msgspec.Meta(pattern=r"\A[^-]+(-[^-]+)?\Z")] | None = None
    part: Text | None = None
    prefer: Literal["low", "one-string", "few-shifts", "few-stretches"] | None = None
    spots: Annotated[int, msgspec.Meta(ge=1, le=200)] | None = None


TITLE: Final = Words(
    open_sentence("{value} is no title"),
    told('write 1 to 200 letters in quotes, or one for each language, e.g. title.de = "…"'),
)
TEXT: Final = Words(
    open_sentence("{value} is no text"),
    told("write paragraphs in quotes, or some for each language, e.g. text.de"),
)

WORDS: Final = {
    "title": TITLE,
    "subtitle": TITLE,
    "author": TITLE,
    "edition": TITLE,
    "imprint": TEXT,
    "preface": TEXT,
    "back": TEXT,
    "isbn": Words(
        open_sentence("{value} is no table of numbers"),
        told('write one for each edition, e.g. isbn.violin-en-student = "978-…"'),
        open_sentence("{value} is no ISBN in quotes"),
    ),
    "paper_grams": Words(
        open_sentence("{value} is no weight of a book's paper"), told("give 40 to 300 g/m²")
    ),
    "paper_bulk": Words(
        open_sentence("{value} is no bulk of a paper"), told("give 0.7 to 2.5 cm³/g")
    ),
    "text": TEXT,
    "for_teacher": TEXT,
    "instruments": Words(
        open_sentence("{value} is no list of instruments"),
        told('write e.g. ["violin", "cello"]'),
        open_sentence("{value} is no instrument"),
    ),
    "size": Words(
        open_sentence("{value} is no size"),
        told('write e.g. "3/4", or one for each instrument, e.g. size.cello = "1/2"'),
    ),
    "languages": Words(
        open_sentence("{value} is no list of languages"),
        told('write e.g. ["en", "de"]'),
        open_sentence("{value} is no language"),
    ),
    "editions": Words(
        open_sentence("{value} is no list of editions"),
        told('write some of ["student", "teacher", "from-memory"]'),
        open_sentence("{value} is no edition"),
    ),
    "paper": Words(open_sentence("{value} is no paper"), told('write "a4", "a5" or "letter"')),
    "layout": Words(
        open_sentence("{value} is no layout"),
        told("write the name of a layout or of a folder with one"),
    ),
    "chapter": Words(
        open_sentence("{value} is no list of chapters"),
        told("write a table [[chapter]] for each"),
    ),
    "take": Words(
        open_sentence("{value} is no way to take drills"),
        told('write "every", "way", "picked" or "passage"'),
    ),
    "hands": Words(
        open_sentence("{value} is no list of hands"), told('write e.g. ["12", "23", "123"]'), HAND
    ),
    "spacings": Words(
        open_sentence("{value} is no list of spacings"),
        told('write e.g. ["half", "whole"]'),
        SPACING,
    ),
    "positions": Words(
        open_sentence("{value} is no list of positions"),
        told('write e.g. ["half", "1st"]'),
        POSITION,
    ),
    "strings": Words(
        open_sentence("{value} is no list of strings"),
        told('write runs of strings, each from the lowest, e.g. [["IV", "III"], ["III", "II"]]'),
        open_sentence("{value} is no run of strings"),
    ),
    "stages": Words(
        open_sentence("{value} is no list of stages"), told("write e.g. [1, 2, 3]"), STAGE
    ),
    "leads": Words(
        open_sentence("{value} is no list of leads"),
        told('write ["low"], ["high"] or both'),
        open_sentence("{value} is no lead"),
    ),
    "returns": Words(
        open_sentence("{value} is no list of ways back"),
        told('write ["same"], ["mirror"] or both'),
        open_sentence("{value} is no way back"),
    ),
    "order": Words(
        open_sentence("{value} is no list of what drills are sorted by"),
        told('write some of ["easiest", "hand", "position", "strings", "stage", "lead", "return"]'),
        open_sentence("{value} is nothing by which drills are sorted"),
    ),
    "file": Words(
        open_sentence("{value} is no name of a file"),
        told('write e.g. "minuet.musicxml", from the folder of the spec'),
    ),
    "bars": Words(open_sentence("{value} are no bars"), told('write e.g. "5-8" or "12"')),
    "part": Words(
        open_sentence("{value} is no part"), told("write its name in the file, or its number")
    ),
    "prefer": Words(
        open_sentence("{value} is no preference"),
        told('write "low", "one-string", "few-shifts" or "few-stretches"'),
    ),
    "spots": Words(open_sentence("{value} is no number of hard spots"), told("give 1 to 200")),
    "limit": Words(open_sentence("{value} is no number of drills"), told("give 1 to 2000")),
    "difficulty": Words(
        open_sentence("{value} is no limit of difficulty"),
        told("give the most, e.g. 3.5, or the least and the most, e.g. [2, 3.5]"),
    ),
    "drills": Words(
        open_sentence("{value} is no list of drills"),
        told('write keys, e.g. ["12-whole-place2-strings4321-stage1-low-same"]'),
        open_sentence("{value} is no key"),
    ),
}
