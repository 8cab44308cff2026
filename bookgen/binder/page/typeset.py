"""Words with a little mark-up become lines of a given width."""

import re
from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import Final

from bookgen.binder.page.canvas import Canvas, Face, Measure, Point, Style

MM_PER_POINT: Final = 25.4 / 72
ASCENT: Final = 0.74
"""Height of capitals and figures above the baseline, of the size, with some white above."""

ELLIPSIS: Final = "…"
CUTS: Final = {"b": Face.BOLD, "i": Face.ITALIC}
CUT_MARK: Final = re.compile(r"</?[bi]>")

KNOWN: Final = 4096
"""Lines that are remembered: drills of one hand, place or stage have theirs in common."""

Span = tuple[str, Face]
"""A text in one cut."""

Line = tuple[Span, ...]


def cut(markup: str, plain: Face = Face.REGULAR) -> Line:
    """Words in which `<b>` and `<i>` mark the cut; no other mark means anything.

    plain: the cut of words that are not marked.

    >>> cut("<i>H</i> half")
    (('H', <Face.ITALIC: 'italic'>), (' half', <Face.REGULAR: 'regular'>))
    """
    face = plain
    found: list[Span] = []
    for token in re.split(f"({CUT_MARK.pattern})", markup):
        if CUT_MARK.fullmatch(token):
            face = plain if token.startswith("</") else CUTS[token[1]]
        elif token:
            found.append((token, face))
    return tuple(found)


def wrap(pieces: Sequence[Span], width: float, size: float, measure: Measure) -> list[Line]:
    """Break pieces into lines no wider than that many millimetres.

    size: in points. A word wider than the line is cut and ends in an ellipsis.
    """
    lines: list[Line] = []
    line: list[Span] = []
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


@lru_cache(maxsize=KNOWN)
def wrapped(line: Line, width: float, size: float, measure: Measure) -> Sequence[Line]:
    """A line of words broken into narrower ones; what is met again is remembered."""
    return tuple(wrap(line, width, size, measure))


@lru_cache(maxsize=KNOWN)
def widest(line: Line, size: float, measure: Measure) -> float:
    """How wide the widest word of a line is, in millimetres."""
    return max(
        (measure.width(word, Style(face, size)) for text, face in line for word in text.split()),
        default=0.0,
    )


def trailing(word: Sequence[Span], size: float, measure: Measure) -> float:
    """Width of the white behind a word, in millimetres."""
    text, cut = word[-1]
    return measure.width(" ", Style(cut, size)) if text.endswith(" ") else 0.0


def words(pieces: Sequence[Span]) -> Iterator[list[Span]]:
    """Words with the white behind them; a word may change its cut in the middle."""
    word: list[Span] = []
    for text, cut in pieces:
        for part in re.findall(r"[^ ]* ?", text)[:-1]:
            word.append((part, cut))
            if part.endswith(" "):
                yield word
                word = []
    if word:
        yield word


def joined(line: Sequence[Span]) -> Line:
    """A line with neighbours of one cut put together and no white at its end."""
    merged: list[Span] = []
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


def line_width(line: Line, size: float, measure: Measure) -> float:
    """How wide a line runs, in millimetres; the size is in points."""
    return sum(measure.width(text, Style(face, size)) for text, face in line)


def draw_line(canvas: Canvas, start: Point, line: Line, size: float) -> None:
    """Set a line of pieces one behind the other."""
    x, y = start
    for text, cut in line:
        style = Style(cut, size)
        canvas.text((x, y), text, style)
        x += canvas.width(text, style)
