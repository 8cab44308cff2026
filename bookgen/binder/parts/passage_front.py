"""A passage's first pages: title, music, charts of its hands, table of its placements, words."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

from bookgen.binder.page.canvas import Canvas, Face, Style
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.piece import Mark, Piece, Slot
from bookgen.binder.page.placed import Placed, placed
from bookgen.binder.page.prose import Look, heading, piece_of, pieces_of, words_of
from bookgen.binder.page.typeset import MM_PER_POINT, shorten
from bookgen.binder.parts.passage_hands import hand_pieces
from bookgen.binder.parts.passage_table import table_pieces
from bookgen.errors import told
from bookgen.notation.engraved import EngravedDrill
from bookgen.plan.passage import Passage
from bookgen.words import passage as words
from bookgen.words import passage_other

TITLE_BELOW_MM: Final = 3.0
BULLET_MM_PER_POINT: Final = 0.36


def front_pieces(passage: Passage, lines: Sequence[Piece], desk: Desk) -> Iterator[Piece]:
    """Everything before the drills, from top to bottom.

    lines: the music of the passage, line by line.
    """
    speech, measures = desk.speech, desk.layout.passage
    yield title_of(passage, desk)
    for index, line in enumerate(lines):
        last = index == len(lines) - 1
        yield replace(line, above=measures.music_gap_mm * (index > 0), keeps=last)
    small = Look(desk.layout.text.small_pt, above=measures.text_above_mm)
    yield from pieces_of([" ".join(words.key(passage, speech))], small, desk.sheet.column, desk)
    yield from section("unplayable", [*words.unplayable(passage, speech)], desk)
    yield from hands(passage, desk)
    yield from placements(passage, desk)
    yield from section("other", [*passage_other.differences(passage, speech)], desk)
    body = Look(desk.layout.text.body_pt, above=measures.text_above_mm)
    yield from pieces_of([passage_other.dearer(passage, speech)], body, desk.sheet.column, desk)


def title_of(passage: Passage, desk: Desk) -> Piece:
    """The title, and the facts below it."""
    sizes, column = desk.layout.text, desk.sheet.column
    style = Style(Face.BOLD, sizes.name_pt)
    title = shorten(passage.title, column, style, desk.fonts)
    lines = [
        words_of(title, Look(sizes.name_pt, Face.BOLD), column, desk),
        words_of(
            words.facts(passage, desk.instrument, desk.speech), Look(sizes.link_pt), column, desk
        ),
    ]
    head = words.headings(desk.speech)["passage"]
    return replace(
        piece_of(lines, TITLE_BELOW_MM), keeps=True, marks=(Mark(head, 0),), running=head
    )


def music_of(index: int, engraved: EngravedDrill) -> Piece:
    """One line of music: which of the engraving's."""

    def draw(canvas: Canvas, slot: Slot) -> Iterator[Placed]:
        del canvas
        yield placed(slot.page, index, (slot.left, slot.top))

    called = told("line {number} of the music", number=index + 1)
    return Piece(engraved.box.height * MM_PER_POINT, draw, called=called)


def heading_of(part: str, desk: Desk, width: float) -> Piece:
    """A heading over what follows, with its entry in the outline.

    width: of its column, in millimetres.
    """
    text = words.headings(desk.speech)[part]
    look = Look(desk.layout.text.title_pt, Face.BOLD, above=desk.layout.passage.heading_above_mm)
    piece = heading(text, look, width, desk, desk.layout.passage.text_above_mm)
    return replace(piece, marks=(Mark(text, 0),), running=text)


def section(part: str, items: Sequence[str], desk: Desk) -> Iterator[Piece]:
    """A heading with its items below it; nothing without items."""
    if items:
        yield heading_of(part, desk, desk.sheet.column)
    size = desk.layout.text.body_pt
    look = Look(size, above=0.6, indent=BULLET_MM_PER_POINT * size, bullet="•")
    yield from pieces_of(items, look, desk.sheet.column, desk)


def hands(passage: Passage, desk: Desk) -> Iterator[Piece]:
    """The charts of the hands under their heading; nothing without hands."""
    charts = [*hand_pieces(passage, desk)]
    if charts:
        yield heading_of("hands", desk, desk.sheet.column)
    yield from charts


def placements(passage: Passage, desk: Desk) -> Iterator[Piece]:
    """The table of the placements, and what its marks mean."""
    if not passage.best.groups:
        return
    speech = desk.speech
    yield heading_of("groups", desk, desk.sheet.column)
    rows = [words.cells(group, passage, desk.instrument, speech) for group in passage.best.groups]
    yield from table_pieces(words.table_heads(speech), rows, desk)
    look = Look(desk.layout.text.small_pt, above=desk.layout.passage.text_above_mm)
    yield from pieces_of([words.marks(passage, speech)], look, desk.sheet.column, desk)
