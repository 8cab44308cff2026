"""A step of a class: its number over a row for each instrument, which plays it in its own way."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from typing import Final

from bookgen.binder.page.block_measures import Arrangement
from bookgen.binder.page.canvas import Canvas, Face, Style
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.piece import Mark, Piece, Slot
from bookgen.binder.page.placed import Placed
from bookgen.binder.page.signs import Sign
from bookgen.binder.page.typeset import (
    ASCENT,
    MM_PER_POINT,
    Line,
    cut,
    draw_line,
    line_height,
    line_width,
    wrap,
)
from bookgen.binder.parts.block.forms import BELOW_LINE, NUMBER_WHITE_MM
from bookgen.binder.parts.block.measured import called
from bookgen.binder.parts.block.setter import DOT, LINK_GAP_MM
from bookgen.binder.parts.block.words import SHEET_BOXES, BlockWords, tune_words, words_of_drill
from bookgen.binder.parts.drills import DrillPiece, form_on
from bookgen.binder.structure.tag import Role, Tag, head
from bookgen.plan.document import DrillEntry, Item, Plan
from bookgen.words import class_page as words
from bookgen.words.days import minutes_short, wait
from bookgen.words.drill import outline, way_name
from bookgen.words.names import instrument_name
from bookgen.words.tuning import tuning_line

HEAD_MM: Final = 1.2
ROWS_MM: Final = 1.4
"""White over the first row of a step, and over the others."""

BREAK: Final = 4.0
"""What it costs to begin a column within a step."""


def row_words(entry: DrillEntry, desk: Desk, *, cents: bool) -> BlockWords:
    """The words of an instrument's row: who plays, where, with which fingers.

    cents: figures are told for its double stops.
    """
    speech = desk.speech
    said = words_of_drill(entry, entry.drill, None, desk, SHEET_BOXES)
    name = instrument_name(desk.instrument, speech)
    first = form_on(desk, "sheet").arrangement is Arrangement.FIRST
    return replace(
        said,
        hand=name,
        stage=words.own_fingers(entry.drill, speech),
        link=name if first else "",
        below=(
            *said.below,
            *tune_words(entry, desk, cents=cents),
            *filter(None, [tuning_line(desk.instrument, speech)]),
        ),
        bare=True,
    )


@dataclass(frozen=True, slots=True)
class StepHead:
    """What is common to all rows of a step, measured.

    lines: what is played; link: set at the right of the last line, or below it.
    tag, linked: as what both are read.
    """

    number: str
    lines: tuple[Line, ...]
    link: Line
    beside: bool
    left: float
    width: float
    desk: Desk
    tag: Tag = field(default_factory=lambda: head(once=True), compare=False)
    linked: Tag = field(default_factory=lambda: Tag(Role.PARAGRAPH, once=True), compare=False)

    @property
    def step(self) -> float:
        """From line to line."""
        text = self.desk.layout.text
        return line_height(text.title_pt, text.leading)

    @property
    def height(self) -> float:
        """Height in millimetres."""
        rows = len(self.lines) + (bool(self.link) and not self.beside)
        number = self.desk.layout.text.number_pt * ASCENT * MM_PER_POINT
        return max(rows * self.step, number + BELOW_LINE * self.step)

    def draw(self, canvas: Canvas, slot: Slot) -> Iterator[Placed]:
        """Draw number, words and link."""
        text = self.desk.layout.text
        drop = text.number_pt * ASCENT * MM_PER_POINT
        baseline = slot.top - drop
        left = slot.left + self.left
        with canvas.tagged(self.tag):
            canvas.text((slot.left, baseline), self.number, Style(Face.BOLD, text.number_pt))
            if len(self.lines) > 1 or not self.beside:
                baseline = slot.top - text.title_pt * ASCENT * MM_PER_POINT
            for line in self.lines:
                draw_line(canvas, (left, baseline), line, text.title_pt)
                baseline -= self.step
        if self.link:
            wide = line_width(self.link, text.link_pt, self.desk.fonts)
            x = slot.left + self.width - wide if self.beside else left
            y = baseline + self.step if self.beside else baseline
            with canvas.tagged(self.linked):
                draw_line(canvas, (x, y), self.link, text.link_pt)
        return iter(())


def step_head(item: Item, plan: Plan, strings: str, desk: Desk) -> Piece:
    """The head of a step as a piece, which stays with its rows.

    strings: how the common ones are called, or nothing.
    """
    entry, speech, text = plan.by_number[item.number], desk.speech, desk.layout.text
    drill, width = entry.drill, desk.sheet.column
    step = words.hand_step(drill.frame.spacings, speech)
    waits = "" if item.only_if is None else wait(item.only_if, speech)
    told = (strings, way_name(drill, speech), minutes_short(item.minutes, speech), waits)
    title: Line = ((step, Face.BOLD), (DOT + DOT.join(filter(None, told)), Face.REGULAR))
    number = entry.link.to if isinstance(entry.link.to, int) else None
    said = words.step_link(number, plan.linked(entry), drill, strings, speech)
    link = cut(said, Face.ITALIC)
    bold = Style(Face.BOLD, text.number_pt)
    indent = form_on(desk, "sheet").indent_mm
    left = max(indent, desk.fonts.width(str(item.number), bold) + NUMBER_WHITE_MM)
    lines = wrap(title, width - left, text.title_pt, desk.fonts)
    room = width - left - line_width(lines[-1], text.title_pt, desk.fonts) - LINK_GAP_MM
    beside = line_width(link, text.link_pt, desk.fonts) <= room
    over = StepHead(str(item.number), tuple(lines), link, beside, left, width, desk)
    return Piece(
        height=over.height,
        draw=over.draw,
        above=desk.layout.flow.between_mm,
        keeps=True,
        ruled=True,
        marks=(Mark(outline(str(item.number), step, speech), 1),),
        signs=frozenset({Sign.WAIT} if waits else ()),
        called=called(item.number),
    )


def step_pieces(
    over: Piece, blocks: Sequence[DrillPiece], columns: int, width: float, gap: float
) -> Iterator[Piece]:
    """A step: its head and its rows, which stay together as long as a page holds them.

    The head stands again over a row that begins a page.

    blocks: of the instruments; so many of them as columns stand beside each other.
    width: of a block; gap: white between two, in millimetres.
    """
    yield over
    again = replace(over, marks=())
    starts = range(0, len(blocks), columns)
    for start in starts:
        row = blocks[start : start + columns]
        last = start == starts[-1]
        yield Piece(
            height=max(block.height for block in row),
            draw=row_drawing(row, width, gap),
            above=ROWS_MM if start else HEAD_MM,
            keeps=not last,
            most_extra=row[0].most_extra if last else 0.0,
            tied=BREAK,
            again=again,
            signs=frozenset(sign for block in row for sign in block.signs),
            called=over.called,
        )


def row_drawing(
    row: Sequence[Piece], width: float, gap: float
) -> Callable[[Canvas, Slot], Iterable[Placed]]:
    """Draws blocks beside each other.

    width: of a block; gap: white between two, in millimetres.
    """

    def draw(canvas: Canvas, slot: Slot) -> Iterator[Placed]:
        for place, block in enumerate(row):
            left = slot.left + place * (width + gap)
            yield from block.draw(canvas, replace(slot, left=left, width=width))

    return draw
