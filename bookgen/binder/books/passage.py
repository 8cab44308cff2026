"""A passage: music with frames and hard spots, then the spots and the drills that lead there."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from bookgen.binder.page.bind import bind_leaves
from bookgen.binder.page.canvas import Canvas
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.flow import FULL, Page, Piece, Room, flow
from bookgen.binder.page.frame import Frame, frame_of, lowest
from bookgen.binder.page.imprint import CREATOR, Imprint
from bookgen.binder.page.leaf import Leaf, Side, leaves_of
from bookgen.binder.page.placed import Placed
from bookgen.binder.parts.drills import DrillPiece, Drills, drills_of, form_on
from bookgen.binder.parts.drills_told import heard_of, key_words
from bookgen.binder.parts.key import key_pieces
from bookgen.binder.parts.passage.drills import (
    drill_pieces,
    entries_of,
    labels_in,
    words_of_entries,
)
from bookgen.binder.parts.passage.front import front_pieces, printable
from bookgen.binder.parts.passage.other import left_out, other_way
from bookgen.binder.parts.passage.spots import music_mm, spot_pieces
from bookgen.notation.drill_score import DrillScore
from bookgen.notation.engraved import Engraving, put_together
from bookgen.plan.passage import Passage
from bookgen.plan.passage_excerpt import Excerpt, excerpts_of, other_excerpt
from bookgen.plan.passage_other import Instead, instead_of
from bookgen.words import front
from bookgen.words import passage as words
from bookgen.words.names import position_short
from bookgen.words.speech import Speech


@dataclass(frozen=True, slots=True)
class PassageBook:
    """A passage on its way to the page, before its music is engraved.

    drills: those of its plan; None where there are none. other: where another way saves something.
    """

    passage: Passage
    drills: Drills | None
    other: Instead | None
    desk: Desk

    @property
    def scores(self) -> tuple[DrillScore, ...]:
        """What is engraved of the drills, in the order of play."""
        return self.drills.scores if self.drills else ()

    @property
    def columns(self) -> int:
        """Columns of hard spots and drills."""
        return form_on(self.desk, "passage").columns

    @property
    def width(self) -> float:
        """Width of such a column, in millimetres."""
        gaps = (self.columns - 1) * self.desk.layout.flow.column_gap_mm
        return (self.desk.sheet.column - gaps) / self.columns

    @property
    def excerpts(self) -> list[tuple[Excerpt, float]]:
        """What is engraved of the hard spots and of the other way, with the width of each."""
        spots = [(one, music_mm(self.desk, self.width)) for one in excerpts_of(self.passage)]
        passage = self.passage
        if self.other is None or passage.other is None:
            return spots
        way = other_excerpt(passage.phrase, passage.other, self.other)
        return [*spots, (called(way, self.desk.speech), self.width)]


def called(way: Excerpt, speech: Speech) -> Excerpt:
    """Another way with its positions as the language calls them."""
    groups = tuple(
        replace(group, letter=position_short(group.letter, speech))
        for group in way.fingering.groups
    )
    return replace(way, fingering=replace(way.fingering, groups=groups))


def passage_book(passage: Passage, desk: Desk) -> PassageBook:
    """Settle how a passage is printed.

    Raises:
        NoRoomError: a chart or a line of music has no room.
    """
    passage = printable(passage, desk)
    entries = entries_of(passage)
    other = instead_of(passage)
    if passage.plan is None or not entries:
        return PassageBook(passage, None, other, desk)
    said = words_of_entries(passage, passage.plan, desk)
    return PassageBook(passage, drills_of(entries, said, desk, "passage"), other, desk)


def bind_passage(
    book: PassageBook, drills: Engraving, music: Engraving, excerpts: Engraving
) -> bytes:
    """Bind a passage: the whole PDF, right-hand pages odd, with an outline.

    drills: of `book.scores`; music: of the passage, line by line, as wide as the page's column.
    excerpts: of `book.excerpts`, in their order.

    Raises:
        ValueError: an engraving is another passage's.
        NoRoomError: a line of music, a chart or a drill does not fit its page.
    """
    passage, desk = book.passage, book.desk
    if len(book.excerpts) != len(excerpts.drills):
        msg = f"{len(book.excerpts)} excerpts, {len(excerpts.drills)} engraved"
        raise ValueError(msg)
    key = {**words.key(desk.speech), **(key_words(book.drills, "passage") if book.drills else {})}
    caution = front.caution(desk.speech)
    highest = frame_of(desk, passage.title, caution, key, mirrored=True, apart=True)
    before, columns = contents(book, drills, music, excerpts)
    imprint = Imprint(
        title=passage.title,
        author=desk.clean(desk.studio) or CREATOR,
        subject=words.subject(desk.instrument, desk.speech),
    )

    def pages(frame: Frame) -> list[list[Leaf]]:
        own_key = key_pieces(frame, desk.layout.passage.frame_gap_mm)
        return [leaves_in([*before, *own_key], columns, book, frame)]

    frame, (leaves,) = lowest(highest, pages)
    heard = heard_of(*([book.drills] if book.drills else []))
    whole = put_together(drills, music, excerpts)
    return bind_leaves([], leaves, frame, whole, imprint, heard)


def contents(
    book: PassageBook, drills: Engraving, music: Engraving, excerpts: Engraving
) -> tuple[list[Piece], list[Piece]]:
    """What stands on the pages: over the whole line, and then in columns."""
    passage, desk = book.passage, book.desk
    lines = list(enumerate(music.drills, start=len(drills.drills)))
    own = list(enumerate(excerpts.drills, start=len(drills.drills) + len(lines)))
    other = [other_way(book.other, *own[-1], passage, desk, book.width)] if book.other else []
    blocks = book.drills.pieces(drills.drills) if book.drills else []
    labels = [labels_in(ladder, passage) for ladder in passage.ladders if ladder.spot]
    spots = own[: len(passage.spots)]
    before = list(front_pieces(passage, lines, len(blocks), desk))
    columns = [
        *spot_pieces(passage, labels, spots, desk, book.width),
        *other,
        *drill_pieces(passage, by_number(blocks), desk, book.width),
        *left_out(passage, desk, book.width),
    ]
    return before, columns


def by_number(pieces: Sequence[DrillPiece]) -> dict[int, DrillPiece]:
    """The blocks of drills by their numbers."""
    return {piece.number: piece for piece in pieces}


def leaves_in(
    front: Sequence[Piece], columns: Sequence[Piece], book: PassageBook, frame: Frame
) -> list[Leaf]:
    """The pages; hard spots begin below the front, on its last page."""
    pages = flow(front, lambda _: frame.columns(), FULL)
    first = leaves_of(pages, frame.top)
    if not columns:
        return first
    used = depth(pages[-1]) + book.desk.layout.passage.frame_gap_mm

    def room(page: int) -> Room:
        full = frame.columns(book.columns)
        return full if page else replace(full, height=max(full.height - used, 0.0))

    filled = flow(columns, room, FULL, first=len(pages) - 1)
    (below,) = leaves_of(filled[:1], frame.top - used)
    after = leaves_of(filled[1:], frame.top)
    return [*first[:-1], together(first[-1], below), *after]


def depth(page: Page) -> float:
    """How far the pieces of a page of one column reach down, in millimetres."""
    return max((put.down + put.piece.height for put in page.columns[0]), default=0.0)


def together(above: Leaf, below: Leaf) -> Leaf:
    """One page of two."""

    def draw(canvas: Canvas, side: Side) -> Iterator[Placed]:
        yield from above.draw(canvas, side)
        yield from below.draw(canvas, side)

    return replace(
        above,
        marks=(*above.marks, *below.marks),
        draw=draw,
        signs=above.signs | below.signs,
    )
