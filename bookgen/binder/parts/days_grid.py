"""How closely a plan of days is set: its lines, how many items stand abreast, its dates."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from bookgen.binder.page.canvas import Face, Style
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.layout import DaysMeasures, Level
from bookgen.binder.page.paper import PAPERS, NoRoomError
from bookgen.binder.parts.days_marks import FRAME_MM, SMALL_MM
from bookgen.binder.parts.days_signs import FIGURE, Like, label_width, wait_label
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

LIGHT_SHARE: Final = 0.12
"""Of the paper's width: the widest column of dates in which a light day is called so."""


@dataclass(frozen=True, slots=True)
class Grid:
    """How the items of a plan stand, in millimetres.

    dates: width of the column of dates; light: it calls a light day so.
    abreast: items on a line; pitch: from one to the next; between: the two boxes of an item.
    waits: says what an item waits for.
    """

    level: Level
    measures: DaysMeasures
    dates: float
    light: bool
    abreast: int
    pitch: float
    between: float
    waits: Callable[[Item], str]

    def lines(self, day: Day) -> int:
        """On how many lines the items of a day stand."""
        return -(-len(day.items) // self.abreast)


def side_of(desk: Desk) -> float:
    """White at both sides of a plan: the same on left-hand and right-hand pages."""
    measures = desk.layout.days
    return measures.small_side_mm if PAPERS[desk.paper][0] < SMALL_MM else measures.side_mm


def grids_of(days: Sequence[Day], likes: Mapping[int, Like], desk: Desk) -> Iterator[Grid]:
    """The ways to set a plan, from the roomiest to the fullest.

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
                grid_of(days, likes, level, between, desk, light=light) for light in (True, False)
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
    room = PAPERS[desk.paper][0] - 2 * side_of(desk) - dates

    def waits(item: Item) -> str:
        return wait_label(item, likes.get(item.number), level, desk.speech)

    def lines(abreast: int) -> int:
        return sum(-(-len(day.items) // abreast) for day in days)

    items = [item for day in days for item in day.items]
    label = max(label_width(item, waits(item), level, desk.fonts) for item in items)
    both = 2 * measures.box_mm + FRAME_MM + measures.between_items_mm
    least = max(label + BETWEEN_NUMBERS_MM, both + LEAST_BETWEEN_MM)
    if least > room + measures.between_items_mm:
        raise NoRoomError(told("an item of the plan of days"), least, room, wide=True)
    most = int((room + measures.between_items_mm) // max(least, both + between)) or 1
    abreast = min(range(1, most + 1), key=lambda count: (lines(count), count))
    most_pitch = max(measures.most_pitch_mm, least)
    pitch = min((room + measures.between_items_mm) / abreast, most_pitch)
    white = pitch - both + measures.between_items_mm
    apart = max(LEAST_BETWEEN_MM, min(white * BETWEEN_SHARE, measures.between_boxes_mm))
    return Grid(level, measures, dates, light, abreast, pitch, apart, waits)


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
        name, number = date_words(day, desk)
        head = fonts.width(name, weekday) + 1.6 + fonts.width(number, date)
        widest = max(widest, head, fonts.width(minutes_words(day, desk, light=light), small))
    return widest + AFTER_DATE_MM


def date_words(day: Day, desk: Desk) -> tuple[str, str]:
    """Weekday and day of the month."""
    return desk.speech.skeleton(day.date, "E"), desk.speech.skeleton(day.date, "d")


def minutes_words(day: Day, desk: Desk, *, light: bool) -> str:
    """How long a day is, and that it is light."""
    minutes = minutes_short(day.minutes, desk.speech)
    if light and day.character is Character.LIGHT:
        return light_day(minutes, desk.speech)
    return minutes
