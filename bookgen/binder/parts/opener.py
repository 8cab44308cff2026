"""The opening of a chapter: its number, its title and its text, over its first drills."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from typing import Final

from bookgen.binder.page.canvas import Face
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.flow import flow
from bookgen.binder.page.frame import Frame
from bookgen.binder.page.leaf import Leaf, height_of, leaf_of, leaf_under, leaves_of
from bookgen.binder.page.piece import CHAPTER, FULL, Mark, Page, Piece, Room
from bookgen.binder.page.prose import Look, dropped, piece_of, refuse_wide, words_of
from bookgen.binder.parts.told import told_pieces
from bookgen.binder.structure.tag import head
from bookgen.errors import told
from bookgen.plan.supplement import Chapter
from bookgen.words import supplement as words

MOST: Final = 0.6
"""Of a page's height: above a longer opening no drills stand on its page (own choice)."""

BAR_MM: Final = 0.6
INDENT_MM: Final = 4.0
NUMBER_WHITE_MM: Final = 1.0
FACTS_MM: Final = 2.2


def opening_pieces(chapter: Chapter, number: int, desk: Desk, *, teacher: bool) -> Iterator[Piece]:
    """What stands over the drills of a chapter.

    number: of the chapter; teacher: its notes for the teacher are printed.
    """
    sizes, width, speech = desk.layout.supplement, desk.sheet.column, desk.speech
    title = desk.clean(chapter.title)
    small = Look(sizes.subtitle_pt)
    big = Look(sizes.chapter_pt, Face.BOLD, above=NUMBER_WHITE_MM)
    facts = Look(desk.layout.text.body_pt, Face.ITALIC, above=FACTS_MM)
    refuse_wide(title, big, width, told("the title of chapter {number}", number=number), desk)
    name, tag = words.chapter_entry(number, title, speech), head()
    over = piece_of(
        [
            words_of(words.chapter_number(number, speech), small, width, desk, tag),
            words_of(title, big, width, desk, tag),
            words_of(words.drills_of_chapter(chapter.numbers, speech), facts, width, desk),
        ]
    )
    yield dropped(replace(over, marks=(Mark(name, 0),), keeps=True), sizes.drop_mm)
    text = Look(sizes.text_pt, above=sizes.paragraph_mm)
    yield from white_above(told_pieces(chapter.text, text, desk), sizes.paragraph_mm)
    if teacher and chapter.for_teacher:
        yield from white_above(teacher_pieces(chapter.for_teacher, desk), 2 * sizes.paragraph_mm)


def white_above(pieces: Iterable[Piece], white: float) -> Iterator[Piece]:
    """Pieces with that white above the first one, in millimetres."""
    for place, piece in enumerate(pieces):
        yield piece if place else replace(piece, above=white)


def teacher_pieces(text: str, desk: Desk) -> Iterator[Piece]:
    """Notes for the teacher beside a bar."""
    size, column = desk.layout.text.body_pt, desk.sheet.column
    name = words.for_teacher(desk.speech)
    over = words_of(name, Look(size, Face.BOLD, indent=INDENT_MM), column, desk, head(1))
    look = Look(size, indent=INDENT_MM)
    return told_pieces(text, look, desk, over=over, bar=BAR_MM)


def chapter_leaves(
    opening: Sequence[Piece],
    drills: Sequence[Piece],
    room: Room,
    frame: Frame,
    first: int,
    running: Callable[[Page], str],
) -> list[Leaf]:
    """The pages of a chapter: its opening over the first drills, or on pages of its own.

    room: of a page with drills; first: number of the chapter's first page, from 0.
    """
    high = height_of(opening) + frame.desk.layout.supplement.below_mm
    tallest = max((piece.height for piece in drills), default=frame.room)
    if high > MOST * frame.room or frame.room - high < tallest:
        one = Room(1, frame.desk.sheet.column, 0.0, frame.room)
        opens, *own = leaves_of(flow(opening, lambda _: one, FULL), frame.top, running)
        pages = flow(drills, lambda _: room, CHAPTER, first=first + 1 + len(own)) if drills else ()
        return [replace(opens, running=""), *own, *leaves_of(pages, frame.top, running)]
    low = replace(room, height=frame.room - high)
    begun, *rest = flow(drills, lambda page: room if page else low, CHAPTER, first=first)
    top = leaf_of(begun, frame.top - high, "")
    return [leaf_under(opening, top, frame.top), *leaves_of(rest, frame.top, running)]
