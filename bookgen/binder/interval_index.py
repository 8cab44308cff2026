"""Where each interval lives: fingers, position and strings, with numbers and days of its drills."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from itertools import groupby, pairwise
from typing import Final

from bookgen.binder.canvas import Canvas
from bookgen.binder.english import DASH, MONTHS, crossing_name, numbers_name
from bookgen.binder.furniture import Furniture
from bookgen.binder.leaf import Leaf, Mark, Side
from bookgen.binder.overlay import Placed
from bookgen.binder.pencil import Room, draw_rules
from bookgen.binder.prose import (
    Look,
    Set,
    balanced,
    draw_prose,
    height_of,
    set_prose,
    share_columns,
)
from bookgen.binder.sheet_words import position_order
from bookgen.model.instrument import Instrument
from bookgen.model.interval import Interval, interval_words
from bookgen.model.units import StringNumber
from bookgen.notation.label import printed_interval
from bookgen.plan.document import Day, Plan, PlannedDrill

INDEX: Final = "index.j2"
INDEX_PARTS: Final = frozenset({"outline", "running", "text", "interval", "entry", "pencil"})
"""What index.j2 may print."""

TWO_COLUMNS_MM: Final = 150.0
"""Width of a column from which the index runs in two."""

COLUMN_GAP_MM: Final = 7.0
INTRO_WHITE_MM: Final = 3.0
SMALLER: Final = 0.9
"""Of small type, where a page is saved by it."""

MOST_DAYS: Final = 40
"""Days in one entry; what is met on more days has several."""

Crossing = tuple[StringNumber, StringNumber]
"""Two strings, the lower one first."""


@dataclass(frozen=True, slots=True)
class Home:
    """One way to play an interval.

    fingers: on the lower string, then on the higher one.
    position: the trade's label.
    """

    label: str
    fingers: tuple[int, int]
    position: str


@dataclass(frozen=True, slots=True)
class Where:
    """The strings on which a home is met, and the drills that meet it, day by day."""

    strings: frozenset[Crossing]
    days: tuple[tuple[Date, tuple[int, ...]], ...]


@dataclass(frozen=True, slots=True)
class IndexEntry:
    """What index.j2 may say of a home."""

    fingers: str
    position: str
    strings: str
    days: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class IndexInterval:
    """What index.j2 may say of an interval."""

    name: str
    mark: str
    entries: tuple[IndexEntry, ...]


def homes_of(planned: PlannedDrill) -> Iterator[tuple[Home, Crossing]]:
    """Every interval of a drill between two strings: its home, and the two strings."""
    events = planned.events
    for before, event in pairwise((events[0], *events)):
        label = event.within or (event.from_previous if event.crosses else None)
        if label is None:
            continue
        here = event.notes[-1].stop
        other = event.notes[0].stop if event.within else before.notes[-1].stop
        low, high = sorted((other, here), key=lambda stop: -stop.string)
        home = Home(label, (low.finger, high.finger), planned.position)
        yield home, (low.string, high.string)


def index_of(days: Sequence[Day]) -> dict[Home, Where]:
    """Where each interval of the days lives."""
    found: dict[Home, set[Crossing]] = {}
    met: dict[Home, dict[Date, list[int]]] = {}
    for day in days:
        for planned in day.drills:
            for home, strings in homes_of(planned):
                found.setdefault(home, set()).add(strings)
                numbers = met.setdefault(home, {}).setdefault(day.date, [])
                if planned.number not in numbers:
                    numbers.append(planned.number)
    return {
        home: Where(
            frozenset(strings),
            tuple((date, tuple(numbers)) for date, numbers in met[home].items()),
        )
        for home, strings in found.items()
    }


def index_words(found: dict[Home, Where], instrument: Instrument) -> list[IndexInterval]:
    """The index in words, from the narrowest interval to the widest."""
    rule = instrument.position_rule

    def order(home: Home) -> tuple[int, str, int, tuple[int, int]]:
        size = Interval.parse(home.label).semitones
        return (size, home.label, position_order(home.position, rule), home.fingers)

    return [
        IndexInterval(
            name=interval_words(label),
            mark=printed_interval(label),
            entries=tuple(entry for home in homes for entry in entries_of(home, found[home])),
        )
        for label, homes in groupby(sorted(found, key=order), key=lambda home: home.label)
    ]


def entries_of(home: Home, where: Where) -> Iterator[IndexEntry]:
    """One home in words; several entries where it is met on very many days."""
    pairs = sorted(where.strings, key=lambda pair: -pair[0])
    for start in range(0, len(where.days), MOST_DAYS):
        yield IndexEntry(
            fingers=f"{home.fingers[0]}{DASH}{home.fingers[1]}",
            position=home.position,
            strings=", ".join(crossing_name(pair) for pair in pairs),
            days=tuple(
                (f"{date.day} {MONTHS[date.month - 1][:3]}", numbers_name(numbers))
                for date, numbers in where.days[start : start + MOST_DAYS]
            ),
        )


def index_leaves(plan: Plan, furniture: Furniture) -> list[Leaf]:
    """The pages of the index, in smaller type where that saves a page.

    Raises:
        BookgenError: the template is damaged.
    """
    desk = furniture.desk
    facts = {"intervals": index_words(index_of(plan.days), desk.instrument)}
    found = desk.words.fill(INDEX, facts, INDEX_PARTS)
    plain = dict.fromkeys(INDEX_PARTS, "") | {p.part: p.plain for p in found}
    sizes, column = desk.layout.text, desk.sheet.column
    count = 2 if column >= TWO_COLUMNS_MM else 1
    width = (column - (count - 1) * COLUMN_GAP_MM) / count
    intro = set_prose(found, {"text": Look(sizes.body)}, column, sizes.leading, desk.fonts)
    heights = (height_of(intro) + INTRO_WHITE_MM, furniture.room)
    pages, closer = (
        paged(set_prose(found, looks(size), width, sizes.leading, desk.fonts), heights, count)
        for size in (sizes.small, sizes.small * SMALLER)
    )
    if len(closer) < len(pages):
        pages = closer
    leaves = []
    for number, columns in enumerate(pages):
        first = number == 0
        page = Page(furniture, intro if first else [], columns, width, plain["pencil"])
        marks = (Mark(plain["outline"], 0),) if first else ()
        leaves.append(Leaf(plain["running"], marks, page.draw))
    return leaves


def looks(size: float) -> dict[str, Look]:
    """How the index is set, at a size in points."""
    return {
        "interval": Look(size + 1.5, above=2.4, heads=True),
        "entry": Look(size, above=0.5, indent=2.0, hang=3.0),
    }


def paged(sets: Sequence[Set], heights: tuple[float, float], count: int) -> list[list[list[Set]]]:
    """Columns of each page; those of the last page are of one height.

    heights: of the words above the first page's columns, and of a whole page.
    """
    intro, room = heights
    pages: list[list[list[Set]]] = []
    rest = list(sets)
    while rest:
        high = room - (0.0 if pages else intro)
        columns = share_columns(rest, high)
        if len(columns) <= count:
            columns = balanced(rest, high, count)
        taken = columns[:count]
        pages.append(taken)
        rest = rest[sum(len(column) for column in taken) :]
    return pages


@dataclass(frozen=True, slots=True)
class Page:
    """One page of the index."""

    furniture: Furniture
    intro: Sequence[Set]
    columns: Sequence[Sequence[Set]]
    width: float
    pencil: str

    def draw(self, canvas: Canvas, side: Side) -> Iterator[Placed]:
        """Draw the words above and the columns; the pencil gets what they leave."""
        top = self.furniture.top
        if self.intro:
            top = draw_prose(canvas, self.intro, side.left, top) - INTRO_WHITE_MM
        ends = [
            draw_prose(canvas, column, side.left + index * (self.width + COLUMN_GAP_MM), top)
            for index, column in enumerate(self.columns)
        ]
        end = min(ends) - INTRO_WHITE_MM
        rest = Room(side.left, end, side.right - side.left, end - self.furniture.bottom)
        draw_rules(canvas, rest, self.furniture.desk.layout, self.pencil)
        return iter(())
