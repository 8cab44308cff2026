"""Pages of a book go onto sheets that are folded and stapled."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from io import BytesIO
from typing import Final

import pikepdf

from bookgen.binder.page.fonts import POINTS_PER_MM
from bookgen.binder.page.imposition import (
    PAGES_ON_A_SHEET,
    PrintSide,
    padded,
    saddle_stitch,
    sections_of,
)

HALF_TURN: Final = 180
LARGEST_CREEP_MM: Final = 0.5
"""Own choice: the thickest paper that office printers take is about 0.3 mm thick."""

SAME_MM: Final = 0.5
"""Paper sizes that differ by less are the same: files round them to whole points."""

FOLDED: Final[Mapping[str, tuple[tuple[float, float], tuple[float, float]]]] = {
    "a5": ((148.0, 210.0), (297.0, 210.0)),  # ISO 216: A5 pages, A4 across
    "half-letter": ((139.7, 215.9), (279.4, 215.9)),  # half of ANSI A; ANSI A (Letter) across
}
"""Sizes of the pages that can be folded, and of the sheets they go on, in millimetres."""

KEPT: Final = frozenset({"/Type", "/Pages", "/Lang", "/Metadata", "/OutputIntents"})
"""What still holds for the whole file when pages have become halves of sheets; the outline and
the labels of pages do not."""


def fold(pdf: bytes, starts: Sequence[int] = (), creep_mm: float = 0.0) -> bytes:
    """Put A5 pages on A4 sheets, or half-letter pages on Letter ones, to be folded and stapled.

    The pages are taken over as they are: same size, same fonts, text that can be searched. The
    same pages give the same bytes. Blank pages come at the end of a section; in the last one
    before the last part of the outline. More than ten sheets become sections, one after the other.

    starts: pages, from 1, with which a section may begin.
    creep_mm: how much further in a sheet's pages move towards the fold than those of the sheet
        around it: about the thickness of the paper, where the edge is trimmed; 0 where it is not.

    Raises:
        ValueError: the pages are not all A5, or not all half-letter, or the creep is no paper's,
            or a start is no right-hand page.
    """
    if not 0 <= creep_mm <= LARGEST_CREEP_MM:
        msg = f"a creep of {creep_mm:g} mm a sheet; give 0 to {LARGEST_CREEP_MM:g}"
        raise ValueError(msg)
    with pikepdf.open(BytesIO(pdf)) as book:
        pages = list(book.pages)
        ending = last_part(book)
        sizes = [page_size(page) for page in pages]
        size = sheet_size(sizes)
        half = Half(*size, sizes[0][0] * POINTS_PER_MM, creep_mm * POINTS_PER_MM)
        sections = sections_of(len(pages), starts)
        labels = list(imposed(book, sections, half, ending))
        del book.pages[: len(pages)]
        settle(book, labels)
        out = BytesIO()
        book.save(
            out,
            min_version="1.7",  # for what the file asks of the printer
            object_stream_mode=pikepdf.ObjectStreamMode.generate,
            deterministic_id=True,
        )
    return out.getvalue()


def imposed(
    book: pikepdf.Pdf, sections: Sequence[range], half: "Half", ending: int
) -> Iterator[str]:
    """Draw the sheets of each section behind the pages.

    ending: pages of the last part, which stay together at the end of the last section.

    Yields:
        The label of each side of a sheet.
    """
    forms = [page.as_form_xobject() for page in book.pages]
    for number, section in enumerate(sections, start=1):
        chosen = [forms[page - 1] for page in section]
        order = padded(len(chosen), ending if section is sections[-1] else 0)
        prefix = f"{number}." if len(sections) > 1 else ""
        for side in saddle_stitch(len(order)):
            half.draw_side(book, side, [None if at is None else chosen[at - 1] for at in order])
            yield f"{prefix}{side.label}"


def last_part(book: pikepdf.Pdf) -> int:
    """How many pages the last part of the outline has, where it fits on a sheet; else one."""
    with book.open_outline() as outline:
        goals = [entry.destination for entry in outline.root[-1:]]
    pages = [page.obj.objgen for page in book.pages]
    for goal in goals:
        if isinstance(goal, pikepdf.Array) and goal[0].objgen in pages:
            length = len(pages) - pages.index(goal[0].objgen)
            return length if length <= PAGES_ON_A_SHEET else 1
    return 1


def page_size(page: pikepdf.Page) -> tuple[float, float]:
    """Width and height of a page as it is seen, in millimetres."""
    left, bottom, right, top = (float(edge) for edge in page.trimbox)
    size = ((right - left) / POINTS_PER_MM, (top - bottom) / POINTS_PER_MM)
    return size if page.rotation % HALF_TURN == 0 else (size[1], size[0])


def sheet_size(pages: Sequence[tuple[float, float]]) -> tuple[float, float]:
    """Width and height, in points, of the sheets for pages of these sizes in millimetres.

    Raises:
        ValueError: the pages differ, or two of them fill no sheet of a printer.
    """
    first = pages[0]
    for number, size in enumerate(pages, start=1):
        if not same(size, first):
            msg = f"page {number} is {shown(size)}, page 1 is {shown(first)}; only equal pages fold"
            raise ValueError(msg)
    for page, (width, height) in FOLDED.values():
        if same(page, first):
            return (round(width * POINTS_PER_MM, 3), round(height * POINTS_PER_MM, 3))
    known = " and ".join(f"{name} ({shown(page)})" for name, (page, _) in FOLDED.items())
    msg = f"pages of {shown(first)} cannot be folded; {known} can"
    raise ValueError(msg)


def same(one: tuple[float, float], other: tuple[float, float]) -> bool:
    """Whether two sizes in millimetres are one paper."""
    return all(abs(a - b) < SAME_MM for a, b in zip(one, other, strict=True))


def shown(size: tuple[float, float]) -> str:
    """A size in words."""
    return f"{size[0]:.0f} x {size[1]:.0f} mm"


@dataclass(frozen=True, slots=True)
class Half:
    """Where a page lies on its sheet: against the fold. All in points.

    width, height: of the sheet; page: width of a page.
    creep: how much each sheet's pages move towards the fold, against the sheet around it.
    """

    width: float
    height: float
    page: float
    creep: float

    def draw_side(
        self, book: pikepdf.Pdf, side: PrintSide, forms: Sequence[pikepdf.Object | None]
    ) -> None:
        """Add a side of a sheet to the file.

        forms: the section's pages; blank ones are None.
        """
        sheet = book.add_blank_page(page_size=(self.width, self.height))
        sheet.obj["/TrimBox"] = sheet.obj["/MediaBox"]
        for number, left in ((side.left, True), (side.right, False)):
            form = forms[number - 1]
            if form is not None:
                self.draw(sheet, form, (side.sheet, left))

    def draw(self, sheet: pikepdf.Page, form: pikepdf.Object, where: tuple[int, bool]) -> None:
        """Draw a page onto a sheet; nothing of it passes the fold.

        where: which sheet, from the outermost, and whether the left half.
        """
        number, left = where
        middle, shift = self.width / 2, (number - 1) * self.creep
        start = middle - self.page + shift if left else middle - shift
        name = pikepdf.Name("/Left" if left else "/Right")
        sheet.add_resource(form, pikepdf.Name.XObject, name)
        box = pikepdf.Rectangle(start, 0, start + self.page, self.height)
        clip = f"q {0 if left else middle:.3f} 0 {middle:.3f} {self.height:.3f} re W n\n"
        drawn = sheet.calc_form_xobject_placement(form, name, box, allow_shrink=False)
        sheet.contents_add(clip.encode() + drawn + b"Q\n")


def settle(book: pikepdf.Pdf, labels: Sequence[str]) -> None:
    """Let the file say what it now is: sheets, printed in actual size and on both sides.

    Title and author stay (ISO 32000-1, 12.2: viewer preferences; 12.4.2: page labels).
    """
    for key in set(book.Root.keys()) - KEPT:
        del book.Root[key]
    book.Root["/ViewerPreferences"] = pikepdf.Dictionary(
        DisplayDocTitle=True,
        PrintScaling=pikepdf.Name("/None"),
        Duplex=pikepdf.Name.DuplexFlipShortEdge,
    )
    numbers: list[int | pikepdf.Object] = []
    for index, label in enumerate(labels):
        numbers += [index, pikepdf.Dictionary(P=pikepdf.String(label))]
    book.Root["/PageLabels"] = pikepdf.Dictionary(Nums=pikepdf.Array(numbers))
    if "/ID" in book.trailer:
        del book.trailer["/ID"]
