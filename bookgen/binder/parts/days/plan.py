"""The plan of days, which is also the log: what to play on which day, with boxes to tick."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date as Date  # noqa: N812
from typing import Final

from bookgen.binder.page.canvas import Canvas, Face, Style
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.frame import PART, whole_parts
from bookgen.binder.page.layout import Level
from bookgen.binder.page.leaf import Leaf, Side
from bookgen.binder.page.paper import PAPERS, NoRoomError
from bookgen.binder.page.piece import Mark
from bookgen.binder.page.placed import Placed
from bookgen.binder.page.typeset import line_height, shorten
from bookgen.binder.parts.days.foot import draw_foot, foot_of
from bookgen.binder.parts.days.grid import (
    draw_date,
    minutes_drop,
    minutes_words,
    side_of,
)
from bookgen.binder.parts.days.key import KeyEntry, draw_key, entries_of, key_rows, shown
from bookgen.binder.parts.days.marks import Marks, code_text, draw_frame, draw_marks, marks_of
from bookgen.binder.parts.days.notes import Note, PlacedNote
from bookgen.binder.parts.days.places import PlacedDay, PlacedItem, PlanPage, place_days
from bookgen.binder.parts.days.signs import FIGURE, WAIT_MM, Like, draw_number, wait_style
from bookgen.binder.structure.tag import ARTIFACT, HEADER, Role, Tag
from bookgen.binder.structure.tag import head as heading_tag
from bookgen.errors import told
from bookgen.plan.calendar import NO_HOLIDAYS, Calendar
from bookgen.plan.document import Day
from bookgen.words.days import (
    heading,
    item_words,
    part,
    plan_of_days,
    plan_of_some_days,
    time_span,
)

AFTER_MARK_MM: Final = 3.0
"""Between a corner mark and what stands beside it."""

HEADING_STEP: Final = 1.3
KEY_STEP: Final = 1.35
"""From the heading to the line below it, and from line to line of the key: times the leading."""

BELOW_KEY_MM: Final = 2.6
RULE_MM: Final = 0.2
RULE_GRAY: Final = 0.5
WEEK_RULE_MM: Final = 0.4


@dataclass(frozen=True, slots=True)
class Head:
    """What stands above the days, measured; heights are baselines from the paper's lower edge.

    left: of the heading, right of the corner mark; right: its end, left of the code.
    """

    left: float
    right: float
    heading: float
    part: float
    key: float
    step: float


def head_of(desk: Desk, marks: Marks) -> Head:
    """Measure the head of a paper."""
    text, leading = desk.layout.text, desk.layout.text.leading
    heading = marks.corners[0].top - desk.layout.days.heading_pt * FIGURE
    part = heading - line_height(text.body_pt, leading) * HEADING_STEP
    step = line_height(text.small_pt, leading) * KEY_STEP
    key = min(part - step, marks.corners[0].bottom - step)
    left, right = marks.corners[0].right + AFTER_MARK_MM, marks.code.left - marks.quiet
    return Head(left, right, heading, part, key, step)


@dataclass(frozen=True, slots=True)
class Key:
    """The key of a plan, measured.

    first: baseline of its first line; width: of a line, left of the code or below it.
    """

    entries: Sequence[KeyEntry]
    first: float
    width: float

    def last(self, step: float) -> float:
        """Baseline of its last line; step from line to line."""
        return self.first - (len(key_rows(self.entries, self.width)) - 1) * step


def key_of(
    days: Sequence[Day],
    likes: Mapping[int, Like],
    level: Level,
    desk: Desk,
    marks: Marks,
    lesson: int | None,
) -> Key:
    """Measure the key of a plan.

    lesson: its weekday.

    Raises:
        NoRoomError: an entry is wider than the column.
    """
    head, side = head_of(desk, marks), side_of(desk)
    beside, column = head.right - side, PAPERS[desk.paper][0] - 2 * side
    entries = [*entries_of(days, likes, level, desk, lesson=lesson is not None)]
    widest = max(entry.width for entry in entries)
    if widest > column:
        raise NoRoomError(told("the key of the plan of days"), widest, column, wide=True)
    below = marks.code.bottom - marks.quiet - desk.layout.text.small_pt * FIGURE
    ways = [Key(entries, min(head.key, below), column)]
    ways += [Key(entries, head.key, beside)] if widest <= beside else []
    return max(ways, key=lambda key: key.last(head.step))


@dataclass(frozen=True, slots=True)
class PlanTags:
    """As what a plan is read on all its pages: its head once, its days as one list."""

    head: Tag = field(default_factory=lambda: heading_tag(once=True))
    days: Tag = field(default_factory=lambda: Tag(Role.LIST))
    foot: Tag = field(default_factory=lambda: Tag(Role.PARAGRAPH, once=True))


@dataclass(frozen=True, slots=True)
class PlanOfDays:
    """A plan of days, measured.

    span: first and last day for which it is meant; likes: what the link of each drill names.
    """

    desk: Desk
    player: str | None
    span: tuple[Date, Date]
    likes: Mapping[int, Like]
    pages: Sequence[PlanPage]
    tags: PlanTags = field(default_factory=PlanTags, compare=False)

    def draw(self, canvas: Canvas, page: PlanPage) -> None:
        """Draw a page; its key is not read, for each number is read with its sign's meaning."""
        desk, head = self.desk, head_of(self.desk, page.marks)
        text = code_text(desk.studio, self.player, self.span[0], page.number, page.check)
        with canvas.tagged(ARTIFACT):
            draw_marks(canvas, page.marks, text)
        self.draw_heading(canvas, page, head)
        every = [placed.day for one in self.pages for placed in one.days]
        grid = page.rows[0].grid
        key = key_of(every, self.likes, grid.level, desk, page.marks, grid.lesson)
        on_page = shown(key.entries, [placed.day for placed in page.days], self.likes)
        with canvas.tagged(ARTIFACT):
            draw_key(canvas, key_rows(on_page, key.width), (side_of(desk), key.first), head.step)
            for row in page.rows:
                self.draw_rule_over(canvas, row)
        rows = {row.top: Tag(Role.ITEM, within=self.tags.days) for row in page.rows}
        canvas.reading(*rows.values())
        for placed in page.days:
            self.draw_day(canvas, placed, rows[placed.top])
        for note in page.notes:
            with canvas.tagged(Tag(Role.BODY, within=rows[note.top])):
                note.draw(canvas, desk)
        with canvas.tagged(ARTIFACT):
            self.draw_rule(canvas, page.rows[-1].bottom, WEEK_RULE_MM)
        with canvas.tagged(self.tags.foot):
            draw_foot(canvas, page.marks, desk)

    def draw_heading(self, canvas: Canvas, page: PlanPage, head: Head) -> None:
        """Whose days they are and which; below it the page, the studio."""
        desk = self.desk
        big = Style(Face.BOLD, desk.layout.days.heading_pt)
        small = Style(Face.REGULAR, desk.layout.text.body_pt)
        room = head.right - head.left
        player = desk.clean(self.player) or None
        words = heading(player, time_span(*self.span, desk.speech), desk.speech)
        with canvas.tagged(self.tags.head):
            canvas.text((head.left, head.heading), shorten(words, room, big, canvas), big)
        parts = [part(*page.dates, page.page, page.pages, desk.speech)] * (page.pages > 1)
        parts += [desk.clean(desk.studio)] * bool(desk.studio)
        line = whole_parts(PART.join(parts), room, small, canvas)
        with canvas.tagged(HEADER):
            canvas.text((head.left, head.part), shorten(line, room, small, canvas), small)

    def draw_day(self, canvas: Canvas, placed: PlacedDay, row: Tag) -> None:
        """A day's date and its items; row: as what it is read."""
        desk, measures = self.desk, self.desk.layout.days
        first = placed.items[0]
        small = Style(Face.REGULAR, measures.minutes_pt)
        y = first.baseline - minutes_drop(placed.grid.level, measures)
        words = minutes_words(placed.day, desk, light=placed.grid.light)
        with canvas.tagged(Tag(Role.LABEL, within=row)):
            draw_date(canvas, (placed.left, first.baseline), placed.date, placed.grid, desk)
            canvas.text((placed.left, y), words, small)
        body = Tag(Role.BODY, within=row)
        for item in placed.items:
            with canvas.tagged(self.item_tag(item, placed, body)):
                self.draw_item(canvas, item, placed)

    def item_tag(self, placed: PlacedItem, day: PlacedDay, body: Tag) -> Tag:
        """As what a number is read: with what its sign means, and what it waits for."""
        secure, not_yet = (box.square for box in placed.boxes)
        top = placed.baseline + day.grid.level.number_pt * FIGURE
        box = (secure.left, secure.bottom, not_yet.right, top)
        speech = self.desk.speech
        return Tag(Role.FIGURE, within=body, alt=lambda: item_words(placed.item, speech), box=box)

    def draw_item(self, canvas: Canvas, placed: PlacedItem, day: PlacedDay) -> None:
        """A number with its signs, and its boxes."""
        level = day.grid.level
        start, item = (placed.left, placed.baseline), placed.item
        x = draw_number(canvas, start, item.number, item.role, level)
        if placed.waits:
            canvas.text((x + WAIT_MM, placed.baseline), placed.waits, wait_style(level))
        for box in placed.boxes:
            draw_frame(canvas, box.square)

    def draw_rule_over(self, canvas: Canvas, row: PlacedDay | PlacedNote) -> None:
        """A rule over a row, heavier where a week begins."""
        if row.new_week:
            self.draw_rule(canvas, row.top, WEEK_RULE_MM)
        else:
            self.draw_rule(canvas, row.top, RULE_MM, gray=RULE_GRAY)

    def draw_rule(self, canvas: Canvas, y: float, width: float, *, gray: float = 0.0) -> None:
        """A rule over the whole column."""
        side = side_of(self.desk)
        canvas.line((side, y), (PAPERS[self.desk.paper][0] - side, y), width=width, gray=gray)


