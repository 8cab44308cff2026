"""The map of what the hand knows: the fingerboard before and as aimed at, with figures."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from bookgen.binder.board import Board, draw_board, draw_gauge
from bookgen.binder.canvas import Canvas, Face, Style
from bookgen.binder.coverage import Coverage, Strings, Tally
from bookgen.binder.desk import Desk
from bookgen.binder.english import crossing_name
from bookgen.binder.furniture import Furniture
from bookgen.binder.leaf import Leaf, Mark, Side
from bookgen.binder.overlay import Placed
from bookgen.binder.prose import Look, Set, draw_prose, height_of, set_prose
from bookgen.binder.typeset import ASCENT, MM_PER_POINT, Paragraph, line_height

MAP: Final = "map.j2"
COLUMNS: Final = ("strings", "moves", "secure", "practised", "new", "aimed")
MAP_PARTS: Final = frozenset(
    {"outline", "running", "before", "after", "text", "axis", "all", *COLUMNS}
)
"""What map.j2 may print; `secure`, `practised` and `new` name the gauges too."""

HIGHEST_ROW_MM: Final = 19.0
LEAST_ROW_MM: Final = 4.0
GAP_MM: Final = 3.5
GAUGE_MM: Final = (4.0, 5.6)
ALL: Final[Strings] = ()
"""The last row of the table: the whole area."""


@dataclass(frozen=True, slots=True)
class MapWords:
    """What map.j2 may say, as `map`.

    aimed: moves that are secure when the booklet's all are; None where nothing is aimed at.
    """

    secure: int
    practised: int
    new: int
    total: int
    aimed: int | None


@dataclass(frozen=True, slots=True)
class CoverageMap:
    """The map, filled.

    after: as aimed at, or None.
    """

    desk: Desk
    before: Coverage
    after: Coverage | None
    words: Mapping[str, Paragraph]
    text: list[Set]

    def plain(self, part: str) -> str:
        """The words of a part."""
        return self.words[part].plain if part in self.words else ""

    @property
    def table(self) -> dict[Strings, tuple[Tally, Tally | None]]:
        """Rows of the table: each string, each crossing, all."""
        before = {**self.before.by_strings(), ALL: self.before.tally}
        after = {**self.after.by_strings(), ALL: self.after.tally} if self.after else {}
        return {strings: (tally, after.get(strings)) for strings, tally in before.items()}


def map_of(desk: Desk, before: Coverage, after: Coverage | None) -> CoverageMap:
    """Fill the map's words.

    Raises:
        BookgenError: the template is damaged.
    """
    tally = before.tally
    aimed = after.tally.secure if after else None
    facts = MapWords(tally.secure, tally.practised, tally.new, tally.total, aimed)
    found = desk.words.fill(MAP, {"map": facts}, MAP_PARTS)
    sizes = desk.layout.text
    look = {"text": Look(sizes.body, above=0.8)}
    return CoverageMap(
        desk=desk,
        before=before,
        after=after,
        words={paragraph.part: paragraph for paragraph in found},
        text=set_prose(found, look, desk.sheet.column, sizes.leading, desk.fonts),
    )


def map_leaf(found: CoverageMap, furniture: Furniture) -> Leaf:
    """The map as a page of a booklet."""

    def draw(canvas: Canvas, side: Side) -> Iterator[Placed]:
        draw_map(canvas, found, (side.left, furniture.top), furniture.room)
        return iter(())

    return Leaf(found.plain("running"), (Mark(found.plain("outline"), 0),), draw)


def draw_map(
    canvas: Canvas, found: CoverageMap, corner: tuple[float, float], height: float
) -> None:
    """Draw words, fingerboards, key and table, with their upper left corner there.

    height: that the map may take, in millimetres.
    """
    desk, (left, top) = found.desk, corner
    sizes = desk.layout.text
    boards = [("before", found.before), *([("after", found.after)] if found.after else [])]
    title = line_height(sizes.title, sizes.leading) + 1.0
    line = line_height(sizes.body, sizes.leading) * 1.15
    fixed = height_of(found.text) + (len(found.table) + 1) * line + GAUGE_MM[1] + 3 * GAP_MM
    strings = len(desk.instrument.strings)
    free = (height - fixed) / len(boards) - title - GAP_MM - 4.6
    row = max(min(free / strings, HIGHEST_ROW_MM), LEAST_ROW_MM)
    y = draw_prose(canvas, found.text, left, top) - GAP_MM
    for part, coverage in boards:
        baseline = y - sizes.title * ASCENT * MM_PER_POINT
        canvas.text((left, baseline), found.plain(part), Style(Face.BOLD, sizes.title))
        board = Board(desk.instrument, coverage.by_place(), desk.sheet.column, row, sizes.small)
        draw_board(canvas, board, left, y - title)
        y -= title + board.height + GAP_MM
    y = draw_key(canvas, found, left, y) - GAP_MM
    draw_table(canvas, found, (left, y), line)


def draw_key(canvas: Canvas, found: CoverageMap, left: float, top: float) -> float:
    """What the gauges mean. Returns where the key ends."""
    style = Style(Face.REGULAR, found.desk.layout.text.body)
    baseline = top - GAUGE_MM[1] / 2 - style.size * ASCENT * MM_PER_POINT / 2
    x = left
    samples = (
        ("secure", Tally(secure=1)),
        ("practised", Tally(practised=1)),
        ("new", Tally(new=1)),
    )
    for part, tally in samples:
        draw_gauge(canvas, (x, top - GAUGE_MM[1]), GAUGE_MM, tally)
        x += GAUGE_MM[0] + 1.5
        canvas.text((x, baseline), found.plain(part), style)
        x += canvas.width(found.plain(part), style) + 5.0
    canvas.text((x, baseline), found.plain("axis"), Style(Face.ITALIC, style.size))
    return top - GAUGE_MM[1]


def draw_table(
    canvas: Canvas, found: CoverageMap, corner: tuple[float, float], line: float
) -> None:
    """Figures for each string and each crossing."""
    left, top = corner
    desk = found.desk
    size = desk.layout.text.body
    columns = COLUMNS if found.after else COLUMNS[:-1]
    step = desk.sheet.column / (len(columns) + 0.4)
    heads = [found.plain(part) for part in columns]
    everything = found.plain("all")
    rows = [
        [crossing_name(key) or everything, *figures(*pair)] for key, pair in found.table.items()
    ]
    for index, cells in enumerate([heads, *rows]):
        baseline = top - index * line - size * ASCENT * MM_PER_POINT
        face = Face.BOLD if index in {0, len(rows)} else Face.REGULAR
        draw_cells(canvas, cells[: len(columns)], (left, baseline, step), Style(face, size))
        if index in {0, len(rows) - 1}:
            y = top - (index + 1) * line + 0.6
            canvas.line((left, y), (left + desk.sheet.column, y), width=0.2)


def draw_cells(
    canvas: Canvas, cells: Sequence[str], place: tuple[float, float, float], style: Style
) -> None:
    """One row: the first cell flush left, the figures flush right.

    place: left edge, baseline, and width of a column.
    """
    left, baseline, step = place
    canvas.text((left, baseline), cells[0], style)
    for index, words in enumerate(cells[1:], start=1):
        right = left + (index + 1.4) * step
        canvas.text((right - canvas.width(words, style), baseline), words, style)


def figures(before: Tally, after: Tally | None) -> list[str]:
    """The figures of a row of the table."""
    counts = (before.total, before.secure, before.practised, before.new)
    return [*map(str, counts), str(after.secure) if after else ""]
