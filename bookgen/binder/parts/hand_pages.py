"""Everything that each hand of a book makes: its fingerboards, and its intervals in a table."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations, pairwise
from typing import Final

from bookgen.binder.page.canvas import Canvas, Face
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.flow import flow
from bookgen.binder.page.frame import Frame
from bookgen.binder.page.leaf import Leaf, leaves_of
from bookgen.binder.page.piece import WHITE_AT_END, Mark, Piece, Room, Slot
from bookgen.binder.page.placed import Placed
from bookgen.binder.page.prose import Look, Words, draw_words, height_of, piece_of, words_of
from bookgen.binder.parts.chart.drawing import draw_chart
from bookgen.binder.parts.chart.hand import Hand
from bookgen.binder.parts.chart.measured import Chart, chart_of
from bookgen.binder.parts.chart.scale import STEPS, Scale, clear, needs_mm
from bookgen.binder.parts.drills import Drills
from bookgen.binder.parts.hands_index import hand_heading_of, hand_rank
from bookgen.binder.structure.tag import Role, Tag, head, item
from bookgen.model.made import Made, Makes, makes, stops_of
from bookgen.model.spacing import Frame as HandFrame
from bookgen.model.spacing import Spacing
from bookgen.model.units import Semitones
from bookgen.plan.document import DrillEntry
from bookgen.words import made as words
from bookgen.words.speech import Speech

GAP_MM: Final = 4.0
ROW_MM: Final = 3.0
"""White between two columns of a hand, and between two rows of them."""

HAND_MM: Final = 4.0
TABLE_MM: Final = 2.0
LINE_MM: Final = 0.3
CAPTION_MM: Final = 1.0
HANG_MM: Final = 3.0
HEADING_MM: Final = 1.6
WHITE_MM: Final = 3.0
"""Above a hand, above a table, a line of one, a caption; below a heading and the part's words."""

TIED: Final = 2.0
"""What it costs to begin a column with a later row of a hand (own choice)."""


@dataclass(frozen=True, slots=True)
class Laid:
    """A hand at one place: its position, and the numbers of the drills that have it there."""

    place: Semitones
    position: str
    numbers: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class HandTold:
    """A hand with the places at which it makes the same, and what it makes there."""

    fingers: HandFrame
    laid: tuple[Laid, ...]
    made: Makes


def hands_told(entries: Sequence[DrillEntry], desk: Desk) -> Iterator[HandTold]:
    """Every hand of the drills, pairs first, once for all places at which it makes the same."""
    met: dict[HandFrame, dict[tuple[Semitones, str], list[int]]] = {}
    for entry in sorted(entries, key=hand_rank):
        hand = HandFrame(entry.fingers, tuple(map(Spacing.parse, entry.spacings)))
        there = [(entry.place, entry.position)]
        if entry.to is not None:
            there.append((entry.to, entry.to_position or entry.position))
        for place, position in there:
            at = met.setdefault(hand, {}).setdefault((Semitones(place), position), [])
            at.append(entry.number)
    for hand, places in met.items():
        alike: dict[Makes, list[Laid]] = {}
        for (place, position), numbers in sorted(places.items()):
            made = makes(desk.instrument, hand, place)
            alike.setdefault(made, []).append(Laid(place, position, tuple(numbers)))
        for made, laid in alike.items():
            yield HandTold(hand, tuple(laid), made)


@dataclass(frozen=True, slots=True)
class Cell:
    """A column of a row: a fingerboard with its caption, or words under each other."""

    words: tuple[Words, ...]
    chart: Chart | None = None

    @property
    def height(self) -> float:
        """Height in millimetres."""
        over = 0.0 if self.chart is None else self.chart.height + CAPTION_MM
        return over + height_of(self.words)

    def draw(self, canvas: Canvas, left: float, top: float, desk: Desk) -> None:
        """Draw the cell with its upper left corner there."""
        if self.chart is not None:
            draw_chart(canvas, self.chart, desk, left, top)
            top -= self.chart.height + CAPTION_MM
        draw_words(canvas, self.words, left, top)


