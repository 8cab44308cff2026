"""The opening of a chapter: its number, its title and its text, over its first drills."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from typing import Final

from bookgen.binder.page.canvas import Canvas, Face
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.flow import flow
from bookgen.binder.page.frame import Frame
from bookgen.binder.page.leaf import Leaf, leaf_of, leaf_under, leaves_of
from bookgen.binder.page.piece import FULL, WHITE_AT_END, Mark, Page, Piece, Room, Slot
from bookgen.binder.page.placed import Placed
from bookgen.binder.page.prose import Look, draw_words, dropped, height_of, piece_of, words_of
from bookgen.binder.parts.told import told_pieces, told_words
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
    name = words.chapter_entry(number, title, speech)
    over = piece_of(
        [
            words_of(words.chapter_number(number, speech), small, width, desk),
            words_of(title, big, width, desk),
            words_of(words.drills_of_chapter(chapter.numbers, speech), facts, width, desk),
        ]
    )
    yield dropped(replace(over, marks=(Mark(name, 0),), keeps=True), sizes.drop_mm)
    yield from told_pieces(chapter.text, Look(sizes.text_pt), desk)
    if teacher and chapter.for_teacher:
        yield teacher_piece(chapter.for_teacher, desk)


def teacher_piece(text: str, desk: Desk) -> Piece:
    """Notes for the teacher beside a bar."""
    sizes = desk.layout.supplement
    over = words_of(
        words.for_teacher(desk.speech),
        Look(desk.layout.text.body_pt, Face.BOLD, indent=INDENT_MM),
        desk.sheet.column,
        desk,
    )
    look = Look(desk.layout.text.body_pt, above=sizes.paragraph_mm / 2, indent=INDENT_MM)
    lines = [over, *(replace(one, look=look) for one in told_words(text, look, desk))]

    def draw(canvas: Canvas, slot: Slot) -> Iterator[Placed]:
        end = draw_words(canvas, lines, slot.left, slot.top)
        canvas.line((slot.left, slot.top), (slot.left, end), width=BAR_MM)
        return iter(())

    return Piece(height_of(lines), draw, called=over.plain)


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
    sizes = frame.desk.layout.supplement
    white = sizes.paragraph_mm
    high = sum(piece.height + white for piece in opening) + sizes.below_mm
    tallest = max(piece.height for piece in drills)
    if high > MOST * frame.room or frame.room - high < tallest:
        one = Room(1, frame.desk.sheet.column, 0.0, frame.room)
        spaced = [replace(piece, above=white) for piece in opening]
        own = leaves_of(flow(spaced, lambda _: one, FULL), frame.top, running)
        pages = flow(drills, lambda _: room, WHITE_AT_END, first=first + len(own))
        return [*own, *leaves_of(pages, frame.top, running)]
    low = replace(room, height=frame.room - high)
    begun, *rest = flow(drills, lambda page: room if page else low, WHITE_AT_END, first=first)
    top = leaf_of(begun, frame.top - high, "")
    return [leaf_under(opening, white, top, frame.top), *leaves_of(rest, frame.top, running)]
