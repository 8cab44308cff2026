"""What a page layout says: margins, sizes of type and staff, measures of chart and block."""

from collections.abc import Mapping
from dataclasses import dataclass, fields
from enum import StrEnum
from pathlib import Path
from typing import Final

from bookgen.model.units import Millimetres

PAPERS: Final[Mapping[str, tuple[float, float]]] = {
    "a4": (210.0, 297.0),  # ISO 216
    "a5": (148.0, 210.0),  # ISO 216
    "letter": (215.9, 279.4),  # ANSI Y14.1, size A
    "half-letter": (139.7, 215.9),  # half of size A
}
"""Width and height of the papers in millimetres, upright."""

SMALLEST_STAFF_MM: Final = 6.0  # own choice, below what librarians accept for strings
LARGEST_STAFF_MM: Final = 10.0  # own choice, above what librarians advise
SMALLEST_COLUMN_MM: Final = 90.0
"""Own choice: a narrower column leaves chart and words no room beside each other."""


BLOCK: Final = "block.j2"
SHEET: Final = "sheet.j2"
FILES: Final = (
    *(SHEET, BLOCK, "cover.j2", "how-to.j2", "page.j2", "week.j2", "map.j2", "index.j2"),
    *("answers.j2", "log.j2", "passage.j2"),
)
"""Every template of a layout: of a drill, a sheet, the parts of a booklet, and a passage."""


COLUMN_GAP_MM: Final = 5.0
"""Between a chart and what stands beside it."""


class NoRoomError(ValueError):
    """A drill does not fit the paper: the layout's type or staff is too large for it."""


@dataclass(frozen=True, slots=True)
class Margins:
    """White around the page's contents, in millimetres."""

    top: float
    right: float
    bottom: float
    left: float

    def __post_init__(self) -> None:
        """Refuse margins that no printer or page can have.

        Raises:
            ValueError: a margin is negative.
        """
        for field in fields(self):
            value: float = getattr(self, field.name)
            if value < 0:
                msg = f"{field.name} = {value}: a margin cannot be less than 0 mm"
                raise ValueError(msg)


@dataclass(frozen=True, slots=True)
class Sheet:
    """A paper with its margins, in millimetres."""

    width: float
    height: float
    margins: Margins

    def __post_init__(self) -> None:
        """Refuse margins that leave no column.

        Raises:
            ValueError: the column is too narrow for music, or higher than it is open.
        """
        if self.column < SMALLEST_COLUMN_MM:
            msg = f"left and right leave {self.column:.1f} mm; music needs {SMALLEST_COLUMN_MM:.0f}"
            raise ValueError(msg)
        if self.top - self.bottom < SMALLEST_COLUMN_MM:
            msg = f"top and bottom leave {self.top - self.bottom:.1f} mm; a drill needs more"
            raise ValueError(msg)

    @property
    def column(self) -> Millimetres:
        """Width between the side margins: the longest line of music and words."""
        return Millimetres(self.width - self.margins.left - self.margins.right)

    @property
    def top(self) -> Millimetres:
        """Where the contents begin, counted from the paper's lower edge."""
        return Millimetres(self.height - self.margins.top)

    @property
    def bottom(self) -> Millimetres:
        """Where the contents end, counted from the paper's lower edge."""
        return Millimetres(self.margins.bottom)


@dataclass(frozen=True, slots=True)
class FontFiles:
    """TrueType files: the text face in three cuts, and what has the letters it lacks.

    family: name of the text face's family, as the files tell it.
    """

    family: str
    regular: Path
    bold: Path
    italic: Path
    signs: Path
    signs_bold: Path


@dataclass(frozen=True, slots=True)
class TextSizes:
    """Sizes of type in points.

    leading: from baseline to baseline, as a multiple of the size.
    """

    number: float
    title: float
    link: float
    body: float
    small: float
    name: float
    leading: float


@dataclass(frozen=True, slots=True)
class ChartMeasures:
    """The fingerboard chart on paper, in millimetres.

    share: of the column's width.
    """

    string_gap: float
    spot_radius: float
    share: float