@dataclass(frozen=True, slots=True)
class Grid:
    """The columns of a hand: how many, and their width in millimetres.

    boards: its fingers at each place; scale: of its fingerboards.
    figures: millimetres stand below them.
    """

    desk: Desk
    boards: Sequence[Hand]
    scale: Scale
    columns: int
    width: float
    figures: bool

    def pieces(self, hand: HandTold) -> Iterator[Piece]:
        """A hand: its heading, then rows of cells; it is named again where it is cut in two."""
        desk = self.desk
        look = Look(desk.layout.text.title_pt, above=HAND_MM)
        shown = hand_heading_of(hand.fingers, desk.speech)
        words_over = words_of(shown, look, desk.sheet.column, desk, head(once=True))
        over = replace(piece_of([words_over], HEADING_MM), keeps=True)
        yield replace(over, marks=(Mark(words_over.plain, 1),), ruled=True)
        first, *rest = map(self.row_piece, self.rows(hand))
        others = [replace(piece, above=ROW_MM, tied=TIED, again=over) for piece in rest]
        *rows, last = first, *others
        yield from rows
        yield replace(last, most_extra=desk.layout.flow.most_extra_mm)

    def rows(self, hand: HandTold) -> list[list[Cell]]:
        """The cells of a hand: fingerboards, then tables, so that all is as low as can be."""
        places = zip(self.boards, hand.laid, strict=True)
        charts = [self.chart_cell(board, laid) for board, laid in places]
        left, tables = -len(charts) % self.columns, [*self.tables(hand)]
        ways = [
            self.in_rows([*charts, *[Cell(())] * pad, *stacked(tables, count)])
            for pad, count in ((0, left), (left, self.columns), (0, left + self.columns))
            if count
        ]
        return min(ways, key=lambda rows: sum(max(one.height for one in row) for row in rows))

    def in_rows(self, cells: Sequence[Cell]) -> list[list[Cell]]:
        """Cells beside each other, as many as there are columns."""
        starts = range(0, len(cells), self.columns)
        return [[*cells[start : start + self.columns]] for start in starts]

    def row_piece(self, cells: Sequence[Cell]) -> Piece:
        """A row of cells beside each other."""

        def draw(canvas: Canvas, slot: Slot) -> Iterator[Placed]:
            for place, cell in enumerate(cells):
                cell.draw(canvas, slot.left + place * (self.width + GAP_MM), slot.top, self.desk)
            return iter(())

        return Piece(max(cell.height for cell in cells), draw)

    def chart_cell(self, board: Hand, laid: Laid) -> Cell:
        """The fingerboard of a hand at a place over its caption."""
        desk = self.desk
        said = words.where(laid.position, laid.numbers, desk.speech)
        called = words.title(desk.speech)
        chart = chart_of(board, self.scale, desk, self.width, called, figures=self.figures)
        look = Look(desk.layout.text.small_pt, hang=HANG_MM)
        return Cell((words_of(said, look, self.width, desk),), chart)

    def tables(self, hand: HandTold) -> Iterator[list[Words]]:
        """What a hand makes, each table under its name."""
        speech, made = self.desk.speech, hand.made
        if made.alone:
            yield self.table(words.alone(speech), lines_of(made.alone, speech))
        for across in made.skipped:
            every = len(made.skipped) == 1
            name = words.skipped(across.strings, speech, every=every)
            yield self.table(name, lines_of(across.made, speech))
        every = len(made.neighbours) == 1
        for across in made.neighbours:
            name = words.neighbours(across.strings, speech, every=every)
            yield self.table(name, lines_of(across.made, speech))
            stops = words.double_stops(across.made, speech)
            yield self.table(words.together(across.strings, speech, every=every), stops)

    def table(self, name: str, lines: Sequence[str]) -> list[Words]:
        """Lines under a name."""
        size, width = self.desk.layout.text.small_pt, self.width
        over = words_of(name, Look(size, Face.ITALIC, above=TABLE_MM), width, self.desk, head(1))
        look, listed = Look(size, above=LINE_MM, hang=HANG_MM), Tag(Role.LIST)
        return [over, *(words_of(line, look, width, self.desk, item(listed)) for line in lines)]


