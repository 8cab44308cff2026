"""Words with a little mark-up become lines of a given width."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from html import unescape
from typing import Final

from bookgen.binder.canvas import Canvas, Face, Measure, Point, Style

MM_PER_POINT: Final = 25.4 / 72
ASCENT: Final = 0.74
"""Height of capitals and figures above the baseline, of the size, with some white above."""

ELLIPSIS: Final = "…"
TOKEN: Final = re.compile(r"<(?P<close>/?)(?P<tag>[a-z][a-z0-9-]*)>|(?P<text>[^<]+)|(?P<stray><)")
CUTS: Final = {"b": Face.BOLD, "i": Face.ITALIC}

Piece = tuple[str, Face]
"""A text in one cut."""


class MarkupError(ValueError):
    """A template's result is not what we read: paragraphs named by their part."""


@dataclass(frozen=True, slots=True)
class Paragraph:
    """A named part of a page's words, in pieces of one cut each."""

    part: str
    pieces: tuple[Piece, ...]

    @property
    def plain(self) -> str:
        """The words without mark-up."""
        return "".join(text for text, _ in self.pieces)


Line = tuple[Piece, ...]


class Reader:
    """Reads mark-up token by token and keeps the paragraphs that are complete."""

    def __init__(self, parts: frozenset[str]) -> None:
        """Know the names of the parts."""
        self.parts = parts
        self.found: list[Paragraph] = []
        self.part = ""
        self.cut = Face.REGULAR
        self.pieces: list[Piece] = []

    def words(self, token: re.Match[str]) -> None:
        """Take words into the open part; between parts only white may stand.

        Raises:
            MarkupError: words stand in no part, or a `<` stands alone.
        """
        if self.part and token["text"]:
            self.pieces.append((unescape(re.sub(r"[ \t\r\n]+", " ", token["text"])), self.cut))
        elif token[0].strip():
            raise MarkupError(outside(token[0]))

    def tag(self, tag: str, *, closes: bool) -> None:
        """Open or close a part, or change the cut.

        Raises:
            MarkupError: the name is unknown, or cannot stand there.
        """
        if tag in CUTS and self.part:
            self.cut = Face.REGULAR if closes else CUTS[tag]
        elif tag in self.parts and self.part == (tag if closes else ""):
            if closes and any(text.strip() for text, _ in self.pieces):
                self.found.append(Paragraph(tag, trimmed(self.pieces)))
            self.part, self.cut, self.pieces = "" if closes else tag, Face.REGULAR, []
        else:
            raise MarkupError(unknown(f"<{'/' * closes}{tag}>", self.part, self.parts))


def paragraphs(markup: str, parts: frozenset[str]) -> list[Paragraph]:
    """Read `<part>words with <b>weight</b></part>`, one paragraph after the other.

    >>> paragraphs("<link>Like <b>No. 1</b></link>", frozenset({"link"}))[0].pieces[1]
    ('No. 1', <Face.BOLD: 'bold'>)

    Raises:
        MarkupError: an unknown name, a name left open, or words outside every part.
    """
    reader = Reader(parts)
    for token in TOKEN.finditer(markup):
        if token["tag"] is None:
            reader.words(token)
        else:
            reader.tag(token["tag"], closes=bool(token["close"]))
    if reader.part:
        msg = f"<{reader.part}> is never closed"
        raise MarkupError(msg)
    return reader.found


def outside(text: str) -> str:
    """Say that words stand in no part."""
    return f"{' '.join(text.split())[:40]!r} stands outside every part"


def unknown(token: str, part: str, parts: frozenset[str]) -> str:
    """Say that a name cannot stand there."""
    inside = f"inside <{part}>" if part else "here"
    return f"{token} cannot stand {inside}; the parts are {', '.join(sorted(parts))}, b and i"


def trimmed(pieces: Sequence[Piece]) -> tuple[Piece, ...]:
    """Pieces without white at the ends or double white between them."""
    kept: list[Piece] = []
    for text, cut in pieces:
        clean = text.lstrip() if not kept or kept[-1][0].endswith(" ") else text
        if clean:
            kept.append((clean, cut))
    kept[-1] = (kept[-1][0].rstrip(), kept[-1][1])
    return tuple(kept)


def wrap(pieces: Sequence[Piece], width: float, size: float, measure: Measure) -> list[Line]:
    """Break pieces into lines no wider than that many millimetres.

    size: in points. A word wider than the line is cut and ends in an ellipsis.
    """
    lines: list[Line] = []
    line: list[Piece] = []
    used = 0.0
    for word in words(pieces):
        fitted = [(shorten(text, width, Style(cut, size), measure), cut) for text, cut in word]
        wide = sum(measure.width(text, Style(cut, size)) for text, cut in fitted)
        bare = wide - trailing(fitted, size, measure)
        if line and used + bare > width:
            lines.append(joined(line))
            line, used = [], 0.0
        line.extend(fitted)
        used += wide
    if line:
        lines.append(joined(line))
    return lines


def trailing(word: Sequence[Piece], size: float, measure: Measure) -> float:
    """Width of the white behind a word, in millimetres."""
    text, cut = word[-1]
    return measure.width(" ", Style(cut, size)) if text.endswith(" ") else 0.0


def words(pieces: Sequence[Piece]) -> Iterator[list[Piece]]:
    """Words with the white behind them; a word may change its cut in the middle."""
    word: list[Piece] = []
    for text, cut in pieces:
        for part in re.findall(r"[^ ]* ?", text)[:-1]:
            word.append((part, cut))
            if part.endswith(" "):
                yield word
                word = []
    if word:
        yield word


def joined(line: Sequence[Piece]) -> Line:
    """A line with neighbours of one cut put together and no white at its end."""
    merged: list[Piece] = []
    for text, cut in line:
        if merged and merged[-1][1] == cut:
            merged[-1] = (merged[-1][0] + text, cut)
        else:
            merged.append((text, cut))
    merged[-1] = (merged[-1][0].rstrip(), merged[-1][1])
    return tuple(merged)


def shorten(text: str, width: float, style: Style, measure: Measure) -> str:
    """The text, or as much of it as has room in that many millimetres, then an ellipsis."""
    if measure.width(text.rstrip(), style) <= width:
        return text
    low, high = 0, len(text)
    while low < high:
        middle = (low + high + 1) // 2
        if measure.width(text[:middle].rstrip() + ELLIPSIS, style) <= width:
            low = middle
        else:
            high = middle - 1
    return text[:low].rstrip() + ELLIPSIS


def line_height(size: float, leading: float) -> float:
    """From baseline to baseline in millimetres; the size is in points."""
    return size * leading * MM_PER_POINT


def draw_line(canvas: Canvas, start: Point, line: Line, size: float) -> None:
    """Set a line of pieces one behind the other."""
    x, y = start
    for text, cut in line:
        style = Style(cut, size)
        canvas.text((x, y), text, style)
        x += canvas.width(text, style)
