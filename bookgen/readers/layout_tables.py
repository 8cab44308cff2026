"""The tables of layout.toml and the values they become."""

from collections.abc import Mapping
from importlib.util import find_spec
from pathlib import Path
from typing import Annotated, Literal

import msgspec

from bookgen.binder.layout import (
    BlockMeasures,
    BookletMeasures,
    ChartMeasures,
    FontFiles,
    Layout,
    Margins,
    PencilRoom,
    Template,
    TextSizes,
)
from bookgen.readers.truetype import family_name

OWN = "./"
Margin = Annotated[float, msgspec.Meta(ge=0, le=80)]
Points = Annotated[float, msgspec.Meta(ge=6, le=60)]
Leading = Annotated[float, msgspec.Meta(ge=1, le=2)]
Share = Annotated[float, msgspec.Meta(ge=0.3, le=0.7)]
Length = Annotated[float, msgspec.Meta(ge=0, le=100)]
Mark = Annotated[float, msgspec.Meta(ge=1, le=15)]
Rule = Annotated[float, msgspec.Meta(ge=4, le=20)]
Boxes = Annotated[int, msgspec.Meta(ge=0, le=10)]
PaperName = Literal["a4", "a5", "letter", "half-letter"]


class Table(msgspec.Struct, forbid_unknown_fields=True):
    """A table in which every key is known."""


class PaperTable(Table):
    """`[margins.a4]` and its like, in millimetres."""

    top: Margin
    right: Margin
    bottom: Margin
    left: Margin


class MarginsTable(Table, rename="kebab"):
    """`[margins]`."""

    a4: PaperTable
    a5: PaperTable
    letter: PaperTable
    half_letter: PaperTable


class StaffTable(Table):
    """`[staff]`."""

    height_mm: float


class FontsTable(Table):
    """`[fonts]`."""

    package: str
    regular: str
    bold: str
    italic: str
    signs_package: str
    signs: str
    signs_bold: str


class TextTable(Table):
    """`[text]`."""

    number_pt: Points
    title_pt: Points
    link_pt: Points
    body_pt: Points
    small_pt: Points
    name_pt: Points
    leading: Leading


class ChartTable(Table):
    """`[chart]`."""

    string_gap_mm: Mark
    spot_radius_mm: Mark
    share: Share
    stacked: list[PaperName]


class BlockTable(Table):
    """`[block]`."""

    gap_mm: Length
    between_mm: Length
    tick_mm: Mark
    plays: Boxes


class PencilTable(Table):
    """`[pencil]`."""

    page_mm: Length
    most_mm: Length
    line_mm: Rule


class BookletTable(Table):
    """`[booklet]`."""

    compact: list[PaperName]
    abreast: list[PaperName]
    chart_share: Annotated[float, msgspec.Meta(ge=0.2, le=0.4)]
    title_pt: Points
    link_pt: Points
    body_pt: Points
    plays: Boxes
    tick_mm: Mark


class LayoutTable(Table):
    """The whole file."""

    margins: MarginsTable
    staff: StaffTable
    fonts: FontsTable
    text: TextTable
    chart: ChartTable
    block: BlockTable
    pencil: PencilTable
    booklet: BookletTable


Missing = tuple[str, tuple[str, str]]
"""A key of `[fonts]`, what is wrong with it and what mends that."""


def font_files(table: FontsTable, folder: Path) -> FontFiles | list[Missing]:
    """Find the font files.

    Packages are only looked for, never imported: a layout must not run code.

    Returns:
        The files, or everything that is wrong.
    """
    wanted = {
        "regular": (table.package, table.regular),
        "bold": (table.package, table.bold),
        "italic": (table.package, table.italic),
        "signs": (table.signs_package, table.signs),
        "signs_bold": (table.signs_package, table.signs_bold),
    }
    found: dict[str, Path] = {}
    missing: list[Missing] = []
    for key, (package, name) in wanted.items():
        root = folder if name.startswith(OWN) else package_folder(package)
        wrong = font_fault(root, package, name)
        if wrong or root is None:
            missing.append((key, wrong or ("", "")))
        else:
            found[key] = root / name
    return missing or FontFiles(family=family_name(found["regular"]), **found)


def package_folder(package: str) -> Path | None:
    """Where an installed package lies, without importing it."""
    if not package.isidentifier():
        return None
    spec = find_spec(package)
    return Path(spec.origin).parent if spec and spec.origin else None


def font_fault(root: Path | None, package: str, name: str) -> tuple[str, str] | None:
    """What is wrong with a font file and what mends it, or None."""
    if root is None:
        return f"no package {package!r} is installed", "install it, or give a file as ./name.ttf"
    file = root / name
    if not file.is_file():
        return f"there is no file {name}", f"look for the file's name in {root}"
    try:
        family_name(file)
    except ValueError as error:
        return f"{name}: {error}", "choose a .ttf file; .otf outlines are not embedded"
    return None


def layout_of(
    name: str, table: LayoutTable, fonts: FontFiles, templates: Mapping[str, Template]
) -> Layout:
    """Turn the tables into the layout; its values refuse what makes no sense.

    templates: by the name of their file.

    Raises:
        ValueError: the staff cannot be read, or margins leave no room.
    """
    chart, block, pencil = table.chart, table.block, table.pencil
    papers = {
        field.encode_name: getattr(table.margins, field.name)
        for field in msgspec.structs.fields(MarginsTable)
    }
    return Layout(
        name=name,
        margins={
            paper: Margins(sides.top, sides.right, sides.bottom, sides.left)
            for paper, sides in papers.items()
        },
        staff_height_mm=table.staff.height_mm,
        fonts=fonts,
        text=text_sizes(table.text),
        chart=ChartMeasures(chart.string_gap_mm, chart.spot_radius_mm, chart.share),
        stacked=frozenset(chart.stacked),
        block=BlockMeasures(block.gap_mm, block.between_mm, block.tick_mm, block.plays),
        pencil=PencilRoom(pencil.page_mm, pencil.most_mm, pencil.line_mm),
        booklet=booklet_measures(table.booklet),
        templates=templates,
    )


def text_sizes(table: TextTable) -> TextSizes:
    """Sizes of type."""
    return TextSizes(
        number=table.number_pt,
        title=table.title_pt,
        link=table.link_pt,
        body=table.body_pt,
        small=table.small_pt,
        name=table.name_pt,
        leading=table.leading,
    )


def booklet_measures(table: BookletTable) -> BookletMeasures:
    """What is other in a booklet."""
    return BookletMeasures(
        compact=frozenset(table.compact),
        abreast=frozenset(table.abreast),
        share=table.chart_share,
        title=table.title_pt,
        link=table.link_pt,
        body=table.body_pt,
        plays=table.plays,
        tick=table.tick_mm,
    )