def lines_of(made: Sequence[Made], speech: Speech) -> list[str]:
    """Intervals with their fingers."""
    return [words.made_line(one, speech) for one in made]


def board_of(hand: HandFrame, place: Semitones, desk: Desk, *, every: bool) -> Hand:
    """A hand on all strings, without an order of play.

    every: each string has all its fingers, else the fingers take turns from string to string.
    """
    stops = tuple(stops_of(desk.instrument, hand, place))
    count = len(hand.fingers)
    turns = (row * count + row % count for row in range(len(stops) // count))
    return Hand(stops if every else tuple(stops[at] for at in turns), {})


def stacked(tables: Sequence[list[Words]], columns: int) -> list[Cell]:
    """Tables in columns, in their order, so that the highest column is as low as can be."""
    count = min(columns, len(tables))
    ways = [
        [
            Cell(tuple(line for table in tables[start:end] for line in table))
            for start, end in pairwise([0, *cuts, len(tables)])
        ]
        for cuts in combinations(range(1, len(tables)), count - 1)
    ]
    return min(ways, key=lambda cells: max(cell.height for cell in cells))


def grid_of(hand: HandTold, drills: Drills) -> Grid:
    """As many columns as a hand's fingerboards have room beside each other.

    They have the scale of the drills' charts, or the one nearest to it at which all have room.
    Where fingers would lie on each other at any they take turns from string to string.
    """
    desk, charts = drills.desk, [setting.chart for setting in drills.settings]
    usual = next((one for one in charts if not one.hand.shifted), charts[0]).scale
    scales = sorted(
        (replace(usual, per=per) for per in STEPS), key=lambda one: abs(one.per - usual.per)
    )
    boards, scale = next(
        (
            (boards, scale)
            for boards in ways(hand, desk)
            for scale in scales
            if room(boards, scale, desk)
        ),
    )
    least = min(setting.form.chart_mm for setting in drills.settings)
    least = max(least, *(needs_mm(board, scale, desk) for board in boards))
    columns = max(int((desk.sheet.column + GAP_MM) // (least + GAP_MM)), 1)
    width = (desk.sheet.column + GAP_MM) / columns - GAP_MM
    figures = any(setting.form.millimetres for setting in drills.settings)
    return Grid(desk, boards, scale, columns, width, figures)


def ways(hand: HandTold, desk: Desk) -> Iterator[list[Hand]]:
    """Both ways to show a hand at its places."""
    for every in (True, False):
        yield [board_of(hand.fingers, laid.place, desk, every=every) for laid in hand.laid]


def room(boards: Sequence[Hand], scale: Scale, desk: Desk) -> bool:
    """All fingerboards have room at that scale, and so have all figures on them."""
    return all(
        needs_mm(board, scale, desk) <= desk.sheet.column and clear(board, scale, desk)
        for board in boards
    )


def hand_leaves(drills: Drills, frame: Frame) -> list[Leaf]:
    """The pages of the part."""
    desk = frame.desk
    entries = [setting.entry for setting in drills.settings]
    title, look = words.title(desk.speech), Look(desk.layout.text.body_pt)
    intro = words_of(words.intro(desk.speech), look, desk.sheet.column, desk)
    over = replace(piece_of([intro], WHITE_MM), marks=(Mark(title, 0),), keeps=True)
    pieces = [over]
    for hand in hands_told(entries, desk):
        pieces += grid_of(hand, drills).pieces(hand)
    room = Room(1, desk.sheet.column, 0.0, frame.room)
    return leaves_of(flow(pieces, lambda _: room, WHITE_AT_END), frame.top, lambda _: title)
