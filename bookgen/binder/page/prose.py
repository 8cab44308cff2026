"""Words as pieces of a page: headings, text and items, broken into lines and drawn."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from bookgen.binder.page.canvas import Canvas, Face, Style
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.paper import NoRoomError
from bookgen.binder.page.piece import Piece, Slot
from bookgen.binder.page.placed import Placed
from bookgen.binder.page.typeset import (
    ASCENT,
    MM_PER_POINT,
    Line,
    cut,
    draw_line,
    joined,
    line_height,
    line_width,
    words,
    wrap,
)
from bookgen.binder.structure.tag import Tag, head, paragraph
from bookgen.errors import Said


@dataclass(frozen=True, slots=True)
class Look:
    """How words are set.

    size: in points; face: of words that are not marked.
    above: white before them; indent: of all lines; hang: more for all lines but the first, all in
        millimetres.
    bullet: printed before the first line, in the indent.
    """

    size: float
    face: Face = Face.REGULAR
    above: float = 0.0
    indent: float = 0.0
    hang: float = 0.0
    bullet: str = ""


@dataclass(frozen=True, slots=True)
class Words:
    """A paragraph in lines; step: from line to line, in millimetres; tag: as what it is read."""

    look: Look
    lines: tuple[Line, ...]
    step: float
    tag: Tag = field(default_factory=paragraph, compare=False)

    @property
    def height(self) -> float:
        """Height of its lines in millimetres, without the white above."""
        return len(self.lines) * self.step

    @property
    def plain(self) -> str:
        """The words without their cut."""
        return " ".join("".join(text for text, _ in line) for line in self.lines)

    def draw(self, canvas: Canvas, left: float, top: float) -> None:
        """Draw the lines, the first one's upper edge there."""
        look = self.look
        baseline = top - look.size * ASCENT * MM_PER_POINT
        with canvas.tagged(self.tag):
            if look.bullet and self.lines:
                canvas.text((left, baseline), look.bullet, Style(Face.REGULAR, look.size))
            for row, line in enumerate(self.lines):
                x = left + look.indent + (look.hang if row else 0.0)
                draw_line(canvas, (x, baseline - row * self.step), line, look.size)


def words_of(markup: str, look: Look, width: float, desk: Desk, tag: Tag | None = None) -> Words:
    """Break words into lines.

    markup: may mark the cut with `<b>` and `<i>`; width: in millimetres.
    tag: as what they are read, a paragraph if not given.
    """
    room = width - look.indent - look.hang
    lines = wrap(cut(markup, look.face), room, look.size, desk.fonts) if markup else []
    step = line_height(look.size, desk.layout.text.leading)
    return Words(look, tuple(lines), step, tag or paragraph())


def widest_word(markup: str, look: Look, desk: Desk) -> float:
    """The width below which a word would be cut, in millimetres, with the indent."""
    found = words(cut(markup, look.face))
    wide = (line_width(joined(word), look.size, desk.fonts) for word in found)
    return look.indent + look.hang + max(wide, default=0.0)


def refuse_wide(markup: str, look: Look, width: float, called: Said, desk: Desk) -> None:
    """Refuse words of which one would be cut in that many millimetres.

    called: what they stand in.

    Raises:
        NoRoomError: a word is wider.
    """
    widest = widest_word(markup, look, desk)
    if widest > width:
        raise NoRoomError(called, widest, width, wide=True)


def height_of(words: Sequence[Words]) -> float:
    """Height of paragraphs under each other; the first has no white above."""
    return sum(one.height for one in words) + sum(one.look.above for one in words[1:])


def draw_words(canvas: Canvas, words: Sequence[Words], left: float, top: float) -> float:
    """Draw paragraphs under each other.

    Returns:
        Where they end, from the paper's lower edge.
    """
    for index, one in enumerate(words):
        top -= one.look.above if index else 0.0
        one.draw(canvas, left, top)
        top -= one.height
    return top


def piece_of(words: Sequence[Words], below: float = 0.0) -> Piece:
    """Paragraphs as one piece; what else a piece can have is set with `replace`.

    below: white below them, in millimetres.
    """

    def draw(canvas: Canvas, slot: Slot) -> Iterator[Placed]:
        draw_words(canvas, words, slot.left, slot.top)
        return iter(())

    above = words[0].look.above if words else 0.0
    called = words[0].plain if words else ""
    return Piece(height_of(words) + below, draw, above=above, called=called)


def pieces_of(texts: Sequence[str], look: Look, width: float, desk: Desk) -> list[Piece]:
    """Paragraphs of one look, each a piece."""
    return [piece_of([words_of(text, look, width, desk)]) for text in texts if text]


def heading(
    markup: str, look: Look, width: float, desk: Desk, below: float, depth: int = 1
) -> Piece:
    """Words over what follows, with which they stay.

    below: white below them, in millimetres.
    depth: 0 for the head of a section that the outline names, 1 for one in it, and so on.
    """
    words = words_of(markup, look, width, desk, head(depth, once=True))
    return replace(piece_of([words], below), keeps=True)


def dropped(piece: Piece, drop: float) -> Piece:
    """A piece with white above it that stays at the head of a page, in millimetres."""

    def draw(canvas: Canvas, slot: Slot) -> Iterator[Placed]:
        yield from piece.draw(canvas, replace(slot, top=slot.top - drop))

    return replace(piece, height=piece.height + drop, draw=draw)
