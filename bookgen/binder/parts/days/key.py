"""The key of a plan of days: only the signs that are on the page."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final, Literal

from bookgen.binder.page.canvas import Canvas, Face, Point, Style
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.layout import Level
from bookgen.binder.parts.days.grid import draw_ring, ring_radius
from bookgen.binder.parts.days.marks import Square, draw_frame
from bookgen.binder.parts.days.signs import Like, draw_number, number_width, wait_label, wait_style
from bookgen.plan.document import Day, Item, Role
from bookgen.plan.record import Result
from bookgen.words.days import lesson as lesson_words
from bookgen.words.days import (
    result_words,
    role_words,
    wait_short,
    wait_short_words,
    wait_words,
)

ENTRY_GAP: Final = 0.44
SAMPLE_GAP: Final = 0.13
"""White between entries, and between a sign and its words, in millimetres by points of size."""

SAMPLE_NUMBER: Final = 12
LESSON: Final = "lesson"
BOX_RISE: Final = 0.2
"""How far a box hangs below the line of words, as a share of its side."""


@dataclass(frozen=True, slots=True)
class Wait:
    """What stands beside the number of an item that waits, and what that means.

    names: it names the other drill.
    """

    label: str
    words: str
    names: bool


@dataclass(frozen=True, slots=True)
class KeyEntry:
    """A sign and what it means.

    sign: a role, what waits, LESSON, or None for the two boxes; level: at which it is drawn.
    """

    sign: Role | Wait | Literal["lesson"] | None
    level: Level
    desk: Desk

    @property
    def style(self) -> Style:
        """Of the words."""
        return Style(Face.REGULAR, self.desk.layout.text.small_pt)

    @property
    def gap(self) -> float:
        """White between the sign and its words, in millimetres."""
        return SAMPLE_GAP * self.style.size

    @property
    def words(self) -> str:
        """What the sign means; of the two boxes, what the right one means."""
        speech = self.desk.speech
        match self.sign:
            case Role():
                return role_words(self.sign, speech)
            case Wait():
                return self.sign.words
            case "lesson":
                return lesson_words(speech)
            case None:
                return result_words(Result.NOT_YET, speech)

    @property
    def sample(self) -> float:
        """Width of the sign, in millimetres; of the two boxes with the left one's meaning."""
        fonts, measures = self.desk.fonts, self.desk.layout.days
        match self.sign:
            case Role():
                return number_width(SAMPLE_NUMBER, self.sign, self.level, fonts)
            case Wait():
                return fonts.width(self.sign.label, wait_style(self.level))
            case "lesson":
                return fonts.width(str(SAMPLE_NUMBER), self.date) + 2 * ring_radius(self.level)
            case None:
                words = result_words(Result.SECURE, self.desk.speech)
                boxes = 2 * measures.box_mm + measures.between_boxes_mm
                return fonts.width(words, self.style) + self.gap + boxes

    @property
    def width(self) -> float:
        """Width of sign and words, in millimetres."""
        return self.sample + self.gap + self.desk.fonts.width(self.words, self.style)

    def draw(self, canvas: Canvas, start: Point) -> None:
        """Draw the entry; start is the left end of its baseline."""
        match self.sign:
            case Role():
                draw_number(canvas, start, SAMPLE_NUMBER, self.sign, self.level)
            case Wait():
                canvas.text(start, self.sign.label, wait_style(self.level))
            case "lesson":
                self.draw_ringed(canvas, start)
            case None:
                self.draw_boxes(canvas, start)
        end = start[0] + self.sample + self.gap
        canvas.text((end, start[1]), self.words, self.style)

    @property
    def date(self) -> Style:
        """Of the day of the month."""
        return Style(Face.BOLD, self.level.number_pt)

    def draw_ringed(self, canvas: Canvas, start: Point) -> None:
        """A day of the month in its ring."""
        at, number = (start[0] + ring_radius(self.level), start[1]), str(SAMPLE_NUMBER)
        canvas.text(at, number, self.date)
        draw_ring(canvas, at, canvas.width(number, self.date), self.level)

    def draw_boxes(self, canvas: Canvas, start: Point) -> None:
        """The meaning of the left box, and the two boxes."""
        measures = self.desk.layout.days
        words = result_words(Result.SECURE, self.desk.speech)
        canvas.text(start, words, self.style)
        left = start[0] + canvas.width(words, self.style) + self.gap
        bottom = start[1] - measures.box_mm * BOX_RISE
        for x in (left, left + measures.box_mm + measures.between_boxes_mm):
            draw_frame(canvas, Square(x, bottom, measures.box_mm))


def entries_of(
    days: Sequence[Day],
    likes: Mapping[int, Like],
    level: Level,
    desk: Desk,
    *,
    lesson: bool = False,
) -> Iterator[KeyEntry]:
    """What the key of a plan tells: roles in their order, waiting, the lesson, the two boxes."""
    items = items_of(days)
    found = {item.role for item in items}
    yield from (KeyEntry(role, level, desk) for role in Role if role in found)
    yield from (KeyEntry(wait, level, desk) for wait in waits_of(items, likes, level, desk))
    if lesson:
        yield KeyEntry(LESSON, level, desk)
    yield KeyEntry(None, level, desk)


def items_of(days: Sequence[Day]) -> list[Item]:
    """The items of these days."""
    return [item for day in days for item in day.items]


def shown(
    entries: Sequence[KeyEntry], days: Sequence[Day], likes: Mapping[int, Like]
) -> list[KeyEntry]:
    """Those entries of a plan's key whose signs stand on a page, which has these days."""
    items = items_of(days)

    def stands(entry: KeyEntry) -> bool:
        match entry.sign:
            case Role() as role:
                return any(item.role is role for item in items)
            case Wait() as wait:
                kinds = [
                    kind
                    for item in items
                    for kind in waits_of([item], likes, entry.level, entry.desk)
                ]
                return any(kind.names == wait.names for kind in kinds)
            case _:
                return True

    return [entry for entry in entries if stands(entry)]


def waits_of(
    items: Sequence[Item], likes: Mapping[int, Like], level: Level, desk: Desk
) -> Iterator[Wait]:
    """What waits: the first item that names the other drill, the first that has a sign."""
    short = wait_short(None, desk.speech)
    labels = {
        wait_label(item, likes.get(item.number), level, desk.speech): item.only_if
        for item in reversed(items)
        if item.only_if is not None
    }
    if short in labels:
        yield Wait(short, wait_short_words(desk.speech), names=False)
    named = [(label, number) for label, number in labels.items() if label != short]
    if named:
        label, number = named[-1]
        yield Wait(label, wait_words(number, desk.speech), names=True)


def key_rows(entries: Sequence[KeyEntry], width: float) -> list[list[KeyEntry]]:
    """Entries in lines no wider than that; fewer of them never take more lines."""
    rows: list[list[KeyEntry]] = []
    used = 0.0
    for entry in entries:
        used += ENTRY_GAP * entry.style.size + entry.width
        if not rows or used > width:
            rows.append([])
            used = entry.width
        rows[-1].append(entry)
    return rows


def draw_key(canvas: Canvas, rows: Sequence[Sequence[KeyEntry]], start: Point, step: float) -> None:
    """Draw the key; start is the left end of its first baseline, step from line to line."""
    x, y = start
    for row in rows:
        for entry in row:
            entry.draw(canvas, (x, y))
            x += entry.width + ENTRY_GAP * entry.style.size
        x, y = start[0], y - step
