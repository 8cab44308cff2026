"""A passage: its music with the placements, the hands, the table, the drills that lead there."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from bookgen.binder.page.bind import bind_leaves
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.flow import EVEN, FULL, Piece, flow
from bookgen.binder.page.frame import Frame, frame_of
from bookgen.binder.page.imprint import CREATOR, Imprint
from bookgen.binder.page.leaf import Leaf, leaves_of
from bookgen.binder.page.placed import put_together
from bookgen.binder.parts.block_words import book_words
from bookgen.binder.parts.drills import Drills, drills_of, key_words
from bookgen.binder.parts.passage_front import front_pieces, music_of
from bookgen.binder.parts.passage_ladders import ladder_pieces, planned_drills
from bookgen.notation.drill_score import DrillScore
from bookgen.notation.engraved import Engraving
from bookgen.plan.passage import Passage
from bookgen.plan.passage_excerpt import excerpts_of
from bookgen.words import passage as words


@dataclass(frozen=True, slots=True)
class PassageBook:
    """A passage on its way to the page, before its music is engraved.

    drills: those of its plan; None where there are none.
    """

    passage: Passage
    drills: Drills | None
    desk: Desk

    @property
    def scores(self) -> tuple[DrillScore, ...]:
        """What is engraved of the drills, in the order of play."""
        return self.drills.scores if self.drills else ()

    @property
    def width(self) -> float:
        """Width of a column of drills and excerpts, in millimetres."""
        return self.drills.width if self.drills else self.desk.sheet.column

    @property
    def columns(self) -> int:
        """Columns of the pages of drills."""
        return self.drills.columns if self.drills else 1


def passage_book(passage: Passage, desk: Desk) -> PassageBook:
    """Settle how a passage's drills are printed.

    Raises:
        NoRoomError: a chart or a line of music has no room.
    """
    passage = printable(passage, desk)
    entries = planned_drills(passage)
    if passage.plan is None or not entries:
        return PassageBook(passage, None, desk)
    said = [book_words(entry, passage.plan, desk) for entry in entries]
    return PassageBook(passage, drills_of(entries, said, desk, "sheet"), desk)


def bind_passage(
    book: PassageBook, drills: Engraving, music: Engraving, excerpts: Engraving
) -> bytes:
    """Bind a passage: the whole PDF, right-hand pages odd, with an outline.

    drills: of `book.scores`; music: of the passage, line by line, as wide as the page's column.
    excerpts: of its placements, in their order, as wide as `book.width`.

    Raises:
        ValueError: an engraving is another passage's.
        NoRoomError: a line of music, a chart or a drill does not fit its page.
    """
    passage, desk = book.passage, book.desk
    if len(excerpts_of(passage)) != len(excerpts.drills):
        msg = f"{len(excerpts_of(passage))} excerpts, {len(excerpts.drills)} engraved"
        raise ValueError(msg)
    key = key_words(book.drills, "book") if book.drills else {}
    frame = frame_of(desk, passage.title, words.caution(desk.speech), key, mirrored=True)
    first = len(drills.drills)
    after = first + len(music.drills)
    lines = [music_of(first + index, line) for index, line in enumerate(music.drills)]
    own = [music_of(after + index, one) for index, one in enumerate(excerpts.drills)]
    blocks = book.drills.pieces(drills.drills) if book.drills else []
    by_number = {piece.number: piece for piece in blocks}
    imprint = Imprint(
        title=passage.title,
        author=desk.clean(desk.studio) or CREATOR,
        subject=words.subject(desk.instrument, desk.speech),
    )
    leaves = leaves_in(
        [*front_pieces(passage, lines, desk)],
        [*ladder_pieces(passage, by_number, own, desk, book.width)],
        book,
        frame,
    )
    return bind_leaves([], leaves, frame, put_together(drills, music, excerpts), imprint)


def leaves_in(
    front: Sequence[Piece], ladders: Sequence[Piece], book: PassageBook, frame: Frame
) -> list[Leaf]:
    """The pages; drills in columns of their own begin a page."""
    if book.columns == 1:
        pages = flow([*front, *ladders], lambda _: frame.columns(), FULL)
        return leaves_of(pages, frame.top)
    pages = flow(front, lambda _: frame.columns(), FULL)
    after = flow(ladders, lambda _: frame.columns(book.columns), EVEN, first=len(pages))
    return [*leaves_of(pages, frame.top), *leaves_of(after, frame.top)]


def printable(passage: Passage, desk: Desk) -> Passage:
    """A passage whose words, which come from a file of the user's, can be printed."""
    bars = tuple(replace(bar, number=desk.clean(bar.number)) for bar in passage.phrase.bars)
    unplayable = tuple((desk.clean(bar), problem) for bar, problem in passage.best.unplayable)
    return replace(
        passage,
        title=desk.clean(passage.title),
        phrase=replace(passage.phrase, bars=bars),
        best=replace(passage.best, unplayable=unplayable),
    )
