"""A text of the publisher's as pieces of a page: paragraphs with bold and italic words."""

from collections.abc import Iterator
from dataclasses import replace

from bookgen.binder.page.canvas import Face
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.piece import Piece
from bookgen.binder.page.prose import Look, Words, piece_of
from bookgen.binder.page.typeset import Line, line_height, wrap
from bookgen.plan.prose import Paragraph, paragraphs


def measure_of(desk: Desk) -> float:
    """The longest line of a text on the desk's paper, in millimetres."""
    return min(desk.layout.supplement.measure_mm, desk.sheet.column)


def told_words(text: str, look: Look, desk: Desk) -> list[Words]:
    """The paragraphs of a text in lines; what a paper cannot show is left out."""
    width, step = measure_of(desk), line_height(look.size, desk.layout.text.leading)
    broken = (
        wrap(printable(paragraph, look, desk), width, look.size, desk.fonts)
        for paragraph in paragraphs(text)
    )
    return [
        Words(look if place else replace(look, above=0.0), tuple(lines), step)
        for place, lines in enumerate(broken)
    ]


def told_pieces(text: str, look: Look, desk: Desk) -> Iterator[Piece]:
    """The paragraphs of a text, each a piece."""
    for words in told_words(text, look, desk):
        yield piece_of([words])


def printable(paragraph: Paragraph, look: Look, desk: Desk) -> Line:
    """A paragraph in signs that the fonts have; each word by itself, so that the cut stays."""
    return tuple(
        (" ".join(desk.clean(word) for word in text.split(" ")), face_of(cut, look))
        for text, cut in paragraph
    )


def face_of(cut: str, look: Look) -> Face:
    """The cut of a run; what is not marked has that of the look."""
    return look.face if cut == Face.REGULAR else Face(cut)
