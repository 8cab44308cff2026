"""A measured fingerboard goes onto its pages: strings, names, positions, harmonics, millimetres."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby
from typing import Final

from bookgen.binder.page.canvas import Canvas, Face, Point, Style
from bookgen.binder.page.piece import Slot
from bookgen.binder.page.typeset import line_height
from bookgen.binder.parts.atlas.measured import BRACKET_MM, GAP_MM, WHITE_MM, Atlas, Span, head_mm
from bookgen.binder.parts.atlas.table import AtlasTable, table_of
from bookgen.binder.structure.tag import ARTIFACT, Role, Tag, paragraph
from bookgen.model.geometry import nut_distance_mm
from bookgen.model.instrument import NUMERALS
from bookgen.model.names_at import names_at
from bookgen.model.units import Semitones, StringNumber
from bookgen.words import atlas as words
from bookgen.words.names import open_string, position_short

BRACKET_LINE_MM: Final = 0.25
BRACKET_END_MM: Final = 1.2
"""A bracket goes so far beyond its first and its last stop."""

NUT_MM: Final = 1.4
STRING_MM: Final = 0.2
STRING_MORE_MM: Final = 0.12
"""Each string is so much thicker than the one above it."""

FRET_MM: Final = 0.2
FRET_GRAY: Final = 0.45
SPOT_MM: Final = 0.85
DIAMOND_MM: Final = 2.0
DIAMOND_LINE_MM: Final = 0.3
"""From the middle of a diamond to its corners, and its outline."""

LANE: Final = 0.24
"""Where a string lies in its lane, of the lane's width: its names stand at its right."""

HALF_FIGURE: Final = 0.118
"""Half the height of a figure in millimetres, for each point of its size."""

NODES: Final[Mapping[Semitones, Fraction]] = {
    Semitones(4): Fraction(1, 5),
    Semitones(5): Fraction(1, 4),
    Semitones(7): Fraction(1, 3),
    Semitones(9): Fraction(2, 5),
    Semitones(12): Fraction(1, 2),
    Semitones(16): Fraction(3, 5),
    Semitones(19): Fraction(2, 3),
    Semitones(24): Fraction(3, 4),
}
"""Where a string is touched for a harmonic, from the nut, as a part of its length; by the nearest
stop. Source: as `TOUCHES` in the model."""


@dataclass(frozen=True, slots=True)
class Board:
    """One page of a fingerboard on its canvas.

    left, right: between them lie the lanes of the strings; nut: where its first stop lies.
    table: as what it is read.
    """

    canvas: Canvas
    atlas: Atlas
    span: Span
    left: float
    right: float
    nut: float
    table: AtlasTable

    @property
    def lane(self) -> float:
        """Width of the room for a string with its names."""
        return (self.right - self.left) / len(self.atlas.instrument.strings)

    def x(self, string: StringNumber) -> float:
        """Where a string lies: the lowest at the left, as seen from the front."""
        place = len(self.atlas.instrument.strings) - string
        share = 0.5 if self.atlas.staggered else LANE
        return self.left + self.lane * (place + share)

    def y(self, stop: float) -> float:
        """Where a stop lies."""
        return self.nut - self.atlas.down(self.span, stop)

    @property
    def stops(self) -> range:
        """The stops of the page."""
        return stops_of(self.span)

    def style(self, face: Face) -> Style:
        """Small type."""
        return Style(face, self.atlas.desk.layout.text.small_pt)


def draw_atlas(canvas: Canvas, atlas: Atlas, span: Span, slot: Slot) -> None:
    """Draw a page of the fingerboard."""
    half = line_height(atlas.desk.layout.text.body_pt, 1.0) / 2
    stops = stops_of(span)
    strings = atlas.instrument.string_numbers()
    table = table_of(canvas, strings, stops, [*positions(atlas, stops)])
    board = Board(
        canvas,
        atlas,
        span,
        left=slot.left + atlas.left,
        right=slot.left + slot.width - atlas.right,
        nut=slot.top - head_mm(atlas.desk) - half * bool(span.first),
        table=table,
    )
    draw_frets(board)
    draw_strings(board, slot.top)
    for string in atlas.instrument.string_numbers():
        draw_harmonics(board, string)
        draw_names(board, string)
    draw_positions(board, slot.left)
    draw_key(board, half)


def stops_of(span: Span) -> range:
    """The stops of a page, without the open string."""
    return range(max(span.first, 1), span.last + 1)


def draw_frets(board: Board) -> None:
    """A thin line across all strings at each stop, with its millimetres."""
    style = board.style(Face.REGULAR)
    edge = board.right + board.atlas.right
    for stop in board.stops:
        y = board.y(stop)
        ends = (board.left, y), (board.right, y)
        with board.canvas.tagged(ARTIFACT):
            board.canvas.line(*ends, width=FRET_MM, gray=FRET_GRAY)
        away = f"{nut_distance_mm(board.atlas.length, stop):.0f}"
        if not board.atlas.staggered or stop % 2 == 0:
            with board.canvas.tagged(board.table.away[stop]):
                middle(board.canvas, (edge - board.canvas.width(away, style), y), away, style)


