"""The canvas on ReportLab: gray ink only, fonts embedded, no clock."""

from collections.abc import Callable, Sequence
from contextlib import AbstractContextManager, nullcontext
from io import BytesIO
from typing import TYPE_CHECKING, Final

from reportlab.pdfgen.canvas import Canvas as ReportLab

from bookgen.binder.page.canvas import Point, Style
from bookgen.binder.page.fonts import POINTS_PER_MM as MM
from bookgen.binder.page.fonts import Fonts
from bookgen.binder.page.order import bare
from bookgen.binder.page.placed import Placed
from bookgen.binder.structure.tag import Tag

if TYPE_CHECKING:
    from pikepdf import Pdf

ROUND = 1
DASH_MM = (1.4, 1.1)
UNTAGGED: Final = nullcontext()

Closing = Callable[["Pdf"], None]
"""Puts into a finished file what is read on its pages."""


class ReportLabCanvas:
    """Pages of one PDF. Lengths come in millimetres from the lower left corner."""

    def __init__(self, fonts: Fonts, width: float, height: float) -> None:
        """Open a PDF whose pages have that size in millimetres."""
        self.fonts = fonts
        self.buffer = BytesIO()
        self.pdf = ReportLab(
            self.buffer,
            pagesize=(width * MM, height * MM),
            initialFontName=fonts.first,
            invariant=1,
            pageCompression=0,
        )
        self.page = 0

    def tagged(self, _tag: Tag) -> AbstractContextManager[None]:
        """Pages for paper tell nothing of what is read on them."""
        return UNTAGGED

    def reading(self, *tags: Tag) -> None:
        """Pages for paper tell nothing of the order of reading."""

    def begin(self, title: str, level: int) -> None:
        """Pages for paper know no sections."""

    def begin_ink(self) -> None:
        """Pages for paper do not mark what is drawn next."""

    def music(self, place: Placed) -> Placed:
        """Music as it goes onto pages for paper."""
        return place

    def closing(self, _folios: Sequence[str]) -> Closing | None:
        """Files for paper say nothing of what is read on their pages."""

    def width(self, text: str, style: Style) -> float:
        """How wide the text runs, in millimetres."""
        return self.fonts.width(text, style)

    def line(self, start: Point, end: Point, *, width: float, gray: float = 0.0) -> None:
        """Draw a straight line with round ends."""
        self.begin_ink()
        self.pdf.setStrokeGray(gray)
        self.pdf.setLineWidth(width * MM)
        self.pdf.setLineCap(ROUND)
        self.pdf.line(start[0] * MM, start[1] * MM, end[0] * MM, end[1] * MM)

    def dashes(self, start: Point, end: Point, *, width: float) -> None:
        """Draw a straight line in dashes."""
        self.pdf.setDash([length * MM for length in DASH_MM])
        self.line(start, end, width=width)
        self.pdf.setDash()

    def spot(self, centre: Point, *, radius: float, gray: float = 0.0) -> None:
        """Draw a filled round spot."""
        self.begin_ink()
        self.pdf.setFillGray(gray)
        self.pdf.circle(centre[0] * MM, centre[1] * MM, radius * MM, stroke=0, fill=1)

    def ring(self, centre: Point, *, radius: float, width: float) -> None:
        """Draw the outline of a circle."""
        self.begin_ink()
        self.pdf.setStrokeGray(0)
        self.pdf.setLineWidth(width * MM)
        self.pdf.circle(centre[0] * MM, centre[1] * MM, radius * MM, stroke=1, fill=0)

    def box(self, corner: Point, size: Point, *, width: float) -> None:
        """Draw the outline of a box; the corner is the lower left one."""
        self.begin_ink()
        self.pdf.setStrokeGray(0)
        self.pdf.setLineWidth(width * MM)
        self.pdf.rect(*(value * MM for value in (*corner, *size)), stroke=1, fill=0)

    def shape(self, corners: Sequence[Point], *, gray: float = 0.0) -> None:
        """Draw a filled shape."""
        path = self.pdf.beginPath()
        path.moveTo(corners[0][0] * MM, corners[0][1] * MM)
        for x, y in corners[1:]:
            path.lineTo(x * MM, y * MM)
        path.close()
        self.begin_ink()
        self.pdf.setFillGray(gray)
        self.pdf.drawPath(path, stroke=0, fill=1)

    def curve(self, start: Point, one: Point, other: Point, end: Point, *, width: float) -> None:
        """Draw a Bézier curve with round ends; one and other are its control points."""
        self.begin_ink()
        self.pdf.setStrokeGray(0)
        self.pdf.setLineWidth(width * MM)
        self.pdf.setLineCap(ROUND)
        points = (*start, *one, *other, *end)
        self.pdf.bezier(*(value * MM for value in points))

    def text(self, start: Point, text: str, style: Style, *, gray: float = 0.0) -> None:
        """Set one line of text; the start is where its baseline begins.

        Raises:
            MissingGlyphError: no face has one of the characters.
        """
        self.begin_ink()
        line = self.pdf.beginText(start[0] * MM, start[1] * MM)
        line.setFillGray(gray)
        for run in self.fonts.runs(text, style.face):
            line.setFont(run.font, style.size)
            line.textOut(run.text)
        self.pdf.drawText(line)

    def descend(self, start: Point, text: str, style: Style) -> None:
        """Set one line of text that runs down the page, its letters' feet to the left.

        Raises:
            MissingGlyphError: no face has one of the characters.
        """
        self.pdf.saveState()
        self.pdf.translate(start[0] * MM, start[1] * MM)
        self.pdf.rotate(-90)
        self.text((0.0, 0.0), text, style)
        self.pdf.restoreState()

    def bookmark(self, key: str, title: str, level: int) -> None:
        """Put an entry into the outline that leads to this page."""
        self.pdf.bookmarkPage(key)
        self.pdf.addOutlineEntry(bare(title), key, level, closed=False)

    def resize(self, width: float, height: float) -> None:
        """Give this page and those after it another size in millimetres."""
        self.pdf.setPageSize((width * MM, height * MM))

    def next_page(self) -> None:
        """Finish this page; the next begins."""
        self.pdf.showPage()
        self.page += 1

    def finish(self) -> bytes:
        """Close the PDF and hand it out."""
        self.pdf.save()
        return self.buffer.getvalue()
