"""How closely a plan of days is set: its lines, how many items stand abreast, its dates."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from typing import Final

from bookgen.binder.page.canvas import Canvas, Face, Point, Style
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.layout import DaysMeasures, Level
from bookgen.binder.page.paper import PAPERS, NoRoomError
from bookgen.binder.parts.days.marks import FRAME_MM, SMALL_MM
from bookgen.binder.parts.days.signs import FIGURE, Like, label_width, wait_label
from bookgen.errors import told
from bookgen.plan.document import Character, Day, Item
from bookgen.words.days import light_day, minutes_short

DROP: Final = 0.085
"""From a number's baseline to its boxes, in millimetres by points of its size."""

ABOVE: Final = 0.58
"""Of the white of a line, what stands above its numbers: some of them have frames."""

DESCENT: Final = 0.08
"""How far letters reach below their line, in millimetres by points of their size."""

LEAST_WHITE_MM: Final = 0.6
"""Between two lines of items."""

AFTER_DATE_MM: Final = 3.0
BETWEEN_NUMBERS_MM: Final = 0.9
LEAST_BETWEEN_MM: Final = 1.0
BETWEEN_SHARE: Final = 1 / 3
"""Between the two boxes of an item: on the fullest plan; of all white beside them, so that they
stand nearer to each other than to the next item."""

RING_WHITE_MM: Final = 0.5
RING_MM: Final = 0.35
RING_END: Final = 4 / 3
"""The ring round the date of a lesson: white inside, thickness, and how far the handles of a curve
reach that is nearly half a circle, by its radius."""

LIGHT_SHARE: Final = 0.12
"""Of the paper's width: the widest column of dates in which a light day is called so."""


