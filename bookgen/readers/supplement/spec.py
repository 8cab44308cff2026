"""A book's spec as values: what its publisher wants, with the lines in which it is written."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from bookgen.binder.prepress.book_number import BookNumber
from bookgen.binder.prepress.spine import Stock
from bookgen.errors import Said, told
from bookgen.model.instrument import Instrument
from bookgen.readers.supplement.chapter import Chapter
from bookgen.readers.toml_lines import Lines

CHAPTER: Final = "chapter"


@dataclass(frozen=True, slots=True)
class Worded:
    """What stands over or in a chapter, or in the book, by languages."""

    title: Mapping[str, str]
    text: Mapping[str, str]
    for_teacher: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Spec:
    """A book as its publisher wants it.

    folder: to which paths in it are relative.
    Words are by languages; those that are left out are empty.
    instruments: by their keys, in the order of the file; sizes: of each, by its name.
    kinds: "student", "teacher" and "from-memory", those that are wanted.
    worded: of each chapter; back: on the cover.
    numbers: by the names of editions; stock: the paper, or None where it is not known.
    """

    file: str
    folder: Path
    lines: Lines
    title: Mapping[str, str]
    subtitle: Mapping[str, str]
    author: str
    edition: Mapping[str, str]
    imprint: Mapping[str, str]
    preface: Mapping[str, str]
    back: Mapping[str, str]
    numbers: Mapping[str, BookNumber]
    stock: Stock | None
    instruments: Mapping[str, Instrument]
    sizes: Mapping[str, str]
    languages: tuple[str, ...]
    kinds: tuple[str, ...]
    paper: str
    layout: str
    chapters: tuple[Chapter, ...]
    worded: tuple[Worded, ...]

    def place(self, key: str, chapter: int | None = None) -> Said:
        """A key of the file as the user finds it; chapter: from 0."""
        return place_of(self.file, self.lines, key, chapter)


def place_of(file: str, lines: Lines, key: str, chapter: int | None = None) -> Said:
    """A key of a spec as the user finds it: file, line, chapter.

    chapter: from 0, or None.
    """
    if chapter is None:
        line = lines.of(key)
        if line is None:
            return told("{place}, {key}", place=file, key=key)
        return told("{file}, line {line}, {key}", file=file, line=line, key=key)
    line = lines.of(key, CHAPTER, chapter) or lines.of(CHAPTER)
    if line is None:
        return told("{file}, chapter {number}, {key}", file=file, number=chapter + 1, key=key)
    return told(
        "{file}, line {line}, chapter {number}, {key}",
        file=file,
        line=line,
        number=chapter + 1,
        key=key,
    )
