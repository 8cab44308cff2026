"""The frames of a passage as small fingerboards side by side: where each finger stands."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

from bookgen.binder.page.canvas import Canvas, Face, Style
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.piece import Mark, Piece, Slot
from bookgen.binder.page.placed import Placed
from bookgen.binder.page.prose import Look, Words, words_of
from bookgen.binder.page.typeset import ASCENT, MM_PER_POINT, shorten
from bookgen.binder.parts.chart.drawing import chart_tag, draw_chart
from bookgen.binder.parts.chart.hand import Hand
from bookgen.binder.parts.chart.measured import Chart
from bookgen.binder.parts.chart.small import bare_height, has_room, small, small_chart
from bookgen.binder.structure.tag import paragraph
from bookgen.model.stop import Stop
from bookgen.plan.passage import Group, Passage
from bookgen.words import passage as words

GAP_MM: Final = 3.0
"""White between two cells."""

AFTER_LETTER_MM: Final = 1.6
OVER_CHART_MM: Final = 1.0
BELOW_CHART_MM: Final = 0.6

FEWEST: Final = 4
"""Cells in a row for which there is room left, at least; own choice."""

FEW: Final = 10
"""So many frames are all drawn; of more those of hard spots and those that come often."""

OFTEN: Final = 3
"""Times from which a frame comes often; own choice."""


@dataclass(frozen=True, slots=True)
class Cell:
    """A frame's letter, its position and bars, its fingerboard, and what has changed."""

    letter: str
    where: str
    chart: Chart
    below: Words
    width: float

    def height(self, desk: Desk) -> float:
        """Height of all of it."""
        return over_chart(desk) + bare_height(self.chart) + BELOW_CHART_MM + self.below.height

    def draw(self, canvas: Canvas, desk: Desk, left: float, top: float) -> None:
        """Draw it with its upper left corner there.

        desk: with the measures of small fingerboards.
        """
        sizes = desk.layout.passage
        bold = Style(Face.BOLD, sizes.letter_pt)
        baseline = top - sizes.letter_pt * ASCENT * MM_PER_POINT
        with canvas.tagged(paragraph()):
            canvas.text((left, baseline), self.letter, bold)
            x = left + canvas.width(self.letter, bold) + AFTER_LETTER_MM
            canvas.text((x, baseline), self.where, Style(Face.REGULAR, sizes.where_pt))
        y = top - over_chart(desk)
        tag = chart_tag(self.chart, desk, left, y, self.letter)
        draw_chart(canvas, self.chart, desk, left, y, tag)
        self.below.draw(canvas, left, y - bare_height(self.chart) - BELOW_CHART_MM)


def over_chart(desk: Desk) -> float:
    """From the top of a cell to its fingerboard."""
    return desk.layout.passage.letter_pt * ASCENT * MM_PER_POINT + OVER_CHART_MM


def frames_of(passage: Passage) -> Mapping[str, list[Group]]:
    """The groups of every frame with fingers, by their letter, in the order of the passage."""
    found: dict[str, list[Group]] = {}
    for group in passage.best.groups:
        if group.stops:
            found.setdefault(group.letter, []).append(group)
    return found


def drawn_frames(passage: Passage) -> Mapping[str, list[Group]]:
    """Those that have a fingerboard."""
    found = frames_of(passage)
    if len(found) <= FEW:
        return found
    hard = {
        group.letter
        for spot in passage.spots
        for group in passage.best.groups
        if group.first <= spot.last and spot.first <= group.last
    }
    return {
        letter: groups for letter, groups in found.items() if letter in hard or len(groups) >= OFTEN
    }


def frame_pieces(passage: Passage, desk: Desk) -> Iterator[Piece]:
    """The frames row by row."""
    frames = drawn_frames(passage)
    if not frames:
        return
    width = cell_width(len(frames), desk)
    cells = [cell_of(groups, passage, desk, width) for groups in frames.values()]
    head = words.headings(desk.speech)["frames"]
    for number, row in enumerate(rows_of(cells, desk)):
        piece = row_of(row, desk)
        yield replace(piece, marks=() if number else (Mark(head, 0),), running=head)


def cell_of(groups: Sequence[Group], passage: Passage, desk: Desk, narrow: float) -> Cell:
    """Measure the cell of a frame; one whose fingers stand close takes two cells' width.

    narrow: width of a cell.
    """
    first, measures = groups[0], desk.layout.passage
    at = passage.best.groups.index(first)
    before = next((one for one in reversed(passage.best.groups[:at]) if one.stops), None)
    hand = Hand(first.stops, {}, moved_in(first, before))
    own = small(desk)
    width = narrow if has_room(hand, own, narrow) else min(2 * narrow + GAP_MM, desk.sheet.column)
    bold = Style(Face.BOLD, measures.letter_pt)
    plain = Style(Face.REGULAR, measures.where_pt)
    room = width - desk.fonts.width(first.letter, bold) - AFTER_LETTER_MM
    ways = list(words.frame_words(groups, passage, desk.speech))
    fits = (way for way in ways if desk.fonts.width(way, plain) <= room)
    where = next(fits, shorten(ways[-1], room, plain, desk.fonts))
    said = words.difference(first, before, desk.speech) if before else ""
    below = words_of(said, Look(measures.where_pt, Face.ITALIC), width, desk)
    return Cell(first.letter, where, small_chart(hand, own, width), below, width)


def moved_in(now: Group, before: Group | None) -> frozenset[Stop]:
    """The stops of a frame whose finger stood elsewhere on that string in the frame before it."""
    if before is None or before.place != now.place:
        return frozenset()
    old = {(stop.string, stop.finger): stop for stop in before.stops}
    return frozenset(
        stop for stop in now.stops if old.get((stop.string, stop.finger), stop) != stop
    )


def cell_width(count: int, desk: Desk) -> float:
    """Width of a cell: as many stand side by side as there is room.

    count: how many there are; a few are no wider than four in a row.
    """
    column, least = desk.sheet.column, desk.layout.passage.cell_mm
    most = max(int((column + GAP_MM) // (least + GAP_MM)), 1)
    abreast = min(most, max(count, FEWEST))
    return (column - (abreast - 1) * GAP_MM) / abreast


def rows_of(cells: Sequence[Cell], desk: Desk) -> Iterator[list[Cell]]:
    """Cells in rows."""
    row: list[Cell] = []
    used = 0.0
    for cell in cells:
        if row and used + GAP_MM + cell.width > desk.sheet.column + GAP_MM / 2:
            yield row
            row, used = [], 0.0
        used += cell.width + GAP_MM * bool(row)
        row.append(cell)
    yield row


def row_of(row: Sequence[Cell], desk: Desk) -> Piece:
    """A row of cells as a piece."""
    own = small(desk)

    def draw(canvas: Canvas, slot: Slot) -> Iterator[Placed]:
        left = slot.left
        for cell in row:
            cell.draw(canvas, own, left, slot.top)
            left += cell.width + GAP_MM
        return iter(())

    return Piece(
        max(cell.height(desk) for cell in row),
        draw,
        above=desk.layout.passage.frame_gap_mm,
        ruled=True,
        signs=frozenset({"frame", *("changed" for cell in row if cell.chart.hand.changed)}),
        called=row[0].letter,
    )
