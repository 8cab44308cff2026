"""One drill on the page, measured: words in lines, chart, music, ticks."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from bookgen.binder.canvas import Face, Measure, Style
from bookgen.binder.chart import Chart
from bookgen.binder.layout import Layout
from bookgen.binder.typeset import MM_PER_POINT, Line, Paragraph, line_height, wrap
from bookgen.notation.engraved import InkBox

NUMBER_COLUMN_MM: Final = 14.0
COLUMN_GAP_MM: Final = 5.0
PARAGRAPH_GAP_MM: Final = 1.3
LABEL_GAP_MM: Final = 2.0
TICK_GAP_MM: Final = 1.3
GROUP_GAP_MM: Final = 8.0
STACK_GAP_MM: Final = 2.5
"""Between a chart and the words that stand below it."""

HINT_GAP_MM: Final = 1.2
"""Between the tick boxes and a hint that stands below them."""

TICKS: Final = ("played", "secure", "not-yet")
LABELS: Final = (*TICKS, "minutes", "pencil")
TOLERANCE_MM: Final = 0.5
"""Ink may stand out of the column by a line's thickness."""


@dataclass(frozen=True, slots=True)
class Block:
    """A drill's words broken into lines for a column, with its chart and its music.

    stacked: the words stand below the chart, else beside it.
    wide: figures over the whole column, below chart and words.
    unsure: what to do when it is not secure; hint_beside: beside the ticks, else below them.
    column: width in millimetres; ink: of the engraved music, in points.
    """

    number: int
    outline: str
    title: tuple[Line, ...]
    link: tuple[Line, ...]
    stacked: bool
    texts: tuple[tuple[Line, ...], ...]
    wide: tuple[Line, ...]
    unsure: tuple[Line, ...]
    hint_beside: bool
    labels: tuple[tuple[str, str], ...]
    chart: Chart
    ink: InkBox
    column: float
    layout: Layout

    @property
    def music_height(self) -> float:
        """Height of the music's ink in millimetres."""
        return self.ink.height * MM_PER_POINT

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
        """Height of the chart and the words beside or below it."""
        if self.stacked:
            parts = self.chart.height + STACK_GAP_MM + self.words_height
        else:
            parts = max(self.chart.height, self.words_height)
        return parts + self.wide_height

    @property
    def wide_height(self) -> float:
        """Height of the figures over the whole column."""
        sizes = self.layout.text
        return len(self.wide) * line_height(sizes.body, sizes.leading)

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
        gaps = 3 * self.layout.block.gap
        parts = (self.head_height, self.middle_height, self.music_height, self.ticks_height)
        return sum(parts) + gaps

    def label(self, part: str) -> str:
        """A label's words."""
        return dict(self.labels).get(part, "")


@dataclass(frozen=True, slots=True)
class Column:
    """A drill's words and the column into which they are broken.

    width: in millimetres; stacked: the words stand below the chart.
    """

    paragraphs: Sequence[Paragraph]
    layout: Layout
    width: float
    stacked: bool
    measure: Measure

    def lines(self, part: str, width: float, size: float) -> tuple[Line, ...]:
        """The lines of every paragraph of a part."""
        found = (p for p in self.paragraphs if p.part == part)
        return tuple(line for p in found for line in wrap(p.pieces, width, size, self.measure))

    def plain(self, part: str) -> str:
        """The words of a part without weight."""
        return " ".join(p.plain for p in self.paragraphs if p.part == part)

    @property
    def beside_number(self) -> float:
        """Width of title and link."""
        return self.width - NUMBER_COLUMN_MM


def block_of(column: Column, chart: Chart, ink: InkBox) -> Block:
    """Break a drill's words for a column.

    Raises:
        ValueError: the music is wider than the column, so it was engraved for another paper.
    """
    music = ink.width * MM_PER_POINT
    if music > column.width + TOLERANCE_MM:
        msg = f"music {music:.1f} mm wide does not fit a column of {column.width:.1f} mm"
        raise ValueError(msg)
    layout, sizes = column.layout, column.layout.text
    unsure, hint_beside = hint(column)
    beside = 0.0 if column.stacked else chart.width + COLUMN_GAP_MM
    words = column.width - beside
    return Block(
        number=chart.number,
        outline=column.plain("title"),
        title=column.lines("title", column.beside_number, sizes.title),
        link=column.lines("link", column.beside_number, sizes.link),
        stacked=column.stacked,
        texts=tuple(
            tuple(wrap(p.pieces, words, sizes.body, column.measure))
            for p in column.paragraphs
            if p.part == "text"
        ),
        wide=column.lines("wide", column.width, sizes.body),
        unsure=unsure,
        hint_beside=hint_beside,
        labels=tuple((part, column.plain(part)) for part in LABELS),
        chart=chart,
        ink=ink,
        column=column.width,
        layout=layout,
    )


def hint(column: Column) -> tuple[tuple[Line, ...], bool]:
    """What to do when it is not secure, and whether that stands beside the ticks."""
    size = column.layout.text.body
    beside = column.lines("unsure", column.width - ticks_width(column) - GROUP_GAP_MM, size)
    if len(beside) <= 1:
        return beside, True
    return column.lines("unsure", column.width, size), False


def ticks_width(column: Column) -> float:
    """How wide the tick boxes and their labels run."""
    layout = column.layout
    style = Style(Face.REGULAR, layout.text.body)
    words = sum(column.measure.width(column.plain(part), style) for part in TICKS)
    boxes = (layout.block.plays + 2) * (layout.block.tick + TICK_GAP_MM)
    return words + boxes + 3 * LABEL_GAP_MM + 2 * GROUP_GAP_MM
