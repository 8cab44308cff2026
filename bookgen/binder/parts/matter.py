"""The first pages of a book: half title, title, imprint, contents, preface."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from bookgen.binder.page.canvas import Canvas, Face, Style
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.flow import flow
from bookgen.binder.page.frame import Frame
from bookgen.binder.page.leaf import BLANK, Leaf, Side, leaves_of
from bookgen.binder.page.paper import NoRoomError
from bookgen.binder.page.piece import FULL, Mark, Piece, Room, Slot
from bookgen.binder.page.placed import Placed
from bookgen.binder.page.prose import (
    Look,
    Words,
    draw_words,
    dropped,
    heading,
    height_of,
    refuse_wide,
    words_of,
)
from bookgen.binder.page.typeset import ASCENT, MM_PER_POINT
from bookgen.binder.parts.told import measure_of, told_pieces, told_words
from bookgen.binder.structure.tag import ARTIFACT, Role, Tag, head, of_page
from bookgen.errors import told

ABOVE: Final = 0.3
"""How much of the page lies above a title, as on a cover; own choice."""

RULE_MM: Final = 0.9
GAP_MM: Final = 7.0
NUMBER_MM: Final = 14.0
"""Beside an entry of the contents, for its page."""

ENTRY_MM: Final = 2.6
NOTE_MM: Final = 0.3
TITLE_WHITE_MM: Final = 6.0


@dataclass(frozen=True, slots=True)
class Entry:
    """An entry of the contents; note: below its title, e.g. which drills; page: as printed."""

    title: str
    note: str
    page: str


def lines_leaf(over: Sequence[Words], below: Sequence[Words], mark: str) -> Leaf:
    """A page without head and foot: some lines under a heavy rule, others at its foot.

    mark: in the outline, or nothing.
    """

    def draw(canvas: Canvas, side: Side) -> Iterator[Placed]:
        top = side.sheet.height * (1 - ABOVE)
        foot = side.sheet.bottom + height_of(below)
        needs = height_of(over) + GAP_MM
        if top - needs < foot + GAP_MM * bool(below):
            raise NoRoomError(told("the title page"), needs, top - foot)
        if mark:
            canvas.begin(mark, 0)
        with canvas.tagged(ARTIFACT):
            canvas.line((side.left, top), (side.right, top), width=RULE_MM)
        draw_words(canvas, over, side.left, top - GAP_MM)
        draw_words(canvas, below, side.left, foot)
        return iter(())

    return Leaf("", (Mark(mark, 0),) if mark else (), draw, bare=True)


def half_title_leaf(title: str, desk: Desk) -> Leaf:
    """The title alone."""
    look = Look(desk.layout.supplement.subtitle_pt, Face.BOLD)
    return lines_leaf([words_of(title, look, desk.sheet.column, desk)], (), "")


def title_leaf(
    title: str, subtitle: str, facts: Sequence[str], author: str, edition: str, desk: Desk
) -> Leaf:
    """The title page.

    facts: for which instrument it is, and which of the parallel editions.
    """
    sizes, width = desk.layout.supplement, desk.sheet.column
    plain, bold = Look(sizes.subtitle_pt, above=GAP_MM / 2), Look(sizes.title_pt, Face.BOLD)
    refuse_wide(title, bold, width, told("the title page"), desk)
    over = [words_of(title, bold, width, desk, head())]
    over += [words_of(subtitle, plain, width, desk)] if subtitle else []
    first = replace(plain, above=2 * GAP_MM)
    over += [
        words_of(fact, replace(plain, above=GAP_MM / 4) if place else first, width, desk)
        for place, fact in enumerate(filter(None, facts))
    ]
    foot = Look(desk.layout.text.title_pt, above=GAP_MM / 4)
    below = [words_of(line, foot, width, desk) for line in (author, edition) if line]
    return lines_leaf(over, below, title)


def imprint_leaf(text: str, number: str, desk: Desk) -> Leaf:
    """What the publisher says, at the foot of the page behind the title; blank without a word.

    number: by which the book is traded, as it is written.
    """
    look = Look(desk.layout.text.small_pt, above=desk.layout.supplement.paragraph_mm)
    words = told_words(text, look, desk)
    words += [words_of(desk.clean(number), look, desk.sheet.column, desk)] if number else []
    if not words:
        return BLANK

    def draw(canvas: Canvas, side: Side) -> Iterator[Placed]:
        top, room = side.sheet.bottom + height_of(words), side.sheet.top - side.sheet.bottom
        if height_of(words) > room:
            raise NoRoomError(told("the imprint"), height_of(words), room)
        draw_words(canvas, words, side.left, top)
        return iter(())

    return Leaf("", (), draw, bare=True)


def entry_piece(entry: Entry, desk: Desk, contents: Tag) -> Piece:
    """A line of the contents: what it is at the left, its page at the right.

    contents: in which it is read.
    """
    whole = Tag(Role.ENTRY, within=contents)
    link = Tag(Role.LINK, within=Tag(Role.REFERENCE, within=whole), goal=of_page(entry.page))
    sizes, measure = desk.layout.supplement, measure_of(desk)
    width = measure - NUMBER_MM
    lines = [words_of(entry.title, Look(sizes.text_pt), width, desk, link)]
    if entry.note:
        note = Look(desk.layout.text.small_pt, Face.ITALIC, above=NOTE_MM)
        lines.append(words_of(entry.note, note, width, desk, Tag(Role.PARAGRAPH, within=whole)))
    style = Style(Face.REGULAR, sizes.text_pt)

    def draw(canvas: Canvas, slot: Slot) -> Iterator[Placed]:
        end = draw_words(canvas, lines[:1], slot.left, slot.top)
        x = slot.left + measure - canvas.width(entry.page, style)
        with canvas.tagged(link):
            canvas.text((x, slot.top - style.size * ASCENT * MM_PER_POINT), entry.page, style)
        draw_words(canvas, lines[1:], slot.left, end - NOTE_MM)
        return iter(())

    return Piece(height_of(lines), draw, above=ENTRY_MM, called=entry.title)


def part_heading(title: str, desk: Desk) -> Piece:
    """A part's name over its text, as a chapter's; it is in the outline."""
    sizes = desk.layout.supplement
    look = Look(sizes.chapter_pt, Face.BOLD)
    found = heading(title, look, desk.sheet.column, desk, TITLE_WHITE_MM, depth=0)
    return dropped(replace(found, marks=(Mark(title, 0),)), sizes.drop_mm)


def part_leaves(title: str, pieces: Sequence[Piece], frame: Frame) -> list[Leaf]:
    """The pages of a part under its name."""
    room = Room(1, frame.desk.sheet.column, 0.0, frame.room)
    pages = flow([part_heading(title, frame.desk), *pieces], lambda _: room, FULL)
    first, *rest = leaves_of(pages, frame.top, lambda _: title)
    return [replace(first, running=""), *rest]


def contents_leaves(title: str, entries: Sequence[Entry], frame: Frame) -> list[Leaf]:
    """The contents; as many pages whatever the numbers in them are."""
    whole = Tag(Role.CONTENTS)
    return part_leaves(title, [entry_piece(entry, frame.desk, whole) for entry in entries], frame)


def text_leaves(title: str, text: str, frame: Frame) -> list[Leaf]:
    """A text under its name."""
    sizes = frame.desk.layout.supplement
    look = Look(sizes.text_pt, above=sizes.paragraph_mm)
    return part_leaves(title, [*told_pieces(text, look, frame.desk)], frame)
