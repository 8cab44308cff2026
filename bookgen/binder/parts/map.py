"""The map of the fingerboard: at each place how much is secure, and what the booklet adds."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from bookgen.binder.page.canvas import Canvas, Face, Point, Style
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.piece import Mark, Piece, Slot
from bookgen.binder.page.placed import Placed
from bookgen.binder.page.prose import Look, Words, words_of
from bookgen.binder.page.typeset import line_height
from bookgen.binder.structure.tag import Role, Tag
from bookgen.model.geometry import nut_distance_mm
from bookgen.model.instrument import NUMERALS, Instrument
from bookgen.model.units import StringNumber
from bookgen.plan.document import Coverage, Gauge
from bookgen.words import index as words
from bookgen.words.pictures import map_words

LABELS_MM: Final = 8.0
LABEL_GAP_MM: Final = 2.0
"""Room at the left for the strings' numerals, at least, and white beside them."""

ROW_MM: Final = 11.0
SHARE_OF_ROW: Final = 0.76
"""Height of a gauge, as a share of the distance from string to string."""

SHARE_OF_STEP: Final = 0.62
"""Width of a gauge, as a share of the narrowest half step."""

WIDEST_MM: Final = 5.0
HATCH_MM: Final = 0.62
OUTLINE_MM: Final = 0.22
NUT_MM: Final = 1.4
STRING_MM: Final = 0.15
STRING_MORE_MM: Final = 0.07
"""Each string is so much thicker than the one above it."""

AXIS: Final = 1.2
"""Height of the axis, in heights of a line."""

GAP_MM: Final = 3.0
HALF_FIGURE: Final = 0.122
"""Half the height of a figure, in millimetres by points of its size."""

SAMPLE_MM: Final = (4.0, 5.6)
SAMPLE_GAP_MM: Final = 1.5
ENTRY_GAP_MM: Final = 5.0
BETWEEN_FIGURES_MM: Final = 0.8


def worth_a_map(coverage: Coverage | None) -> bool:
    """Whether a map tells a player something: where to go on, and where not.

    It does not where nothing is secure yet, or everything: all its gauges would be empty, or full;
    nor where they all stand at the same height.
    """
    if coverage is None:
        return False
    total = coverage.secure + coverage.practised + coverage.new
    levels = {round(gauge.secure / total_of(gauge), 3) for gauge in coverage.gauges}
    return 0 < coverage.secure < total and len(levels) > 1


def total_of(gauge: Gauge) -> int:
    """All moves of a gauge."""
    return gauge.secure + gauge.practised + gauge.new


