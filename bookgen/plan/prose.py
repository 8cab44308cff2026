"""A text in a small part of Markdown: paragraphs, bold and italic; all else is refused."""

import re
from collections.abc import Iterator
from typing import Final, Literal

from bookgen.errors import RefusedError

Cut = Literal["regular", "bold", "italic"]
Span = tuple[str, Cut]
Paragraph = tuple[Span, ...]

BLOCK: Final = re.compile(
    r"#{1,6}(\s|$)|[-+*]\s|\d{1,3}[.)]\s|>|\||`{3}|~{3}|([-*_]\s*){3,}$|=+$|\[[^\]]*\]:"
)
"""How a line begins that is a heading, an item, a quotation, a table, code, a rule or a note."""

INLINE: Final = re.compile(
    r"`|!\[|\]\(|\]\[|</?[A-Za-z!]|&#?\w+;|\*{3}|(?<!\w)__?(?=\S)[^_]+__?(?!\w)|https?://"
)
"""Code, pictures, links, HTML, bold italic, emphasis by underscores."""

EMPHASIS: Final = re.compile(
    r"(?<!\*)(?:\*\*(?=\S)([^*]+)(?<=\S)\*\*|\*(?=\S)([^*]+)(?<=\S)\*)(?!\*)"
)
LONGEST_SHOWN: Final = 40


def paragraphs(text: str) -> tuple[Paragraph, ...]:
    """The paragraphs of a text; a blank line stands between two.

    >>> paragraphs("Play *slowly*.")
    ((('Play ', 'regular'), ('slowly', 'italic'), ('.', 'regular')),)

    Raises:
        RefusedError: the text has something else of Markdown, or an emphasis that is not closed.
    """
    found: list[Paragraph] = []
    lines: list[str] = []
    for number, line in enumerate((*text.splitlines(), ""), start=1):
        bare = line.strip()
        if bare:
            refuse_block(bare, number)
            lines.append(bare)
        elif lines:
            found.append(tuple(spans(" ".join(lines), number - len(lines))))
            lines = []
    return tuple(found)


def refuse_block(line: str, number: int) -> None:
    """Refuse a line that is no line of a paragraph.

    number: of the line in its text, from 1.

    Raises:
        RefusedError: it is none.
    """
    if BLOCK.match(line) or INLINE.search(line):
        raise RefusedError("prose-markdown", line=number, text=line[:LONGEST_SHOWN])


def spans(paragraph: str, number: int) -> Iterator[Span]:
    """Runs of one cut.

    number: of the paragraph's first line.

    Raises:
        RefusedError: an emphasis is not closed.
    """
    end = 0
    for match in EMPHASIS.finditer(paragraph):
        yield from plain(paragraph[end : match.start()], number)
        yield (match[1], "bold") if match[1] else (match[2], "italic")
        end = match.end()
    yield from plain(paragraph[end:], number)


def plain(text: str, number: int) -> Iterator[Span]:
    """A run without emphasis; stars with white at both sides are signs.

    Raises:
        RefusedError: a star belongs to an emphasis that is not closed.
    """
    if re.search(r"\*(?=\S)|(?<=\S)\*", text):
        raise RefusedError("prose-open", line=number, text=text.strip()[:LONGEST_SHOWN])
    if text:
        yield text, "regular"