@dataclass(frozen=True, slots=True)
class BlockMeasures:
    """A drill's block, in millimetres.

    gap: white between its parts; between: white between two blocks, at least.
    tick: side of a tick box; plays: how many boxes there are for times played.
    """

    gap: float
    between: float
    tick: float
    plays: int


@dataclass(frozen=True, slots=True)
class PencilRoom:
    """Room for the teacher's pencil, in millimetres.

    page: kept on every page; most: of one block; line: from rule to rule.
    """

    page: float
    most: float
    line: float


@dataclass(frozen=True, slots=True)
class BookletMeasures:
    """What is other in a booklet, where more drills share a page than on a sheet.

    compact: papers on which the link stands beside the chart.
    abreast: papers on which the music stands beside the chart; share: of the column's width,
        for the chart there.
    title, link, body: sizes of type in points; plays: how many boxes there are for times played.
    tick: side of a box on the log's pages, in millimetres.
    """

    compact: frozenset[str]
    abreast: frozenset[str]
    share: float
    title: float
    link: float
    body: float
    plays: int
    tick: float


class Arrangement(StrEnum):
    """How the parts of a drill's block stand.

    Words beside the chart, or below it, with the music below both; or the link with the words
    beside the chart; or the music beside the chart, with the words below.
    """

    BESIDE = "beside"
    STACKED = "stacked"
    COMPACT = "compact"
    ABREAST = "abreast"


@dataclass(frozen=True, slots=True)
class Template:
    """The text of a template and the name under which the user knows it."""

    file: str
    text: str


@dataclass(frozen=True, slots=True)
class Layout:
    """How pages look.

    margins: by name of the paper.
    staff_height_mm: from the lowest to the highest line of a staff.
    stacked: papers on which a drill's words stand below its chart, not beside it.
    templates: by the name of their file in the layout's folder.
    """

    name: str
    margins: Mapping[str, Margins]
    staff_height_mm: float
    fonts: FontFiles
    text: TextSizes
    chart: ChartMeasures
    stacked: frozenset[str]
    block: BlockMeasures
    pencil: PencilRoom
    booklet: BookletMeasures
    templates: Mapping[str, Template]

    def __post_init__(self) -> None:
        """Refuse a staff that cannot be read and a paper without room.

        Raises:
            ValueError: the staff is out of range, or margins are missing or too wide.
        """
        if not SMALLEST_STAFF_MM <= self.staff_height_mm <= LARGEST_STAFF_MM:
            least, most = SMALLEST_STAFF_MM, LARGEST_STAFF_MM
            msg = f"a staff of {self.staff_height_mm} mm; give {least:g} to {most:g}"
            raise ValueError(msg)
        for paper in PAPERS:
            if paper not in self.margins:
                msg = f"no margins for the paper {paper}"
                raise ValueError(msg)
            self.sheet(paper)

    def arrangement(self, paper: str, *, booklet: bool) -> Arrangement:
        """How a drill's parts stand on that paper."""
        measures = self.booklet
        if booklet and paper in measures.abreast:
            return Arrangement.ABREAST
        if booklet and paper in measures.compact:
            return Arrangement.COMPACT
        return Arrangement.STACKED if paper in self.stacked else Arrangement.BESIDE

    def music_width(self, paper: str, *, booklet: bool = False) -> Millimetres:
        """How wide the music is engraved.

        Raises:
            ValueError: there is no such paper.
        """
        column = self.sheet(paper).column
        if self.arrangement(paper, booklet=booklet) is Arrangement.ABREAST:
            return Millimetres(column * (1 - self.booklet.share) - COLUMN_GAP_MM)
        return column

    def sheet(self, paper: str) -> Sheet:
        """The paper of that name with this layout's margins.

        Raises:
            ValueError: there is no such paper.
        """
        if paper not in PAPERS:
            msg = f"{paper!r} is no paper; choose {', '.join(PAPERS)}"
            raise ValueError(msg)
        return Sheet(*PAPERS[paper], self.margins[paper])
