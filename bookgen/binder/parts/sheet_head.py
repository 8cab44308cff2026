"""Over a day's drills: whose day it is, how long it is, what to listen for, one ear proof."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from bookgen.binder.page.canvas import Canvas, Face, Style
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.paper import NoRoomError
from bookgen.binder.page.prose import Look, Words, draw_words, height_of, words_of
from bookgen.binder.page.typeset import ASCENT, MM_PER_POINT, line_height
from bookgen.binder.structure.tag import ARTIFACT, paragraph
from bookgen.errors import told
from bookgen.model.event import Event
from bookgen.plan.document import Day, Plan
from bookgen.plan.music import music_of
from bookgen.words import sheet as words
from bookgen.words.ahead import area_through, play_the_bars_today
from bookgen.words.ear import ear_proof
from bookgen.words.marks import marks_of
from bookgen.words.wishes import wished_line

GAP_MM: Final = 5.0
"""Between the name and the minutes, at least."""

LINE_MM: Final = 70.0
LINE_SHARE: Final = 0.6
LINE_WIDTH_MM: Final = 0.2
LEAST_LINE_MM: Final = 30.0
"""The line on which a name is to be written: its length, at most of the room, its thickness."""

ABOVE_MM: Final = 1.2
BELOW_MM: Final = 1.0
RULE_MM: Final = 0.4


@dataclass(frozen=True, slots=True)
class SheetHead:
    """The head of a day, measured.

    name: as it can be printed; empty where a line is ruled for it.
    below: paragraphs under the name.
    """

    desk: Desk
    name: str
    minutes: str
    below: tuple[Words, ...]

    @property
    def row(self) -> float:
        """Height of the line with the name."""
        text = self.desk.layout.text
        return line_height(text.name_pt, text.leading)

    @property
    def height(self) -> float:
        """Height in millimetres, with the rule under it."""
        below = ABOVE_MM + height_of(self.below) if self.below else 0.0
        return self.row + below + BELOW_MM + RULE_MM

    def draw(self, canvas: Canvas, left: float, top: float) -> None:
        """Draw the name or a line for it, the minutes, the paragraphs, the rule."""
        text = self.desk.layout.text
        baseline = top - text.name_pt * ASCENT * MM_PER_POINT
        minutes = Style(Face.BOLD, text.title_pt)
        right = left + self.desk.sheet.column
        whose, long = paragraph(), paragraph()
        canvas.reading(whose, long)
        with canvas.tagged(long):
            x = right - canvas.width(self.minutes, minutes)
            canvas.text((x, baseline), self.minutes, minutes)
        if self.name:
            with canvas.tagged(whose):
                canvas.text((left, baseline), self.name, Style(Face.BOLD, text.name_pt))
        else:
            small = Style(Face.REGULAR, text.body_pt)
            label = words.name(self.desk.speech)
            with canvas.tagged(whose):
                canvas.text((left, baseline), label, small)
            start = left + canvas.width(label, small) + ABOVE_MM
            room = right - canvas.width(self.minutes, minutes) - GAP_MM - start
            end = start + min(LINE_MM, room)
            with canvas.tagged(ARTIFACT):
                canvas.line((start, baseline), (end, baseline), width=LINE_WIDTH_MM)
        draw_words(canvas, self.below, left, top - self.row - ABOVE_MM)
        y = top - self.height + RULE_MM / 2
        with canvas.tagged(ARTIFACT):
            canvas.line((left, y), (right, y), width=RULE_MM)


def sheet_head(plan: Plan, day: Day, desk: Desk) -> SheetHead:
    """Measure the head of a day.

    Raises:
        NoRoomError: name and minutes have no room beside each other.
    """
    text, width, speech = desk.layout.text, desk.sheet.column, desk.speech
    notes = [note for event in events_of(plan, day) for note in event.notes]
    minutes = words.day_minutes(sum(item.minutes for item in day.items), day.character, speech)
    bold = Style(Face.BOLD, text.title_pt)
    room = width - desk.fonts.width(minutes, bold) - GAP_MM
    if room < LEAST_LINE_MM:
        raise NoRoomError(told("the head of the sheet"), LEAST_LINE_MM, room, wide=True)
    if from_memory(plan):
        listen = words.from_memory(speech)
    else:
        named = words.commonest(events_of(plan, day))
        listen = words.listen_for(named, marks_of(speech), speech)
    proof = ear_proof(notes, desk.instrument, speech)
    said = (
        wished_words(plan, day, desk),
        words.please_log(hoped(plan, day), speech),
        *ahead(plan, desk),
        listen,
        proof,
    )
    below = [words_of(one, Look(text.title_pt), width, desk) for one in said]
    name = desk.name(plan.player, room, Style(Face.BOLD, text.name_pt))
    return SheetHead(desk, name, minutes, tuple(one for one in below if one.lines))


def hoped(plan: Plan, day: Day) -> list[int]:
    """Drills of earlier pages on whose answers a day rests; of a stranger no log is kept."""
    if plan.scope is None:
        return []
    here = {item.number for item in day.items}
    return sorted({item.only_if for item in day.items if item.only_if is not None} - here)


def ahead(plan: Plan, desk: Desk) -> Iterator[str]:
    """Bars that are to be ready soon, and what comes after an area that is secure."""
    if plan.binding is None:
        return
    for deadline in plan.binding.deadlines:
        yield play_the_bars_today(deadline, desk.clean(deadline.title), desk.speech)
    if plan.binding.further is not None:
        yield area_through(plan.binding.further, desk.speech)


def wished_words(plan: Plan, day: Day, desk: Desk) -> str:
    """What was wished for the day; nothing where nothing was."""
    if day.wish is None:
        return ""
    drills = [plan.by_number[item.number].drill for item in day.items]
    leads = not any(day.wish.holds(drill, desk.instrument) for drill in drills)
    return wished_line(day.wish, desk.speech, leads=leads)


def told_over(plan: Plan, day: Day) -> frozenset[str]:
    """The labels of the intervals that the head of a day names with their marks."""
    named = [] if from_memory(plan) else words.commonest(events_of(plan, day))
    return frozenset(named)


def events_of(plan: Plan, day: Day) -> list[Event]:
    """What is played on a day."""
    entries = [plan.by_number[item.number] for item in day.items]
    return [event for entry in entries for event in music_of(entry)]


def from_memory(plan: Plan) -> bool:
    """The intervals are to be named, so the head does not tell them."""
    return plan.binding is not None and plan.binding.from_memory
