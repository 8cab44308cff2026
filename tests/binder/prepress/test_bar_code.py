"""Numbers of books: read, refused, and as bars that a scanner reads."""

from io import BytesIO

import numpy as np
import pikepdf
import pypdfium2
import pytest
import zxingcpp
from kit.paper import Recorder

from bookgen.binder.page.fonts import Fonts
from bookgen.binder.page.reportlab_canvas import ReportLabCanvas
from bookgen.binder.prepress.bar_code import HEIGHT_MM, MODULE_MM, WIDTH_MM, BarCode
from bookgen.binder.prepress.book_number import BookNumber
from bookgen.errors import RefusedError
from bookgen.readers.layout import read_layout

EXAMPLES = {
    "978-0-306-40615-7": "ISBN 978-0-306-40615-7",
    "9783161484100": "ISBN 978-3-16-148410-0",
    "979-0-2600-0043-8": "ISMN 979-0-2600-0043-8",
}
"""Examples of the two standards' handbooks (from memory)."""


@pytest.mark.published("ISBN and ISMN users' manuals, examples (from memory)")
@pytest.mark.parametrize(("text", "written"), EXAMPLES.items())
def test_a_number_is_written_as_the_agencies_write_it(text: str, written: str) -> None:
    assert BookNumber.parse(text).written == written


@pytest.mark.parametrize(
    ("text", "name", "digit"),
    [
        ("978-0-306-40615-8", "isbn-check", "7"),
        ("979-0-2600-0043-1", "isbn-check", "8"),
        ("0-306-40615-2", "isbn-digits", None),
        ("0-306-40615-3", "isbn-digits", None),
        ("9770306406158", "isbn-digits", None),
        ("978030640615", "isbn-digits", None),
        ("978O306406157", "isbn-digits", None),
        ("Theo", "isbn-digits", None),
        ("", "isbn-digits", None),
    ],
)
def test_a_number_that_is_none_is_refused(text: str, name: str, digit: str | None) -> None:
    with pytest.raises(RefusedError) as refusal:
        BookNumber.parse(text)
    message = refusal.value.message
    assert (message.text, message.facts.get("digit")) == (name, digit)


def printed(number: str) -> bytes:
    """The bars alone on a sheet."""
    canvas = ReportLabCanvas(Fonts(read_layout("ordinary").fonts), WIDTH_MM + 20, HEIGHT_MM + 20)
    canvas.shape([(0, 0), (90, 0), (90, 90), (0, 90)])
    BarCode(BookNumber.parse(number)).draw(canvas, (10, 10))
    canvas.next_page()
    return canvas.finish()


@pytest.mark.published("ISO/IEC 15420 (EAN-13), by the reader zxing-cpp")
@pytest.mark.parametrize("number", EXAMPLES)
def test_a_scanner_reads_the_number_on_a_black_cover_too(number: str) -> None:
    with pypdfium2.PdfDocument(printed(number)) as book:
        seen = np.asarray(book[0].render(scale=4, grayscale=True).to_numpy()).squeeze()

    (found,) = zxingcpp.read_barcodes(seen)
    assert found.text == number.replace("-", "")
    assert found.format == zxingcpp.BarcodeFormat.EAN13


def test_bars_are_filled_in_gray() -> None:
    with pikepdf.open(BytesIO(printed("9780306406157"))) as book:
        steps = [str(step.operator) for step in pikepdf.parse_content_stream(book.pages[0])]

    assert {"g", "f*"} <= set(steps)
    assert not {"rg", "RG", "k", "K", "S"} & set(steps)


@pytest.mark.published("GS1 General Specifications, EAN-13 at 100 % (from memory)")
def test_the_bars_have_their_nominal_size() -> None:
    paper = Recorder()
    BarCode(BookNumber.parse("9780306406157")).draw(paper, (0.0, 0.0))

    bars = paper.shapes
    lefts, rights = [bar[0][0] for bar in bars], [bar[1][0] for bar in bars]
    assert len(bars) == 30
    assert max(rights) - min(lefts) == pytest.approx(31.35)
    assert pytest.approx(37.29) == WIDTH_MM
    assert (min(lefts), WIDTH_MM - max(rights)) == pytest.approx((3.63, 2.31))
    assert min(right - left for left, right in zip(lefts, rights, strict=True)) == pytest.approx(
        MODULE_MM
    )
    assert {round(bar[2][1] - bar[0][1], 2) for bar in bars} == {22.85, 24.5}
