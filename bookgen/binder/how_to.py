"""How to use a booklet: words with the cautions, the ways of playing, the signs, the contents."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from typing import Final

from bookgen.binder.book_words import BookWords
from bookgen.binder.calendar import Calendar, calendar_of, draw_calendar
from bookgen.binder.canvas import Canvas, Face, Style
from bookgen.binder.desk import Desk
from bookgen.binder.furniture import Furniture
from bookgen.binder.layout import NoRoomError
from bookgen.binder.leaf import Leaf, Mark, Side
from bookgen.binder.overlay import Placed
from bookgen.binder.pencil import Room, draw_rules
from bookgen.binder.prose import Look, Set, draw_prose, height_of, set_prose
from bookgen.binder.typeset import ASCENT, MM_PER_POINT, line_height, shorten
from bookgen.plan.document import Plan

HOW_TO: Final = "how-to.j2"
HOW_TO_PARTS: Final = frozenset(
    {
        *("outline", "heading", "text", "item", "contents", "calendar", "aims"),
        *("rest", "light", "test"),
    }
)
"""What how-to.j2 may print."""

ABOVE_MM: Final = 0.8
"""Between the heading of the contents and their first line."""

WHITE_MM: Final = 2.6
"""Above a heading."""

SMALLEST: Final = 0.9
"""Of small type: the least that these words are set in."""

DOT_MM: Final = 1.6
"""From dot to dot between a title and its page."""

NUMBERS_MM: Final = 12.0
"""Room for the contents' page numbers."""

LONG_CONTENTS: Final = 16
"""Lines; more are set in two columns."""

COLUMN_GAP_MM: Final = 6.0

Contents = Sequence[tuple[str, str]]
"""Titles of the parts, and the numbers of the pages on which they begin."""


