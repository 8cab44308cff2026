"""The tables of layout.toml and the values they become."""

from importlib.util import find_spec
from pathlib import Path
from typing import Annotated, Literal

import msgspec

from bookgen.binder.layout import (
    BlockMeasures,
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


class Table(msgspec.Struct, forbid_unknown_fields=True):
    """A table in which every key is known."""


class PaperTable(Table):
    """`[margins.a4]` and its like, in millimetres."""

    top: Margin
    right: Margin
    bottom: Margin
    left: Margin


class MarginsTable(Table):
    """`[margins]`."""

    a4: PaperTable
    a5: PaperTable
    letter: PaperTable


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
    stacked: list[Literal["a4", "a5", "letter"]]


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


class LayoutTable(Table):
    """The whole file."""

    margins: MarginsTable
    staff: StaffTable
    fonts: FontsTable
    text: TextTable
    chart: ChartTable
    block: BlockTable
    pencil: PencilTable


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
    name: str, table: LayoutTable, fonts: FontFiles, templates: tuple[Template, Template]
) -> Layout:
    """Turn the tables into the layout; its values refuse what makes no sense.

    templates: of the sheet and of the block.

    Raises:
        ValueError: the staff cannot be read, or margins leave no room.
    """
    text, chart, block, pencil = table.text, table.chart, table.block, table.pencil
    papers = {"a4": table.margins.a4, "a5": table.margins.a5, "letter": table.margins.letter}
    return Layout(
        name=name,
        margins={
            paper: Margins(sides.top, sides.right, sides.bottom, sides.left)
            for paper, sides in papers.items()
        },
        staff_height_mm=table.staff.height_mm,
        fonts=fonts,
        text=TextSizes(
            number=text.number_pt,
            title=text.title_pt,
            link=text.link_pt,
            body=text.body_pt,
            small=text.small_pt,
            name=text.name_pt,
            leading=text.leading,
        ),
        chart=ChartMeasures(chart.string_gap_mm, chart.spot_radius_mm, chart.share),
        stacked=frozenset(chart.stacked),
        block=BlockMeasures(block.gap_mm, block.between_mm, block.tick_mm, block.plays),
        pencil=PencilRoom(pencil.page_mm, pencil.most_mm, pencil.line_mm),
        sheet_template=templates[0],
        block_template=templates[1],
    )
