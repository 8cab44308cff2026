"""Where the days of a plan, their numbers and their tick boxes stand.

All follows from the plan, the paper and the layout: whoever reads a photo of the page asks here.
"""

import zlib
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from typing import Final

from bookgen.binder.page.desk import Desk
from bookgen.binder.page.flow import EVEN, Piece, Room, flow
from bookgen.binder.page.layout import Level
from bookgen.binder.page.paper import PAPERS, NoRoomError
from bookgen.binder.parts.days.grid import ABOVE, DROP, Grid, grids_of, side_of
from bookgen.binder.parts.days.marks import Marks, Square, marks_of
from bookgen.binder.parts.days.notes import Note, PlacedNote, note_height
from bookgen.binder.parts.days.signs import FIGURE, Like
from bookgen.errors import told
from bookgen.plan.document import Day, Item
from bookgen.plan.record import Result

MID_WEEK: Final = 0.02
"""What it costs to begin a page in the middle of a week."""


@dataclass(frozen=True, slots=True)
class TickBox:
    """A box: ticked, it gives an item its result."""

    number: int
    date: Date
    result: Result
    square: Square


@dataclass(frozen=True, slots=True)
class PlacedItem:
    """An item with the place of its number, and its two boxes: secure, not yet.

    waits: what it waits for, as it stands beside the number.
    """

    item: Item
    left: float
    baseline: float
    waits: str
    boxes: tuple[TickBox, TickBox]


@dataclass(frozen=True, slots=True)
class PlacedDay:
    """A day on its page.

    top: its upper edge; extra: spare room that its lines share, half above and half below each.
    new_week: the day before it on the page is of an earlier week.
    """

    day: Day
    grid: Grid
    left: float
    top: float
    extra: float
    new_week: bool

    @property
    def date(self) -> Date:
        """When it is."""
        return self.day.date

    @property
    def items(self) -> tuple[PlacedItem, ...]:
        """Its items, where they stand."""
        return tuple(self.placed())

    def placed(self) -> Iterator[PlacedItem]:
        """Place the items."""
        grid, level, side = self.grid, self.grid.level, self.grid.measures.box_mm
        figure, drop = level.number_pt * FIGURE, level.number_pt * DROP
        white = ABOVE * (level.row_mm - figure - drop - side)
        extra = self.extra / grid.lines(self.day)
        step, top = level.row_mm + extra, self.top - extra / 2
        for place, item in enumerate(self.day.items):
            line, column = divmod(place, grid.abreast)
            x = self.left + grid.dates + column * grid.pitch
            baseline = top - line * step - white - figure
            bottom = baseline - drop - side
            squares = (Square(x, bottom, side), Square(x + side + grid.between, bottom, side))
            secure, not_yet = (
                TickBox(item.number, self.day.date, result, square)
                for result, square in zip(Result, squares, strict=True)
            )
            yield PlacedItem(item, x, baseline, grid.waits(item), (secure, not_yet))

    @property
    def bottom(self) -> float:
        """Its lower edge."""
        return self.top - self.grid.lines(self.day) * self.grid.level.row_mm - self.extra


@dataclass(frozen=True, slots=True)
class PlanPage:
    """A page of a plan of days.

    number: in the code; page: of the plan, from 1; pages: of it.
    """

    number: int
    page: int
    pages: int
    marks: Marks
    rows: tuple[PlacedDay | PlacedNote, ...]

    @property
    def days(self) -> tuple[PlacedDay, ...]:
        """Its days."""
        return tuple(row for row in self.rows if isinstance(row, PlacedDay))

    @property
    def notes(self) -> tuple[PlacedNote, ...]:
        """What is told between them."""
        return tuple(row for row in self.rows if isinstance(row, PlacedNote))

    @property
    def dates(self) -> tuple[Date, Date]:
        """The first and the last day that it names."""
        last = self.rows[-1]
        return self.rows[0].date, last.note.last if isinstance(last, PlacedNote) else last.date

    @property
    def boxes(self) -> tuple[TickBox, ...]:
        """Every box that can be ticked, as the page is read."""
        return tuple(box for day in self.days for item in day.items for box in item.boxes)

    @property
    def check(self) -> str:
        """A checksum of all boxes: a page printed with another layout is refused, not misread."""
        told_of = (
            f"{box.number},{box.date},{box.result},{box.square.left:.2f},{box.square.bottom:.2f}"
            for box in self.boxes
        )
        return f"{zlib.crc32(';'.join(told_of).encode()) & 0xFFFF:04X}"


