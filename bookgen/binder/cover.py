"""The cover: whose booklet it is, for when, from whom, and where on the fingerboard it plays."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from bookgen.binder.book_words import BookWords
from bookgen.binder.canvas import Canvas, Face, Style
from bookgen.binder.desk import Desk
from bookgen.binder.leaf import Leaf, Mark, Side
from bookgen.binder.map import draw_strip, strip_of
from bookgen.binder.names import in_visual_order
from bookgen.binder.overlay import Placed
from bookgen.binder.pencil import GRAY
from bookgen.binder.typeset import (
    ASCENT,
    MM_PER_POINT,
    Line,
    Paragraph,
    draw_line,
    line_height,
    shorten,
    wrap,
)
from bookgen.model.stop import Stop
from bookgen.plan.document import Plan

COVER: Final = "cover.j2"
COVER_PARTS: Final = frozenset({"studio", "title", "player", "instrument", "fact", "from", "note"})
"""What cover.j2 may print."""

GOLDEN: Final = 0.3
"""How much of the page lies above the title."""

TITLE: Final = 1.7
"""Size of the title, in sizes of the player's name on a sheet."""

GAP_MM: Final = 7.0
STRIP_GAP_MM: Final = 4.2
"""From string to string on the cover's fingerboard."""

LINES_TO_WRITE: Final = 5
NOTE_MOST_LINES: Final = 12
RULE_MM: Final = 0.9


@dataclass(frozen=True, slots=True)
class Cover:
    """The cover, filled."""

    desk: Desk
    parts: Sequence[Paragraph]
    stops: frozenset[Stop]
    named: bool

    def plain(self, part: str) -> str:
        """The words of a part."""
        return " ".join(found.plain for found in self.parts if found.part == part)

    def lines(self, part: str, size: float) -> list[Line]:
        """Lines of the paragraphs of a part over the whole column."""
        width = self.desk.sheet.column
        found = (p for p in self.parts if p.part == part)
        return [line for p in found for line in wrap(p.pieces, width, size, self.desk.fonts)]


def cover_leaf(plan: Plan, book: BookWords, desk: Desk) -> Leaf:
    """The cover's page.

    Raises:
        BookgenError: the template is damaged.
    """
    found = desk.words.fill(COVER, {"book": book}, COVER_PARTS)
    drills = (planned for day in plan.days for planned in day.drills)
    stops = {note.stop for p in drills for event in p.events for note in event.notes}
    cover = Cover(desk, found, frozenset(stops), book.player is not None)

    def draw(canvas: Canvas, side: Side) -> Iterator[Placed]:
        draw_cover(canvas, side, cover)
        return iter(())

    return Leaf("", (Mark(cover.plain("title"), 0),), draw, bare=True)


def draw_cover(canvas: Canvas, side: Side, cover: Cover) -> None:
    """Draw the cover from top to bottom."""
    sizes = cover.desk.layout.text
    studio = Style(Face.REGULAR, sizes.title)
    top = side.sheet.top - sizes.title * ASCENT * MM_PER_POINT
    words = shorten(cover.plain("studio"), side.right - side.left, studio, cover.desk.fonts)
    canvas.text((side.left, top), in_visual_order(words), studio)
    y = side.sheet.height * (1 - GOLDEN)
    y = draw_names(canvas, side, cover, y)
    y = draw_board(canvas, side, cover, y - GAP_MM)
    size = sizes.link
    for line in cover.lines("fact", size):
        y -= line_height(size, sizes.leading)
        draw_line(canvas, (side.left, y), line, size)
    draw_note(canvas, side, cover, y - 2 * GAP_MM)


def draw_names(canvas: Canvas, side: Side, cover: Cover, y: float) -> float:
    """Title, player and instrument under a heavy rule. Returns where they end."""
    sizes = cover.desk.layout.text
    width = side.right - side.left
    canvas.line((side.left, y), (side.right, y), width=RULE_MM)
    title, name = Style(Face.REGULAR, sizes.name), Style(Face.BOLD, sizes.name * TITLE)
    y -= GAP_MM + name.size * ASCENT * MM_PER_POINT
    if cover.named:
        words = shorten(cover.plain("player"), width, name, cover.desk.fonts)
        canvas.text((side.left, y), in_visual_order(words), name)
    else:
        canvas.line((side.left, y), (side.right, y), width=0.25)
        label = Style(Face.REGULAR, sizes.small)
        y -= line_height(sizes.small, sizes.leading)
        canvas.text((side.left, y), cover.plain("player"), label)
    for part in ("title", "instrument"):
        y -= line_height(title.size, sizes.leading * 1.1)
        words = shorten(cover.plain(part), width, title, cover.desk.fonts)
        canvas.text((side.left, y), in_visual_order(words), title)
    return y


def draw_board(canvas: Canvas, side: Side, cover: Cover, y: float) -> float:
    """The fingerboard with every spot of the booklet. Returns where it ends."""
    strip = strip_of(cover.stops, cover.desk.instrument, side.right - side.left, STRIP_GAP_MM)
    draw_strip(canvas, strip, side.left, y, cover.desk.layout.text.small)
    return y - strip.height - 2.0


def draw_note(canvas: Canvas, side: Side, cover: Cover, y: float) -> None:
    """The teacher's note, or lines to write one."""
    sizes, rule = cover.desk.layout.text, cover.desk.layout.pencil.line
    size = sizes.link
    heading = Style(Face.BOLD, size)
    canvas.text((side.left, y), cover.plain("from"), heading)
    lines = cover.lines("note", size)
    step = line_height(size, sizes.leading)
    for row, line in enumerate(lines[:NOTE_MOST_LINES]):
        text = in_visual_order("".join(words for words, _ in line))
        canvas.text((side.left, y - (row + 1.2) * step), text, Style(Face.REGULAR, size))
    if lines:
        return
    for row in range(1, LINES_TO_WRITE + 1):
        below = y - row * rule
        if below > side.sheet.bottom:
            canvas.line((side.left, below), (side.right, below), width=0.2, gray=GRAY)
