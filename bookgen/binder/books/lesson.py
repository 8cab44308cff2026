"""A page for a lesson: what a player's log says, and room to write."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date as Date  # noqa: N812
from itertools import chain
from typing import Final

from bookgen.binder.books.coverage import bound
from bookgen.binder.page.canvas import Face
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.frame import frame_of
from bookgen.binder.page.piece import Piece
from bookgen.binder.page.prose import Look, heading, piece_of, words_of
from bookgen.binder.parts.summary import write_piece
from bookgen.binder.parts.table import table_row, widths_of
from bookgen.words import coverage, lesson
from bookgen.words.lesson import Section
from bookgen.words.names import played_name

ABOVE_MM: Final = 3.5
BELOW_MM: Final = 0.5
MORE_MM: Final = 0.8
WRITE_MM: Final = 12.0
"""For more lines to write on (own choice)."""


@dataclass(frozen=True, slots=True)
class Part:
    """A part of the page: its heading, and its rows, of which the last ones may be left out."""

    over: Piece
    rows: Sequence[Piece]
    desk: Desk

    def pieces(self, most: int) -> list[Piece]:
        """The heading and at most so many rows; how many are left out is said."""
        left = len(self.rows) - most
        words = lesson.left_out(left, self.desk.speech)
        more = [replace(plain(words, self.desk), above=MORE_MM)] if left else []
        return [self.over, *self.rows[:most], *more]


def bind_lesson(sections: Sequence[Section], player: str, day: Date, desk: Desk) -> bytes:
    """The page: the whole PDF.

    Raises:
        NoRoomError: a part of it does not fit the page.
    """
    name, speech = desk.clean(player), desk.speech
    over = coverage.whose(name, played_name(desk.instrument, desk.size, speech))
    look = Look(desk.layout.text.heading_pt, Face.BOLD)
    title = piece_of([words_of(over, look, desk.sheet.column, desk)])
    write = replace(write_piece(desk), above=ABOVE_MM)
    room = frame_of(desk, desk.clean(desk.studio), "", {}).columns().height
    parts = [part_of(section, desk) for section in sections]
    pieces = [title, *on_one_page(parts, room - height_of([title, write]) - WRITE_MM), write]
    running = lesson.whose(name, speech.skeleton(day, "yMMMd"), speech)
    return bound(pieces, running, desk)


def on_one_page(parts: Sequence[Part], room: float) -> list[Piece]:
    """The parts with so many of their rows as have room; the highest one gives way first.

    Each keeps one row.

    room: in millimetres.
    """
    most = [len(part.rows) for part in parts]
    while True:
        shown = [part.pieces(rows) for part, rows in zip(parts, most, strict=True)]
        heights = [height_of(pieces) for pieces in shown]
        longer = [at for at, rows in enumerate(most) if rows > 1]
        if sum(heights) <= room or not longer:
            return [*chain.from_iterable(shown)]
        most[max(longer, key=heights.__getitem__)] -= 1


def height_of(pieces: Sequence[Piece]) -> float:
    """Height of pieces below each other, in millimetres."""
    return sum(piece.height + piece.above for piece in pieces)


def part_of(section: Section, desk: Desk) -> Part:
    """A heading and its rows; in lines where a table would be too wide."""
    look = Look(desk.layout.text.title_pt, Face.BOLD, above=ABOVE_MM)
    over = heading(section.title, look, desk.sheet.column, desk, BELOW_MM)
    return Part(over, [*rows_of(section, desk)], desk)


def rows_of(section: Section, desk: Desk) -> Iterator[Piece]:
    """The rows of a part, or what is said where there are none."""
    if not section.rows:
        yield plain(section.otherwise, desk)
        return
    widths = widths_of(section.rows, desk)
    faces = (Face.BOLD, *(Face.REGULAR,) * (len(section.rows[0]) - 1))
    for cells in section.rows:
        if widths is None:
            first, *others = filter(None, cells)
            yield plain(coverage.whose(first, ", ".join(others)), desk)
        else:
            yield table_row(cells, widths, faces, desk)


def plain(text: str, desk: Desk) -> Piece:
    """A line of words."""
    return piece_of([words_of(text, Look(desk.layout.text.small_pt), desk.sheet.column, desk)])