@dataclass(frozen=True, slots=True)
class Map:
    """A fingerboard with a gauge at each place, to scale from the nut to its last gauge.

    width: of the whole, in millimetres; meant: what the black, the hatched and the white part of a
        gauge say.
    """

    desk: Desk
    gauges: Sequence[Gauge]
    width: float
    intro: Words
    meant: tuple[str, str, str]

    @property
    def instrument(self) -> Instrument:
        """Whose fingerboard it is."""
        return self.desk.instrument

    @property
    def last(self) -> int:
        """The last place drawn."""
        return max(gauge.semitones for gauge in self.gauges)

    @property
    def board(self) -> float:
        """Height of the fingerboard, in millimetres."""
        return len(self.instrument.strings) * self.row

    @property
    def line(self) -> float:
        """Height of a line of its figures, in millimetres."""
        sizes = self.desk.layout.text
        return line_height(sizes.small_pt, sizes.leading)

    @property
    def row(self) -> float:
        """From string to string, in millimetres."""
        return max(ROW_MM, self.line)

    @property
    def labels(self) -> float:
        """Room for the strings' numerals, in millimetres."""
        style = Style(Face.BOLD, self.desk.layout.text.small_pt)
        numerals = [NUMERALS[string] for string in self.instrument.string_numbers()]
        widest = max(self.desk.fonts.width(numeral, style) for numeral in numerals)
        return max(LABELS_MM, widest + LABEL_GAP_MM)

    @property
    def height(self) -> float:
        """Height with words and key, in millimetres."""
        key = len(self.key_rows) * self.key_step
        return self.intro.height + GAP_MM + self.board + self.line * AXIS + GAP_MM + key

    @property
    def key_step(self) -> float:
        """Height of a row of the key."""
        return max(SAMPLE_MM[1], self.line)

    def x(self, semitones: int) -> float:
        """Where a place lies, in millimetres from the left edge."""
        room = self.width - self.labels - WIDEST_MM
        return self.labels + room * nut_distance_mm(1, semitones) / nut_distance_mm(1, self.last)

    def draw(self, canvas: Canvas, left: float, top: float) -> None:
        """Draw words, fingerboard and key with their upper left corner there."""
        self.intro.draw(canvas, left, top)
        top -= self.intro.height + GAP_MM
        bottom = top - self.height + self.intro.height + GAP_MM
        speech, box = self.desk.speech, (left, bottom, left + self.width, top)
        tag = Tag(Role.FIGURE, alt=lambda: map_words(self.gauges, speech), box=box)
        with canvas.tagged(tag):
            self.draw_board(canvas, left, top)

    def draw_board(self, canvas: Canvas, left: float, top: float) -> None:
        """Draw fingerboard and key."""
        self.draw_strings(canvas, left, top)
        wide = min((self.x(self.last) - self.x(self.last - 1)) * SHARE_OF_STEP, WIDEST_MM)
        high = self.row * SHARE_OF_ROW
        for gauge in self.gauges:
            y = top - (gauge.string - 0.5) * self.row - high / 2
            draw_gauge(canvas, (left + self.x(gauge.semitones) - wide / 2, y), (wide, high), gauge)
        end = top - self.board - self.line * AXIS
        self.draw_axis(canvas, left, end + self.line * (AXIS - 1))
        self.draw_key(canvas, left, end - GAP_MM)

    def draw_strings(self, canvas: Canvas, left: float, top: float) -> None:
        """Strings with their numerals, and the nut."""
        style = Style(Face.BOLD, self.desk.layout.text.small_pt)
        count, labels = len(self.instrument.strings), self.labels
        rows = [top - (row + 0.5) * self.row for row in range(count)]
        for number, y in enumerate(rows, start=1):
            start, end = (left + labels, y), (left + self.width, y)
            canvas.line(start, end, width=STRING_MM + STRING_MORE_MM * number)
            numeral = NUMERALS[StringNumber(number)]
            x = left + labels - LABEL_GAP_MM - canvas.width(numeral, style)
            canvas.text((x, y - style.size * HALF_FIGURE), numeral, style)
        x = left + labels - NUT_MM / 2
        ends = (rows[0] + self.row * 0.3, rows[-1] - self.row * 0.3)
        canvas.line((x, ends[0]), (x, ends[1]), width=NUT_MM)

    def draw_axis(self, canvas: Canvas, left: float, baseline: float) -> None:
        """The places in figures, as far as they have room."""
        style = Style(Face.REGULAR, self.desk.layout.text.small_pt)
        end = left
        for place in sorted({gauge.semitones for gauge in self.gauges}):
            wide = canvas.width(str(place), style)
            x = left + self.x(place) - wide / 2
            if x > end:
                canvas.text((x, baseline), str(place), style)
                end = x + wide + BETWEEN_FIGURES_MM

    @property
    def key_rows(self) -> list[list[tuple[Gauge | None, str, float]]]:
        """What the parts of a gauge mean, and the axis: in rows, each with its width."""
        fonts, size = self.desk.fonts, self.desk.layout.text.small_pt
        entries: list[tuple[Gauge | None, str, float]] = []
        for (secure, aimed), meant in zip(((1, 1), (0, 1), (0, 0)), self.meant, strict=True):
            gauge = Gauge(
                string=1, semitones=0, secure=secure, practised=0, new=1 - secure, aimed=aimed
            )
            wide = fonts.width(meant, Style(Face.REGULAR, size))
            entries.append((gauge, meant, SAMPLE_MM[0] + SAMPLE_GAP_MM + wide))
        axis = words.axis(self.desk.speech)
        entries.append((None, axis, fonts.width(axis, Style(Face.ITALIC, size))))
        rows: list[list[tuple[Gauge | None, str, float]]] = [[]]
        used = 0.0
        for entry in entries:
            if rows[-1] and used + entry[2] > self.width:
                rows.append([])
                used = 0.0
            rows[-1].append(entry)
            used += entry[2] + ENTRY_GAP_MM
        return rows

    def draw_key(self, canvas: Canvas, left: float, top: float) -> None:
        """What the parts of a gauge mean."""
        size = self.desk.layout.text.small_pt
        for row in self.key_rows:
            baseline = top - self.key_step / 2 - size * HALF_FIGURE
            x = left
            for gauge, meant, wide in row:
                start = x
                if gauge is not None:
                    corner = (x, top - (self.key_step + SAMPLE_MM[1]) / 2)
                    draw_gauge(canvas, corner, SAMPLE_MM, gauge)
                    start += SAMPLE_MM[0] + SAMPLE_GAP_MM
                style = Style(Face.REGULAR if gauge else Face.ITALIC, size)
                canvas.text((start, baseline), meant, style)
                x += wide + ENTRY_GAP_MM
            top -= self.key_step


def draw_gauge(canvas: Canvas, corner: Point, size: tuple[float, float], gauge: Gauge) -> None:
    """A gauge: black from below for secure, hatched above that for what the booklet adds."""
    (x, y), (wide, high) = corner, size
    canvas.shape(rectangle(corner, wide, high), gray=1.0)
    black = high * gauge.secure / total_of(gauge)
    hatched = high * gauge.aimed / total_of(gauge)
    if black > 0:
        canvas.shape(rectangle(corner, wide, black))
    line = y + black + HATCH_MM
    while line < y + hatched - HATCH_MM / 2:
        canvas.line((x, line), (x + wide, line), width=OUTLINE_MM * 0.9)
        line += HATCH_MM
    if hatched > black:
        canvas.line((x, y + hatched), (x + wide, y + hatched), width=OUTLINE_MM)
    canvas.box(corner, size, width=OUTLINE_MM)


def rectangle(corner: Point, wide: float, high: float) -> list[Point]:
    """The corners of a box."""
    x, y = corner
    return [(x, y), (x + wide, y), (x + wide, y + high), (x, y + high)]


def map_of(coverage: Coverage, desk: Desk, width: float) -> Map:
    """Measure a map of that width in millimetres."""
    total = coverage.secure + coverage.practised + coverage.new
    intro = words.map_intro(coverage.secure, coverage.aimed, total, desk.speech)
    size, speech = desk.layout.text.body_pt, desk.speech
    meant = (words.gauge_secure(speech), words.gauge_aimed(speech), words.gauge_later(speech))
    return Map(desk, coverage.gauges, width, words_of(intro, Look(size), width, desk), meant)


def map_piece(found: Map) -> Piece:
    """The map as a piece of a page."""

    def draw(canvas: Canvas, slot: Slot) -> Iterator[Placed]:
        found.draw(canvas, slot.left, slot.top)
        return iter(())

    title = words.map_title(found.desk.speech)
    return Piece(found.height, draw, marks=(Mark(title, 0),), running=title, called=title)
