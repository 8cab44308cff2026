"""The canvas on ReportLab, read back from the PDF."""

from io import BytesIO

import pikepdf
import pypdfium2
import pytest
from kit.paper import fonts_of

from bookgen.binder.page.canvas import Canvas, Face, Style
from bookgen.binder.page.fonts import Fonts, MissingGlyphError
from bookgen.binder.page.reportlab_canvas import ReportLabCanvas
from bookgen.readers.layout import read_layout


@pytest.fixture
def canvas() -> ReportLabCanvas:
    return ReportLabCanvas(Fonts(read_layout("ordinary").fonts), 100.0, 50.0)


def draw_everything(canvas: Canvas) -> None:
    canvas.line((1, 1), (20, 1), width=0.3)
    canvas.dashes((1, 2), (20, 2), width=0.3)
    canvas.spot((5, 10), radius=2)
    canvas.ring((15, 10), radius=2, width=0.3)
    canvas.box((20, 10), (4, 4), width=0.3)
    canvas.shape([(30, 10), (34, 10), (32, 14)])
    canvas.text((5, 20), "Ines plays F♯4", Style(Face.REGULAR, 12))


def test_the_page_is_as_large_as_told_and_its_text_can_be_searched(
    canvas: ReportLabCanvas,
) -> None:
    draw_everything(canvas)
    canvas.next_page()
    document = pypdfium2.PdfDocument(canvas.finish())

    assert len(document) == 1
    assert document[0].get_size() == pytest.approx((100 * 72 / 25.4, 50 * 72 / 25.4), abs=0.01)
    assert "Ines plays F♯4" in document[0].get_textpage().get_text_range()


def test_only_gray_ink_and_embedded_fonts(canvas: ReportLabCanvas) -> None:
    draw_everything(canvas)
    canvas.next_page()
    pdf = canvas.finish()

    with pikepdf.open(BytesIO(pdf)) as book:
        operators = {str(step.operator) for step in pikepdf.parse_content_stream(book.pages[0])}
    assert not operators & {"rg", "RG", "k", "K", "cs", "CS"}
    assert fonts_of(pdf)
    assert all(embedded for _, embedded in fonts_of(pdf))


def test_a_glyph_that_is_missing_stops_the_page(canvas: ReportLabCanvas) -> None:
    with pytest.raises(MissingGlyphError):
        canvas.text((0, 0), "漢", Style(Face.REGULAR, 12))


def test_bookmarks_become_an_outline(canvas: ReportLabCanvas) -> None:
    draw_everything(canvas)
    canvas.bookmark("day", "Tuesday", 0)
    canvas.bookmark("drill", "1 · Fingers", 1)
    canvas.next_page()

    toc = list(pypdfium2.PdfDocument(canvas.finish()).get_toc())
    assert [(entry.level, entry.get_title()) for entry in toc] == [
        (0, "Tuesday"),
        (1, "1 · Fingers"),
    ]