def plan_of(
    days: Sequence[Day],
    likes: Mapping[int, Like],
    player: str | None,
    span: tuple[Date, Date],
    desk: Desk,
    *,
    calendar: Calendar = NO_HOLIDAYS,
    notes: Sequence[Note] = (),
    first: int = 1,
) -> PlanOfDays:
    """Measure a plan of days.

    likes: what the link of each drill names.
    calendar: the lesson's; notes: what stands between the days.
    first: number of its first page, where it goes on from an earlier section's.

    Raises:
        NoRoomError: an item or a day has no room on a page.
    """
    width, height = PAPERS[desk.paper]
    marks, lesson = marks_of(width, height, desk.layout.days.box_mm), calendar.lesson

    def above(level: Level) -> float:
        key = key_of(days, likes, level, desk, marks, lesson)
        below = key.last(head_of(desk, marks).step) - BELOW_KEY_MM
        return min(below, marks.code.bottom - marks.quiet)

    foot = foot_of(desk, marks).top
    pages = place_days(days, likes, desk, above, foot, notes=notes, lesson=lesson, first=first)
    return PlanOfDays(desk, player, span, likes, pages)


def days_leaves(plan: PlanOfDays, *, whole: bool = True) -> Iterator[Leaf]:
    """The plan's pages, without head and foot of their book.

    whole: it has all days of the book, else its title says which.
    """
    speech = plan.desk.speech
    days = [placed.day.date for page in plan.pages for placed in page.days]
    title = plan_of_days(speech) if whole else plan_of_some_days(days[0], days[-1], speech)
    for place, page in enumerate(plan.pages):

        def draw(canvas: Canvas, _side: Side, page: PlanPage = page) -> Iterator[Placed]:
            if page is plan.pages[0]:
                canvas.begin(title, 0)
            plan.draw(canvas, page)
            return iter(())

        yield Leaf("", () if place else (Mark(title, 0),), draw, bare=True)
