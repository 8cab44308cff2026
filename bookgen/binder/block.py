"""One drill on the page, measured: words in lines, chart, music, ticks."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from bookgen.binder.canvas import Face, Measure, Style
from bookgen.binder.chart import Chart
from bookgen.binder.layout import COLUMN_GAP_MM, Arrangement, Layout
from bookgen.binder.typeset import MM_PER_POINT, Line, Paragraph, line_height, wrap
from bookgen.notation.engraved import InkBox

NUMBER_COLUMN_MM: Final = 14.0
NUMBER_GAP_MM: Final = 2.4
"""The least width for the drill's number, and the white behind a wide one."""

PARAGRAPH_GAP_MM: Final = 1.3
LABEL_GAP_MM: Final = 2.0
TICK_GAP_MM: Final = 1.3
GROUP_GAP_MM: Final = 8.0
CLOSE_GAP_MM: Final = 4.5
"""Between the tick boxes' groups, and between them and the hint; the smaller on small pages."""

STACK_GAP_MM: Final = 2.5
"""Between a chart and the words that stand below it."""

WIDE_GAP_MM: Final = 1.4
"""Above words over the whole column."""

ABREAST_GAP_MM: Final = 2.0
"""Between chart and music and the words that stand below both."""

HINT_GAP_MM: Final = 1.2
"""Between the tick boxes and a hint that stands below them."""

TICKS: Final = ("played", "secure", "not-yet")
LABELS: Final = (*TICKS, "minutes", "pencil")
TOLERANCE_MM: Final = 0.5
"""Ink may stand out of the column by a line's thickness."""


@dataclass(frozen=True, slots=True)
class Block:
    """A drill's words broken into lines for a column, with its chart and its music.

    indent: of title and link, in millimetres.
    link: empty where the link stands among the texts.
    wide: words over the whole column, below chart and texts.
    unsure: what to do when it is not secure; hint_beside: beside the ticks, else below them.
    plays: boxes for times played; group_gap: between groups of boxes, in millimetres.
    column: width in millimetres; ink: of the engraved music, in points; None where it is played
        from memory.
    """

    number: int
    indent: float
    outline: str
    title: tuple[Line, ...]
    link: tuple[Line, ...]
    arrangement: Arrangement
    texts: tuple[tuple[Line, ...], ...]
    wide: tuple[Line, ...]
    unsure: tuple[Line, ...]
    hint_beside: bool
    labels: tuple[tuple[str, str], ...]
    plays: int
    group_gap: float
    chart: Chart
    ink: InkBox | None
    column: float
    layout: Layout

    @property
    def music_height(self) -> float:
        """Height of the music's ink in millimetres."""
        return self.ink.height * MM_PER_POINT if self.ink else 0.0

    @property
    def head_height(self) -> float:
        """Height of title and link."""
        sizes = self.layout.text
        first = line_height(sizes.title, sizes.leading)
        title, link = len(self.title) * first, line_height(sizes.link, sizes.leading)
        minutes = first + line_height(sizes.small, sizes.leading)
        return max(title + len(self.link) * link, minutes)

    @property
    def words_height(self) -> float:
        """Height of the words beside the chart."""
        sizes = self.layout.text
        line = line_height(sizes.body, sizes.leading)
        lines = sum(len(lines) for lines in self.texts)
        return lines * line + max(len(self.texts) - 1, 0) * PARAGRAPH_GAP_MM

    @property
    def middle_height(self) -> float:
        """Height of the chart and what stands beside it, and of the words below it."""
        below = self.words_height + self.stack_gap
        match self.arrangement:
            case Arrangement.STACKED:
                parts = self.chart.height + below
            case Arrangement.ABREAST:
                parts = self.row_height + below
            case _:
                parts = max(self.chart.height, self.words_height)
        return parts + self.wide_height

    @property
    def stack_gap(self) -> float:
        """White above words that stand below the chart."""
        abreast = self.arrangement is Arrangement.ABREAST
        return (ABREAST_GAP_MM if abreast else STACK_GAP_MM) * bool(self.texts)

    @property
    def row_height(self) -> float:
        """Height of the chart and of the music where that stands beside it."""
        beside = self.arrangement is Arrangement.ABREAST
        return max(self.chart.height, self.music_height if beside else 0.0)

    @property
    def below_height(self) -> float:
        """Height of the music where it stands below all the words, and of the gap above it."""
        if self.ink is None or self.arrangement is Arrangement.ABREAST:
            return 0.0
        return self.music_height + self.layout.block.gap

    @property
    def wide_height(self) -> float:
        """Height of the words over the whole column, with the white above them."""
        sizes = self.layout.text
        return len(self.wide) * line_height(sizes.body, sizes.leading) + WIDE_GAP_MM * bool(
            self.wide
        )

    @property
    def ticks_height(self) -> float:
        """Height of the tick boxes, and of the words below them where they have no room beside."""
        sizes = self.layout.text
        line = line_height(sizes.body, sizes.leading)
        below = 0.0 if self.hint_beside else len(self.unsure) * line + HINT_GAP_MM
        return max(self.layout.block.tick, line) + below

    @property
    def height(self) -> float:
        """The least height of the block in millimetres, without room for the pencil."""
        parts = (self.head_height, self.middle_height, self.below_height, self.ticks_height)
        return sum(parts) + 2 * self.layout.block.gap

    def label(self, part: str) -> str:
        """A label's words."""
        return dict(self.labels).get(part, "")