def draw_strings(board: Board, top: float) -> None:
    """The strings under their names, and the nut."""
    desk = board.atlas.desk
    bold = Style(Face.BOLD, desk.layout.text.title_pt)
    plain = Style(Face.REGULAR, desk.layout.text.title_pt)
    step = line_height(bold.size, desk.layout.text.leading)
    for string in board.atlas.instrument.string_numbers():
        x = board.x(string)
        ends = (x, board.y(board.span.first)), (x, board.y(board.span.last) - SPOT_MM)
        with board.canvas.tagged(ARTIFACT):
            board.canvas.line(*ends, width=STRING_MM + STRING_MORE_MM * string)
        name = open_string(board.atlas.instrument.open_pitch(string), desk.speech)
        numeral = f"{NUMERALS[string]} "
        wide = board.canvas.width(numeral, bold)
        start = x - (wide + board.canvas.width(name, plain)) / 2
        with board.canvas.tagged(board.table.over[string]):
            middle(board.canvas, (start, top - step / 2), numeral, bold)
            middle(board.canvas, (start + wide, top - step / 2), name, plain)
    if not board.span.first:
        ends = (board.left, board.nut), (board.right, board.nut)
        with board.canvas.tagged(ARTIFACT):
            board.canvas.line(*ends, width=NUT_MM)


def draw_names(board: Board, string: StringNumber) -> None:
    """A spot at each stop of a string, with its names; those of natural notes are bold."""
    speech, canvas = board.atlas.desk.speech, board.canvas
    lowest = board.atlas.instrument.open_pitch(string).midi
    for stop in board.stops:
        pitches = names_at(lowest + stop)
        style = Style(Face.REGULAR if len(pitches) > 1 else Face.BOLD, board.atlas.size)
        x, y = board.x(string), board.y(stop)
        with canvas.tagged(ARTIFACT):
            canvas.spot((x, y), radius=SPOT_MM)
        said = words.names(pitches, speech)
        wide = canvas.width(said, style)
        start = x + DIAMOND_MM + GAP_MM / 2
        if board.atlas.staggered and stop % 2:
            start = x - DIAMOND_MM - GAP_MM / 2 - wide
        high, white = style.size * HALF_FIGURE, GAP_MM / 4
        corners = [(start - white, y - high), (start + wide + white, y - high)]
        corners += [(start + wide + white, y + high), (start - white, y + high)]
        with canvas.tagged(ARTIFACT):
            canvas.shape(corners, gray=1.0)
        with canvas.tagged(board.table.cells[stop, string]):
            middle(canvas, (start, y), said, style)


def draw_harmonics(board: Board, string: StringNumber) -> None:
    """A diamond where a string is touched for a harmonic."""
    for stop, part in NODES.items():
        if stop in board.stops:
            here = board.atlas.length * float(part)
            first = nut_distance_mm(board.atlas.length, board.span.first)
            y = board.nut - (here - first) / float(board.atlas.per)
            cell = board.table.cells[stop, string]
            draw_diamond(board, (board.x(string), y), cell)


def draw_diamond(board: Board, centre: Point, within: Tag | None) -> None:
    """A hollow diamond; within: in which its meaning is read, or None where it is printed."""
    (x, y), high = centre, DIAMOND_MM
    speech, box = board.atlas.desk.speech, (x - high, y - high, x + high, y + high)
    sign = Tag(Role.FIGURE, within=within, alt=lambda: words.harmonic(speech), box=box)
    with board.canvas.tagged(ARTIFACT if within is None else sign):
        for reach, gray in ((high, 0.0), (high - DIAMOND_LINE_MM * 2**0.5, 1.0)):
            corners = [(x - reach, y), (x, y + reach), (x + reach, y), (x, y - reach)]
            board.canvas.shape(corners, gray=gray)


def draw_positions(board: Board, left: float) -> None:
    """The positions beside the stops of their first finger, a bracket over those of one."""
    style, speech = board.style(Face.BOLD), board.atlas.desk.speech
    edge = board.left - GAP_MM
    for position, first, last in positions(board.atlas, board.stops):
        top, bottom = board.y(first) + BRACKET_END_MM, board.y(last) - BRACKET_END_MM
        x = edge - BRACKET_MM / 2
        with board.canvas.tagged(ARTIFACT):
            board.canvas.line((x, top), (x, bottom), width=BRACKET_LINE_MM)
            for y in (top, bottom):
                board.canvas.line((x, y), (edge, y), width=BRACKET_LINE_MM)
        name = position_short(position, speech)
        start = max(left, x - GAP_MM - board.canvas.width(name, style))
        with board.canvas.tagged(board.table.positions[first]):
            middle(board.canvas, (start, (top + bottom) / 2), name, style)


def positions(atlas: Atlas, page: range) -> Iterator[tuple[str, int, int]]:
    """The positions of a page, each with its first and its last stop of finger 1.

    page: its stops.
    """
    rule = atlas.instrument.position_rule

    def called(stop: int) -> str:
        return rule.at(1, Semitones(stop))

    for position, stops in groupby(page, key=called):
        own = [*stops]
        yield position, own[0], own[-1]


def draw_key(board: Board, half: float) -> None:
    """What the diamond means."""
    style = board.style(Face.REGULAR)
    y = board.y(board.span.last) - half - WHITE_MM - style.size * HALF_FIGURE
    draw_diamond(board, (board.left + DIAMOND_MM, y), None)
    start = board.left + 2 * DIAMOND_MM + GAP_MM
    with board.canvas.tagged(paragraph()):
        middle(board.canvas, (start, y), words.harmonic(board.atlas.desk.speech), style)


def middle(canvas: Canvas, start: Point, text: str, style: Style) -> None:
    """A text whose figures stand around that height; start: its left end there."""
    canvas.text((start[0], start[1] - style.size * HALF_FIGURE), text, style)
