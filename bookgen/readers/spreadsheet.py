"""A table as a spreadsheet saves it: its letters, its separators, its lines."""

import codecs
import csv
import io
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from bookgen.errors import BookgenError, Finding, Message, told

MARKS: Final = {
    codecs.BOM_UTF8: "utf-8",
    codecs.BOM_UTF16_LE: "utf-16-le",
    codecs.BOM_UTF16_BE: "utf-16-be",
}
"""The marks at the start of a file by which it says its encoding (Unicode, section 23.8)."""

BY_HAND: Final = ("utf-8", "cp1252")
"""What is tried in turn where no mark is. Windows-1252 is what spreadsheets of western Europe and
America write as plain CSV; a library that guesses took short tables of it for others."""

WORKBOOKS: Final = (b"PK\x03\x04", b"\xd0\xcf\x11\xe0")
"""How a workbook begins: a ZIP archive, or the older compound file."""

SEPARATORS: Final = (",", ";", "\t", "|")
MOST_ABOVE: Final = 10
"""Lines that may stand above the heads of the columns: a title, a date."""

Row = tuple[int, Sequence[str]]
"""A line's number and its cells."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """A table whose columns are known.

    heads: for each column its name, None where it is none of those that were asked for.
    head_line: the line on which they stand.
    rows: below, without empty ones.
    """

    heads: Sequence[str | None]
    head_line: int
    rows: Sequence[Row]


def letters_of(content: bytes, file: str) -> str:
    """The text of a table, whatever its encoding.

    Raises:
        BookgenError: it is a workbook, or no text.
    """
    if content.startswith(WORKBOOKS):
        problem = told("a workbook, no CSV")
        raise BookgenError(Finding(file, problem, told("save the sheet as CSV")))
    for mark, encoding in MARKS.items():
        if content.startswith(mark):
            return decoded(content[len(mark) :], (encoding,), file)
    if b"\0" in content[:2]:
        return decoded(content, ("utf-16-be" if content[0] == 0 else "utf-16-le",), file)
    return decoded(content, BY_HAND, file)


def decoded(content: bytes, encodings: Sequence[str], file: str) -> str:
    """The text in the first encoding that has all of its bytes.

    Raises:
        BookgenError: none has.
    """
    for encoding in encodings:
        try:
            return content.decode(encoding)
        except UnicodeDecodeError:
            continue
    raise BookgenError(Finding(file, told("no text"), told("save it as CSV in UTF-8")))


def sheet_of(
    text: str, names: Mapping[str, str], needed: Sequence[Collection[str]], file: str
) -> Sheet | None:
    """The table in a text, or None where no line at its head names the columns.

    names: of the columns, by the small letters under which they may stand.
    needed: sets of columns, one of which has to be there whole.

    Raises:
        BookgenError: the text is no CSV, or a column is there twice.
    """
    faults = []
    for separator in SEPARATORS:
        try:
            rows = list(rows_of(text, separator))
        except csv.Error as error:
            faults.append(error)
            continue
        for at, (line, cells) in enumerate(rows[:MOST_ABOVE]):
            heads = [names.get(" ".join(cell.casefold().split())) for cell in cells]
            if any(set(columns) <= set(heads) for columns in needed):
                refuse_twins(heads, told("{file}, line {line}", file=file, line=line))
                return Sheet(heads, line, rows[at + 1 :])
    if len(faults) == len(SEPARATORS):
        problem = told("no CSV ({reason})", reason=faults[0])
        raise BookgenError(Finding(file, problem, told("save it as CSV from a spreadsheet")))
    return None


def rows_of(text: str, separator: str) -> Iterator[Row]:
    """The lines that are not empty, with their numbers; cells without white around them."""
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True)
    for cells in reader:
        stripped = [cell.strip() for cell in cells]
        if any(stripped):
            yield reader.line_num, stripped


def refuse_twins(heads: Sequence[str | None], place: Message) -> None:
    """Refuse heads of which two name the same column.

    Raises:
        BookgenError: they do.
    """
    named = [head for head in heads if head is not None]
    twin = next((head for head in named if named.count(head) > 1), None)
    if twin is not None:
        problem = told("two columns are called {name}", name=repr(twin))
        raise BookgenError(Finding(place, problem, told("keep one of them")))
