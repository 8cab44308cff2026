"""The weeks of a plan as a table: minutes, what is met in a new way, a box for each cold test."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby
from typing import Final

from bookgen.binder.page.canvas import Canvas, Face, Style
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.piece import Piece, Slot
from bookgen.binder.page.placed import Placed
from bookgen.binder.page.prose import Look, Words, words_of
from bookgen.binder.page.typeset import ASCENT, MM_PER_POINT, line_height
from bookgen.binder.parts.chart.drawing import HALF_FIGURE
from bookgen.binder.parts.days.marks import Square, draw_frame
from bookgen.plan.document import Day, Plan, Role
from bookgen.words import summary as words
from bookgen.words.days import minutes_figure
from bookgen.words.names import numbers_name
from bookgen.words.speech import Speech

MET: Final = frozenset({Role.NEW, Role.OTHER_WAY, Role.STEP_BACK, Role.PASSAGE})
"""Roles of drills that are met in a new way."""

FIRST_SHARE: Final = 0.17
MINUTES_SHARE: Final = 0.12
"""Of the width for weeks and for minutes, at least."""

NUMBERS_SHARE: Final = 0.52
"""Of what is left for the numbers; the cold tests have the rest."""

COLUMN_WHITE_MM: Final = 3.0
TINY_MM: Final = 0.01
ROW_WHITE_MM: Final = 1.6
HEAD_WHITE_MM: Final = 4.0
LINE_WHITE_MM: Final = 0.9
BOX_GAP_MM: Final = 1.0
BOX_WHITE_MM: Final = 1.6
RULE_MM: Final = 0.2
RULE_GRAY: Final = 0.45

Edges = tuple[float, float, float, float]
"""Where the columns of the table begin: week, minutes, numbers, cold tests; in millimetres."""


def week_pieces(plan: Plan, desk: Desk) -> Iterator[Piece]:
    """The table in pieces of the paper's column, its head again on every page."""
    width = desk.sheet.column
    weeks = weeks_of(plan)
    edges = edges_of(weeks, desk, width)
    head = head_row(desk, edges, width)
    for number, week in enumerate(weeks):
        row = row_of(week, edges, width, desk)
        if number == 0:
            yield replace(head, above=HEAD_WHITE_MM, keeps=True)
        yield Piece(row.height, row.draw, again=head)


@dataclass(frozen=True, slots=True)
class Row:
    """A row of the table: its first three cells, and the numbers with a box each.

    edges: where each of the four columns begins; width: of all, in millimetres.
    """

    desk: Desk
    cells: tuple[Words, ...]
    cold: tuple[int, ...]
    edges: Edges
    width: float

    @property
    def box(self) -> float:
        """Side of a box."""
        return self.desk.layout.days.box_mm

    @property
    def style(self) -> Style:
        """Of the numbers."""
        return Style(Face.REGULAR, self.desk.layout.text.body_pt)

    @property
    def step(self) -> float:
        """From line to line of the boxes, in millimetres."""
        line = line_height(self.style.size, self.desk.layout.text.leading)
        return max(self.box, line) + BOX_WHITE_MM

    @property
    def boxes(self) -> list[tuple[float, int, int]]:
        """For each box the left end of its number, its line, and the number."""
        left, right = self.edges[3], self.width
        x, line = left, 0
        found = []
        for number in self.cold:
            wide = self.desk.fonts.width(str(number), self.style) + BOX_GAP_MM + self.box
            if x + wide > right and x > left:
                x, line = left, line + 1
            found.append((x, line, number))
            x += wide + BOX_WHITE_MM
        return found

    @property
    def height(self) -> float:
        """Height in millimetres."""
        lines = 1 + max((line for _, line, _ in self.boxes), default=0)
        cold = lines * self.step if self.cold else 0.0
        cells = self.drop + max(cell.height for cell in self.cells)
        return max(cold, cells) + ROW_WHITE_MM

    @property
    def drop(self) -> float:
        """How far its words stand below the upper edge of its boxes, to be on their middle."""
        size = self.style.size
        baseline = self.box / 2 + size * HALF_FIGURE
        return max(baseline - size * ASCENT * MM_PER_POINT, 0.0) if self.cold else 0.0

    def draw(self, canvas: Canvas, slot: Slot) -> Iterator[Placed]:
        """Draw the row under a thin rule."""
        end = (slot.left + slot.width, slot.top)
        canvas.line((slot.left, slot.top), end, width=RULE_MM, gray=RULE_GRAY)
        top = slot.top - ROW_WHITE_MM / 2
        for edge, cell in zip(self.edges, self.cells, strict=False):
            cell.draw(canvas, slot.left + edge, top - self.drop)
        for x, line, number in self.boxes:
            y = top - line * self.step
            baseline = y - self.drop - self.style.size * ASCENT * MM_PER_POINT
            canvas.text((slot.left + x, baseline), str(number), self.style)
            wide = canvas.width(str(number), self.style)
            corner = slot.left + x + wide + BOX_GAP_MM
            draw_frame(canvas, Square(corner, y - self.box, self.box))
        return iter(())