@dataclass(frozen=True, slots=True)
class Grid:
    """How the items of a plan stand, in millimetres.

    dates: width of the column of dates; light: it calls a light day so.
    abreast: items on a line; pitch: from one to the next; between: the two boxes of an item.
    waits: says what an item waits for.
    lesson: the weekday of the lesson, 0 is Monday.
    """

    level: Level
    measures: DaysMeasures
    dates: float
    light: bool
    abreast: int
    pitch: float
    between: float
    waits: Callable[[Item], str]
    lesson: int | None = None

    def lines(self, day: Day) -> int:
        """On how many lines the items of a day stand."""
        return -(-len(day.items) // self.abreast)


def side_of(desk: Desk) -> float:
    """White at both sides of a plan: the same on left-hand and right-hand pages."""
    measures = desk.layout.days
    return measures.small_side_mm if PAPERS[desk.paper][0] < SMALL_MM else measures.side_mm


def grids_of(
    days: Sequence[Day], likes: Mapping[int, Like], desk: Desk, lesson: int | None = None
) -> Iterator[Grid]:
    """The ways to set a plan, from the roomiest to the fullest.

    lesson: weekday of the lesson.

    A light day is called so where that takes no more lines.

    Raises:
        NoRoomError: a line has no room for an item.
    """
    measures = desk.layout.days
    widest = LIGHT_SHARE * PAPERS[desk.paper][0]
    levels = [measures.roomy, measures.usual, measures.full]
    fitting = [level for level in levels if needs_mm(level, measures) <= level.row_mm]
    if not fitting:
        needs, has = needs_mm(measures.roomy, measures), measures.roomy.row_mm
        raise NoRoomError(told("a line of the plan of days"), needs, has)
    for level in fitting:
        for between in (measures.between_boxes_mm, LEAST_BETWEEN_MM):
            called, plain = (
                grid_of(days, likes, level, between, desk, lesson, light=light)
                for light in (True, False)
            )
            more = sum(map(called.lines, days)) > sum(map(plain.lines, days))
            yield plain if more or called.dates > widest else called


def needs_mm(level: Level, measures: DaysMeasures) -> float:
    """Height that a line of items needs: numbers over boxes; weekday over minutes."""
    boxes = level.number_pt * DROP + measures.box_mm
    dates = minutes_drop(level, measures) + measures.minutes_pt * DESCENT
    above = max(level.number_pt, measures.weekday_pt) * FIGURE
    return above + max(boxes, dates) + LEAST_WHITE_MM


def minutes_drop(level: Level, measures: DaysMeasures) -> float:
    """From the baseline of the numbers to that of a day's minutes: level with the boxes."""
    high = measures.minutes_pt * FIGURE
    middle = level.number_pt * DROP + (measures.box_mm + high) / 2
    return max(middle, measures.weekday_pt * DESCENT + LEAST_WHITE_MM / 2 + high)


def grid_of(
    days: Sequence[Day],
    likes: Mapping[int, Like],
    level: Level,
    between: float,
    desk: Desk,
    lesson: int | None,
    *,
    light: bool,
) -> Grid:
    """As many items abreast as need the fewest lines, and no more.

    between: the two boxes of an item, at least, as far as one item has room.

    Raises:
        NoRoomError: a line has no room for an item.
    """
    measures = desk.layout.days
    dates = dates_width(days, level, desk, light=light)
    dates += ring_radius(level) if lesson is not None else 0
    room = PAPERS[desk.paper][0] - 2 * side_of(desk) - dates + measures.between_items_mm

    def waits(item: Item) -> str:
        return wait_label(item, likes.get(item.number), level, desk.speech)

    def lines(abreast: int) -> int:
        return sum(-(-len(day.items) // abreast) for day in days)

    items = [item for day in days for item in day.items]
    label = max(label_width(item, waits(item), level, desk.fonts) for item in items)
    both = 2 * measures.box_mm + FRAME_MM + measures.between_items_mm
    least = max(label + BETWEEN_NUMBERS_MM, both + LEAST_BETWEEN_MM)
    if least > room:
        raise NoRoomError(told("an item of the plan of days"), least, room, wide=True)
    most = int(room // max(least, both + between)) or 1
    abreast = min(range(1, most + 1), key=lambda count: (lines(count), count))
    pitch = min(room / abreast, max(measures.most_pitch_mm, least))
    share = (pitch - both + measures.between_items_mm) * BETWEEN_SHARE
    apart = max(LEAST_BETWEEN_MM, min(share, measures.between_boxes_mm))
    return Grid(level, measures, dates, light, abreast, pitch, apart, waits, lesson)


def dates_width(days: Iterable[Day], level: Level, desk: Desk, *, light: bool) -> float:
    """Width of the column of dates with the white behind it."""
    measures, fonts = desk.layout.days, desk.fonts
    date = Style(Face.BOLD, level.number_pt)
    small, weekday = (
        Style(Face.REGULAR, measures.minutes_pt),
        Style(Face.REGULAR, measures.weekday_pt),
    )
    widest = 0.0
    for day in days:
        name, number = date_words(day.date, desk)
        head = fonts.width(name, weekday) + 1.6 + fonts.width(number, date)
        widest = max(widest, head, fonts.width(minutes_words(day, desk, light=light), small))
    return widest + AFTER_DATE_MM


def date_words(date: Date, desk: Desk) -> tuple[str, str]:
    """Weekday and day of the month."""
    return desk.speech.skeleton(date, "E"), desk.speech.skeleton(date, "d")


def minutes_words(day: Day, desk: Desk, *, light: bool) -> str:
    """How long a day is, and that it is light."""
    minutes = minutes_short(day.minutes, desk.speech)
    if light and day.character is Character.LIGHT:
        return light_day(minutes, desk.speech)
    return minutes


def ring_radius(level: Level) -> float:
    """Of the round ends of the ring round a date."""
    return level.number_pt * FIGURE / 2 + RING_WHITE_MM


def draw_date(canvas: Canvas, start: Point, date: Date, grid: Grid, desk: Desk) -> None:
    """Weekday and day of the month, with a ring round it where the lesson is on that day.

    start: left end of the baseline.
    """
    weekday, number = date_words(date, desk)
    bold = Style(Face.BOLD, grid.level.number_pt)
    wide = canvas.width(number, bold)
    spare = 0.0 if grid.lesson is None else ring_radius(grid.level) / 2
    x = start[0] + grid.dates - AFTER_DATE_MM - spare - wide
    canvas.text(start, weekday, Style(Face.REGULAR, grid.measures.weekday_pt))
    canvas.text((x, start[1]), number, bold)
    if date.weekday() == grid.lesson:
        draw_ring(canvas, (x, start[1]), wide, grid.level)


def draw_ring(canvas: Canvas, start: Point, wide: float, level: Level) -> None:
    """A long ring round a number.

    start, wide: the number's baseline and its width.
    """
    radius = ring_radius(level)
    x, middle = start[0], start[1] + level.number_pt * FIGURE / 2
    top, bottom, reach = middle + radius, middle - radius, RING_END * radius
    canvas.line((x, top), (x + wide, top), width=RING_MM)
    canvas.line((x, bottom), (x + wide, bottom), width=RING_MM)
    for side, out in ((x, -reach), (x + wide, reach)):
        handles = (side + out, top), (side + out, bottom)
        canvas.curve((side, top), *handles, (side, bottom), width=RING_MM)