def place_days(
    days: Sequence[Day],
    likes: Mapping[int, Like],
    desk: Desk,
    top: Callable[[Level], float],
    foot: float,
    *,
    notes: Sequence[Note] = (),
    lesson: int | None = None,
    first: int = 1,
) -> list[PlanPage]:
    """The pages of a plan: the fewest, and on these the roomiest level that fits.

    likes: what each drill's link names.
    top, foot: where the first day begins and the last one ends, from the paper's lower edge.
    notes: what stands between the days; lesson: its weekday.
    first: number of the first page, where a plan goes on from an earlier section's.

    Raises:
        NoRoomError: an item is wider, or a day is higher than a page.
    """
    width, height = PAPERS[desk.paper]
    marks = marks_of(width, height, desk.layout.days.box_mm)
    rows: list[Day | Note] = sorted([*days, *notes], key=lambda row: row.date)
    best: list[tuple[PlacedDay | PlacedNote, ...]] = []
    refused: NoRoomError | None = None
    for grid in grids_of(days, likes, desk, lesson):
        try:
            pages = [*fill_pages(rows, grid, top(grid.level), foot, desk)]
        except NoRoomError as error:  # a day is higher than a page; a fuller level may have room
            refused = error
            continue
        if not best or len(pages) < len(best):
            best = pages
    if refused and not best:
        raise refused
    count = len(best)
    return [PlanPage(first + at, at + 1, count, marks, placed) for at, placed in enumerate(best)]


def fill_pages(
    rows: Sequence[Day | Note], grid: Grid, top: float, foot: float, desk: Desk
) -> Iterator[tuple[PlacedDay | PlacedNote, ...]]:
    """Fill pages with days and notes, from `top` down to `foot`.

    Raises:
        NoRoomError: a day is higher than a page.
    """
    left = side_of(desk)
    width = PAPERS[desk.paper][0] - 2 * left
    weeks = [row.date.isocalendar()[:2] for row in rows]
    pieces = [
        Piece(
            height=height_of(row, grid),
            draw=lambda _canvas, _slot: (),  # drawn with its page: boxes are asked for undrawn
            most_extra=desk.layout.days.most_extra_mm * lines_of(row, grid),
            tied=MID_WEEK if place and weeks[place] == weeks[place - 1] else 0.0,
            called=told("the plan of days"),
        )
        for place, row in enumerate(rows)
    ]
    queue = iter(zip(rows, weeks, strict=True))
    for page in flow(pieces, lambda _: Room(1, width, 0.0, top - foot), EVEN):
        placed: list[PlacedDay | PlacedNote] = []
        before = None
        for put in page.columns[0]:
            row, week = next(queue)
            y, new = top - put.down, before not in {None, week}
            if isinstance(row, Note):
                placed.append(PlacedNote(row, grid, left, y, put.extra, new, width))
            else:
                placed.append(PlacedDay(row, grid, left, y, put.extra, new))
            before = week
        yield tuple(placed)


def lines_of(row: Day | Note, grid: Grid) -> int:
    """On how many lines a row stands."""
    return 1 if isinstance(row, Note) else grid.lines(row)


def height_of(row: Day | Note, grid: Grid) -> float:
    """Height of a row, in millimetres."""
    if isinstance(row, Note):
        return note_height(grid)
    return grid.lines(row) * grid.level.row_mm