def heads_of(speech: Speech) -> tuple[str, str, str, str]:
    """What stands over the columns."""
    return (
        words.week_head(speech),
        words.minutes_head(speech),
        words.new_head(speech),
        words.cold_head(speech),
    )


def texts_of(days: Sequence[Day], speech: Speech) -> tuple[str, str, str]:
    """The words of a week: its days, its minutes, the numbers that are met in a new way."""
    return (
        words.week(days[0].date, days[-1].date, speech),
        minutes_figure(sum(day.minutes for day in days)),
        numbers_name(numbers_of(days, MET)),
    )


def edges_of(weeks: Sequence[Sequence[Day]], desk: Desk, width: float) -> Edges:
    """Where the columns begin, so that no word of the first two is cut.

    width: of the table in millimetres.
    """
    small, plain = head_look(desk), Look(desk.layout.text.body_pt)
    said = [(small, heads_of(desk.speech))]
    said += [(plain, (*texts_of(days, desk.speech), "")) for days in weeks]

    def widest(column: int) -> float:
        return (
            COLUMN_WHITE_MM
            + TINY_MM
            + max(
                desk.fonts.width(word, Style(look.face, look.size))
                for look, texts in said
                for word in texts[column].split()
            )
        )

    minutes = max(FIRST_SHARE * width, widest(0))
    numbers = minutes + max(MINUTES_SHARE * width, widest(1))
    return 0.0, minutes, numbers, numbers + NUMBERS_SHARE * (width - numbers)


def cells_of(
    texts: Sequence[str], look: Look, edges: Edges, width: float, desk: Desk
) -> tuple[Words, ...]:
    """Words in their columns."""
    ends = (*edges[1:], width)
    return tuple(
        words_of(text, look, end - start - COLUMN_WHITE_MM, desk)
        for text, start, end in zip(texts, edges, ends, strict=False)
    )


def head_look(desk: Desk) -> Look:
    """How the table's head is set."""
    return Look(desk.layout.text.small_pt, Face.ITALIC)


def head_row(desk: Desk, edges: Edges, width: float) -> Piece:
    """The table's head."""
    cells = cells_of(heads_of(desk.speech), head_look(desk), edges, width, desk)

    def draw(canvas: Canvas, slot: Slot) -> Iterator[Placed]:
        for edge, cell in zip(edges, cells, strict=True):
            cell.draw(canvas, slot.left + edge, slot.top)
        return iter(())

    return Piece(max(cell.height for cell in cells) + LINE_WHITE_MM, draw)


def row_of(days: Sequence[Day], edges: Edges, width: float, desk: Desk) -> Row:
    """The row of a week."""
    look = Look(desk.layout.text.body_pt)
    cells = cells_of(texts_of(days, desk.speech), look, edges, width, desk)
    cold = numbers_of(days, frozenset({Role.COLD}))
    return Row(desk, cells, tuple(cold), edges, width)


def weeks_of(plan: Plan) -> list[list[Day]]:
    """The days of a plan week by week."""
    weeks = groupby(plan.days, key=lambda day: day.date.isocalendar()[:2])
    return [[*week] for _, week in weeks]


def numbers_of(days: Sequence[Day], roles: frozenset[Role]) -> list[int]:
    """Numbers of the items with these roles, as they are played."""
    return [item.number for day in days for item in day.items if item.role in roles]