@dataclass(frozen=True, slots=True)
class Front:
    """The words before the first week, set in one size.

    heads: over the contents and over the calendar; aims: over ruled lines.
    """

    furniture: Furniture
    sets: Sequence[Set]
    heads: tuple[Sequence[Set], Sequence[Set]]
    contents: Contents
    calendar: Calendar
    aims: str
    size: float

    @property
    def line(self) -> float:
        """Height of a line of the contents."""
        return line_height(self.size, self.furniture.desk.layout.text.leading * 1.05)

    @property
    def contents_height(self) -> float:
        """Height of the contents with their heading."""
        return height_of(self.heads[0]) + ABOVE_MM + self.rows * self.line

    @property
    def columns(self) -> int:
        """In how many columns the contents stand."""
        return 1 if len(self.contents) <= LONG_CONTENTS else 2

    @property
    def rows(self) -> int:
        """Lines of the longest column of the contents."""
        return -(-len(self.contents) // self.columns)

    @property
    def room(self) -> float:
        """Height of a page."""
        return self.furniture.room

    def on_one_page(self, *, calendar: bool) -> list["FrontPage"]:
        """All on one page; nothing where that does not fit.

        calendar: it must fit too.
        """
        used = height_of(self.sets) + WHITE_MM + self.contents_height
        left = self.room - used - WHITE_MM - height_of(self.heads[1]) - ABOVE_MM
        if used > self.room or (calendar and self.calendar.row_in(left) is None):
            return []
        return [FrontPage(self, self.sets, contents=True, calendar=True)]

    def on_three_pages(self) -> list["FrontPage"]:
        """Words on two pages, calendar on the third; nothing where that does not fit."""
        cuts = [at for at, one in enumerate(self.sets) if at and one.look.heads]
        halves = [(self.sets[:at], self.sets[at:]) for at in cuts]
        columns = min(halves, key=lambda pair: max(map(height_of, pair)), default=())
        if not columns or max(map(height_of, columns)) > self.room:
            return []
        below = height_of(columns[1]) + WHITE_MM + self.contents_height <= self.room
        return [
            FrontPage(self, columns[0], contents=False, calendar=False),
            FrontPage(self, columns[1], contents=below, calendar=False),
            FrontPage(self, [], contents=not below, calendar=True),
        ]


@dataclass(frozen=True, slots=True)
class FrontPage:
    """One page of words, contents and calendar; what they leave is for the player's aims."""

    front: Front
    sets: Sequence[Set]
    contents: bool
    calendar: bool

    def draw(self, canvas: Canvas, side: Side) -> Iterator[Placed]:
        """Draw the page from top to bottom."""
        front, furniture = self.front, self.front.furniture
        top = furniture.top
        if self.sets:
            top = draw_prose(canvas, self.sets, side.left, top) - WHITE_MM
        if self.contents:
            top = draw_prose(canvas, front.heads[0], side.left, top) - ABOVE_MM
            draw_contents(canvas, side, front, top)
            top -= front.rows * front.line + WHITE_MM
        if self.calendar:
            top = self.draw_days(canvas, side, top)
            rest = Room(side.left, top, side.right - side.left, top - furniture.bottom)
            draw_rules(canvas, rest, furniture.desk.layout, front.aims)
        return iter(())

    def draw_days(self, canvas: Canvas, side: Side, top: float) -> float:
        """Draw the calendar where there is room for it. Returns where it ends."""
        front, head = self.front, self.front.heads[1]
        room = top - height_of(head) - ABOVE_MM - front.furniture.bottom
        row = front.calendar.row_in(room)
        if row is None:
            return top
        top = draw_prose(canvas, head, side.left, top) - ABOVE_MM
        draw_calendar(canvas, front.calendar, side.left, top, row)
        return top - front.calendar.height(row)


def looks(desk: Desk, size: float) -> dict[str, Look]:
    """How the parts of running words are set, at a size in points."""
    heading = Look(desk.layout.text.title, above=WHITE_MM, heads=True)
    return {
        "heading": heading,
        "text": Look(size, above=0.8),
        "item": Look(size, above=0.6, indent=3.6, bullet="•"),
    }


def how_to_leaves(
    plan: Plan, book: BookWords, furniture: Furniture, contents: Contents, span: tuple[Date, Date]
) -> list[Leaf]:
    """The pages after the cover: one, or three, so that the first week begins on the right.

    Raises:
        BookgenError: the template is damaged.
        NoRoomError: the words are more than two pages hold.
    """
    desk = furniture.desk
    found = desk.words.fill(HOW_TO, {"book": book}, HOW_TO_PARTS)
    plain = dict.fromkeys(HOW_TO_PARTS, "") | {p.part: p.plain for p in found}
    text, width = desk.layout.text, desk.sheet.column

    def front(size: float) -> Front:
        def words(styles: dict[str, Look]) -> list[Set]:
            return set_prose(found, styles, width, text.leading, desk.fonts)

        heading = looks(desk, size)["heading"]
        heads = (words({"contents": heading}), words({"calendar": heading}))
        calendar = calendar_of(plan.days, span, desk, plain)
        return Front(
            furniture, words(looks(desk, size)), heads, contents, calendar, plain["aims"], size
        )

    sizes = (text.link, text.body, text.small, SMALLEST * text.small)
    fronts = [front(size) for size in sizes]
    tries = (
        *(one.on_one_page(calendar=True) for one in fronts[:2]),
        *(one.on_one_page(calendar=False) for one in fronts[:2]),
        *(one.on_three_pages() for one in fronts),
    )
    pages = next(filter(None, tries), None)
    if pages is None:
        msg = "how-to.j2 and the contents are longer than their pages"
        raise NoRoomError(msg)
    return leaves_of(pages, plain["outline"])


def leaves_of(pages: Sequence[FrontPage], outline: str) -> list[Leaf]:
    """The pages, the first of them in the outline."""
    marks = ((Mark(outline, 0),), *((),) * (len(pages) - 1))
    return [Leaf(outline, mark, page.draw) for page, mark in zip(pages, marks, strict=True)]


def draw_contents(canvas: Canvas, side: Side, front: Front, top: float) -> None:
    """The contents, column after column."""
    width = (side.right - side.left + COLUMN_GAP_MM) / front.columns - COLUMN_GAP_MM
    for index, entry in enumerate(front.contents):
        column, row = divmod(index, front.rows)
        left = side.left + column * (width + COLUMN_GAP_MM)
        baseline = top - row * front.line - front.size * ASCENT * MM_PER_POINT
        draw_entry(canvas, entry, (left, left + width, baseline), front.size)


def draw_entry(
    canvas: Canvas, entry: tuple[str, str], place: tuple[float, float, float], size: float
) -> None:
    """One line of the contents: the title, dots, the page.

    place: left and right edge and baseline in millimetres; size: in points.
    """
    (title, folio), (left, right, baseline) = entry, place
    style = Style(Face.REGULAR, size)
    title = shorten(title, right - left - canvas.width(folio, style) - DOT_MM, style, canvas)
    canvas.text((left, baseline), title, style)
    canvas.text((right - canvas.width(folio, style), baseline), folio, style)
    start = left + canvas.width(title, style) + DOT_MM
    x = right - NUMBERS_MM  # dots are counted from the right, so they stand in columns
    while x >= start:
        canvas.spot((x, baseline + 0.2), radius=0.18)
        x -= DOT_MM