@dataclass(frozen=True, slots=True)
class Column:
    """A drill's words and the column into which they are broken.

    width: in millimetres; plays: boxes for times played.
    """

    paragraphs: Sequence[Paragraph]
    layout: Layout
    width: float
    arrangement: Arrangement
    measure: Measure
    plays: int

    @property
    def compact(self) -> bool:
        """The link stands with the words beside the chart."""
        return self.arrangement is Arrangement.COMPACT

    def lines(self, part: str, width: float, size: float) -> tuple[Line, ...]:
        """The lines of every paragraph of a part."""
        found = (p for p in self.paragraphs if p.part == part)
        return tuple(line for p in found for line in wrap(p.pieces, width, size, self.measure))

    def plain(self, part: str) -> str:
        """The words of a part without weight."""
        return " ".join(p.plain for p in self.paragraphs if p.part == part)

    @property
    def group_gap(self) -> float:
        """White between groups of tick boxes."""
        return CLOSE_GAP_MM if self.compact else GROUP_GAP_MM

    def indent(self, number: int) -> float:
        """Width that a number takes beside title and link."""
        style = Style(Face.BOLD, self.layout.text.number)
        wide = self.measure.width("0" * len(str(number)), style)
        return max(NUMBER_COLUMN_MM, wide + NUMBER_GAP_MM)


def block_of(column: Column, chart: Chart, ink: InkBox | None) -> Block:
    """Break a drill's words for a column.

    ink: of its music; None leaves the music out.

    Raises:
        ValueError: the music is wider than the column, so it was engraved for another paper.
    """
    beside = column.width - chart.width - COLUMN_GAP_MM
    room = beside if column.arrangement is Arrangement.ABREAST else column.width
    music = ink.width * MM_PER_POINT if ink else 0.0
    if music > room + TOLERANCE_MM:
        msg = f"music {music:.1f} mm wide does not fit a column of {room:.1f} mm"
        raise ValueError(msg)
    layout, sizes = column.layout, column.layout.text
    unsure, hint_beside = hint(column)
    below = column.arrangement in {Arrangement.STACKED, Arrangement.ABREAST}
    indent = column.indent(chart.number)
    texts, wide = spread(column, chart, column.width if below else beside)
    return Block(
        number=chart.number,
        indent=indent,
        outline=column.plain("title"),
        title=column.lines("title", column.width - indent, sizes.title),
        link=() if column.compact else column.lines("link", column.width - indent, sizes.link),
        arrangement=column.arrangement,
        texts=texts,
        wide=wide,
        unsure=unsure,
        hint_beside=hint_beside,
        labels=tuple((part, column.plain(part)) for part in LABELS),
        plays=column.plays,
        group_gap=column.group_gap,
        chart=chart,
        ink=ink,
        column=column.width,
        layout=layout,
    )


Texts = tuple[tuple[Line, ...], ...]
"""Paragraphs in lines."""


def spread(column: Column, chart: Chart, width: float) -> tuple[Texts, tuple[Line, ...]]:
    """The words beside the chart, of that width in millimetres, and those over the whole column.

    On small pages what makes the block higher beside the chart than below it goes below.
    """
    size, leading = column.layout.text.body, column.layout.text.leading
    parts = {"text", "link"} if column.compact else {"text"}
    found = [paragraph for paragraph in column.paragraphs if paragraph.part in parts]
    texts = tuple(tuple(wrap(p.pieces, width, size, column.measure)) for p in found)
    wide = column.lines("wide", column.width, size)
    if not column.compact:
        return texts, wide
    line = line_height(size, leading)
    over = [tuple(wrap(p.pieces, column.width, size, column.measure)) for p in found]

    def height(count: int) -> tuple[float, int]:
        words = sum(map(len, texts[:count])) * line + max(count - 1, 0) * PARAGRAPH_GAP_MM
        return max(chart.height, words) + sum(map(len, over[count:])) * line, -count

    best = min(range(len(texts) + 1), key=height)
    return texts[:best], (*(line for lines in over[best:] for line in lines), *wide)


def hint(column: Column) -> tuple[tuple[Line, ...], bool]:
    """What to do when it is not secure, and whether that stands beside the ticks."""
    size = column.layout.text.body
    beside = column.lines("unsure", column.width - ticks_width(column) - column.group_gap, size)
    if len(beside) <= 1:
        return beside, True
    return column.lines("unsure", column.width, size), False


def ticks_width(column: Column) -> float:
    """How wide the tick boxes and their labels run."""
    layout = column.layout
    style = Style(Face.REGULAR, layout.text.body)
    words = sum(column.measure.width(column.plain(part), style) for part in TICKS)
    boxes = (column.plays + 2) * (layout.block.tick + TICK_GAP_MM)
    return words + boxes + 3 * LABEL_GAP_MM + 2 * column.group_gap
