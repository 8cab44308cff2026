"""A text of the publisher's as pieces of a page: paragraphs with bold and italic words."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

from bookgen.binder.page.canvas import Canvas, Face
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.piece import Piece, Slot
from bookgen.binder.page.placed import Placed
from bookgen.binder.page.prose import Look, Words, piece_of
from bookgen.binder.page.typeset import Line, line_height, wrap
from bookgen.binder.structure.tag import ARTIFACT
from bookgen.plan.prose import Paragraph, paragraphs


def measure_of(desk: Desk) -> float:
    """The longest line of a text on the desk's paper, in millimetres."""
    return min(desk.layout.supplement.measure_mm, desk.sheet.column)


def told_words(text: str, look: Look, desk: Desk) -> list[Words]:
    """The paragraphs of a text in lines; what a paper cannot show is left out."""
    width, step = measure_of(desk) - look.indent, line_height(look.size, desk.layout.text.leading)
    broken = (
        wrap(printable(paragraph, look, desk), width, look.size, desk.fonts)
        for paragraph in paragraphs(text)
    )
    return [
        Words(look if place else replace(look, above=0.0), tuple(lines), step)
        for place, lines in enumerate(broken)
    ]


def told_pieces(
    text: str, look: Look, desk: Desk, *, over: Words | None = None, bar: float = 0.0
) -> Iterator[Piece]:
    """The paragraphs of a text line by line, so that a page may end between two of them.

    The first two lines of a paragraph stay together, and so do the last two.

    over: words over the text, which stay with it; bar: thickness of a line beside it, or 0.
    """
    start = [over] if over else []
    for words in told_words(text, look, desk):
        count = len(words.lines)
        ends = [*range(2, count - 1), count]
        for begin, end in pairwise([0, *ends]):
            part = replace(words, lines=words.lines[begin:end])
            piece = piece_of([*start, part])
            above = 0.0 if begin else words.look.above
            yield barred(replace(piece, above=above), bar) if bar else replace(piece, above=above)
            start = []


def barred(piece: Piece, bar: float) -> Piece:
    """A piece with a line beside it, as high as itself and the white above it."""

    def draw(canvas: Canvas, slot: Slot) -> Iterator[Placed]:
        ends = (slot.left, slot.top), (slot.left, slot.top - piece.height)
        with canvas.tagged(ARTIFACT):
            canvas.line(*ends, width=bar)
        yield from piece.draw(canvas, slot)

    return replace(piece, draw=draw)


def printable(paragraph: Paragraph, look: Look, desk: Desk) -> Line:
    """A paragraph in signs that the fonts have; each word by itself, so that the cut stays."""
    return tuple(
        (" ".join(desk.clean(word) for word in text.split(" ")), face_of(cut, look))
        for text, cut in paragraph
    )


def face_of(cut: str, look: Look) -> Face:
    """The cut of a run; what is not marked has that of the look."""
    return look.face if cut == Face.REGULAR else Face(cut)
