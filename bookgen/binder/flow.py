"""The drills of a week on its pages: days run on, each under a heading of its own."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from bookgen.binder.block import Block
from bookgen.binder.block_drawing import draw_block
from bookgen.binder.book_words import DayWords, day_words
from bookgen.binder.canvas import Canvas
from bookgen.binder.english import dates_name
from bookgen.binder.furniture import Furniture
from bookgen.binder.layout import PencilRoom
from bookgen.binder.leaf import Leaf, Mark, Side
from bookgen.binder.overlay import Placed, placed
from bookgen.binder.page_words import PageWords
from bookgen.binder.pencil import FEWEST_LINES, Room, draw_rest, share_spare
from bookgen.binder.run_on import Piece, Run, run_on
from bookgen.binder.typeset import ASCENT, MM_PER_POINT, draw_line, line_height
from bookgen.binder.view import View
from bookgen.notation.engraved import EngravedDrill
from bookgen.plan.document import Day, Plan

DAY_RULE_MM: Final = 0.9
MOST_APART_MM: Final = 9.0
"""White between two blocks beyond the least, where there is none for the pencil."""

DAY_WHITE_MM: Final = 2.2
"""Below a day's heading."""


@dataclass(frozen=True, slots=True)
class Entry:
    """A drill's block in the flow of days.

    index: of its music in the engraving; opens: its day's heading stands above it.
    """

    index: int
    day: Day
    block: Block
    opens: bool
    words: DayWords


@dataclass(frozen=True, slots=True)
class Book:
    """What all pages of days share.

    views: of all charts, at one scale; from_memory: without music.
    """

    plan: Plan
    furniture: Furniture
    words: PageWords
    music: Sequence[EngravedDrill]
    views: Sequence[View]
    from_memory: bool


def entries_of(book: Book) -> list[Entry]:
    """Measure every drill of the plan, in order.

    How to play is told at the front; who plays from memory needs it with each drill.
    """
    desk = book.furniture.desk
    entries: list[Entry] = []
    for day in book.plan.days:
        words = day_words(day)
        for planned in day.drills:
            index = len(entries)
            music = None if book.from_memory else book.music[index]
            brief = not book.from_memory
            block = desk.block(planned, music, book.views[index], brief=brief)
            entries.append(Entry(index, day, block, planned is day.drills[0], words))
    return entries


def week_leaves(book: Book, entries: Sequence[Entry], *, verso: bool) -> Iterator[Leaf]:
    """The pages of a run of days.

    verso: the first is a left-hand page.

    Raises:
        NoRoomError: a drill does not fit on a page.
    """
    layout = book.furniture.desk.layout
    run = Run(
        room=book.furniture.room,
        gap=layout.block.between,
        bar=bar_height(book),
        verso=verso,
    )
    pieces = [Piece(entry.block.height, entry.opens) for entry in entries]
    queue = iter(entries)
    for amount in run_on(pieces, run):
        yield leaf_of(book, [next(queue) for _ in range(amount)])


def bar_height(book: Book) -> float:
    """Height of a day's heading with the white below it."""
    sizes = book.furniture.desk.layout.text
    return line_height(sizes.title, sizes.leading) + DAY_WHITE_MM


def leaf_of(book: Book, chosen: Sequence[Entry]) -> Leaf:
    """One page of drills."""
    marks: list[Mark] = []
    for entry in chosen:
        if entry.opens:
            marks.append(Mark(entry.words.date, 1))
        marks.append(Mark(f"{entry.block.number} · {entry.block.outline}", 2))

    def draw(canvas: Canvas, side: Side) -> Iterator[Placed]:
        return draw_drills(canvas, side, book, chosen)

    running = dates_name(chosen[0].day.date, chosen[-1].day.date)
    return Leaf(running, tuple(marks), draw)


def draw_drills(
    canvas: Canvas, side: Side, book: Book, chosen: Sequence[Entry]
) -> Iterator[Placed]:
    """Draw the drills of a page; the height they leave becomes room for the pencil.

    Yields:
        Where the music of each drill goes.
    """
    layout, bar = book.furniture.desk.layout, bar_height(book)
    gap = layout.block.between
    used = sum(entry.block.height + bar * entry.opens for entry in chosen)
    used += gap * (len(chosen) - 1)
    pencil, rest = spaced(book.furniture.room - used, len(chosen), layout.pencil)
    top = book.furniture.top
    for order, entry in enumerate(chosen):
        if order:
            width = DAY_RULE_MM if entry.opens else 0.2
            y = top + gap / 2
            canvas.line((side.left, y), (side.right, y), width=width)
        if entry.opens:
            draw_bar(canvas, side, book, entry, top)
            top -= bar
        music = draw_block(canvas, entry.block, side.left, top, pencil)
        if entry.block.ink is not None:
            yield placed(side.page, entry.index, music)
        top -= entry.block.height + pencil + gap
    room = Room(side.left, top + gap, side.right - side.left, rest)
    draw_rest(canvas, room, layout, (book.words.pencil, book.words.own))


def spaced(spare: float, blocks: int, pencil: PencilRoom) -> tuple[float, float]:
    """Room below each block and at the page's end; too little to write in sets blocks apart.

    >>> spaced(12.0, 2, PencilRoom(page=2.0, most=30.0, line=8.0))
    (6.0, 0.0)
    """
    if spare / blocks < FEWEST_LINES * pencil.line:
        apart = min(spare / blocks, MOST_APART_MM)
        return apart, spare - blocks * apart
    return share_spare(spare, blocks, pencil)


def draw_bar(canvas: Canvas, side: Side, book: Book, entry: Entry, top: float) -> None:
    """A day's heading: the date, the minutes, and what sort of day it is."""
    size = book.furniture.desk.layout.text.title
    baseline = top - size * ASCENT * MM_PER_POINT
    draw_line(canvas, (side.left, baseline), book.words.day(entry.words), size)
