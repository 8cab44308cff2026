"""The cover of a bound book: back, spine, front on one sheet, as the press takes it."""

from dataclasses import replace
from datetime import UTC, datetime
from io import BytesIO

import msgspec
import numpy as np
import pikepdf
import pypdfium2
import pytest
import zxingcpp
from kit.ink import outside, overprints
from kit.pdfx import findings
from kit.shorthand import VIOLIN

from bookgen.binder.books.cover_sheet import CoverSheet
from bookgen.binder.page.desk import desk_of
from bookgen.binder.page.paper import PAPERS, NoRoomError
from bookgen.binder.prepress.book_number import BookNumber
from bookgen.binder.prepress.for_press import for_press
from bookgen.binder.prepress.gray_profile import gray_profile
from bookgen.binder.prepress.icc import Profile
from bookgen.binder.prepress.trim import Trim
from bookgen.plan.supplement import Chapter, Supplement
from bookgen.readers.layout import read_layout
from bookgen.words.speech import ENGLISH

MM = 72 / 25.4
BOOK = Supplement(
    title="First Crossings",
    subtitle="The left hand from string to string",
    author="Harbour Lane Strings",
    chapters=(Chapter(title="Half steps", numbers=(1,)),),
)
COVER = CoverSheet(
    book=BOOK,
    back="Drills for the left hand, by the *spacings* between its fingers.\n\nFor the **violin**.",
    number=BookNumber.parse("978-0-306-40615-7"),
    spine=9.0,
    desk=desk_of(VIOLIN, "4/4", read_layout("ordinary"), "a4", ENGLISH),
)


def boxes_of(pdf: bytes, word: str) -> tuple[float, float, float, float]:
    """Where a word stands the first time: left, foot, right and top in millimetres."""
    with pypdfium2.PdfDocument(pdf) as book:
        text = book[0].get_textpage()
        found = text.search(word).get_next()
        assert found is not None, word
        boxes = [text.get_charbox(at) for at in range(found[0], found[0] + found[1])]
    left, foot, right, top = zip(*boxes, strict=True)
    return min(left) / MM, min(foot) / MM, max(right) / MM, max(top) / MM


def test_front_back_and_spine_stand_where_they_belong() -> None:
    pdf = replace(COVER, spine=5.0).bound()

    with pikepdf.open(BytesIO(pdf)) as book:
        (page,) = book.pages
        size = [float(side) / MM for side in page.trimbox]
        assert size[2:] == pytest.approx([2 * 210 + 5, 297], abs=0.01)
        assert str(book.docinfo["/Title"]) == "First Crossings"
    title, author, back = (boxes_of(pdf, word) for word in ("Crossings", "Harbour", "Drills for"))
    assert 215 < title[0] < title[2] < 425
    assert 215 < author[0] < author[2] < 425
    assert author[3] < 40 < title[1], "the author at the foot"
    assert back[2] < 210


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize(
    "title", [BOOK.title, "Half and whole steps over all the strings, volume 12"]
)
def test_words_stay_in_their_places_on_every_paper(paper: str, title: str) -> None:
    desk = desk_of(VIOLIN, "4/4", read_layout("ordinary"), paper, ENGLISH)
    pdf = replace(COVER, desk=desk, book=msgspec.structs.replace(BOOK, title=title)).bound()

    assert outside(pdf) == []
    assert overprints(pdf) == []


def test_the_spine_is_read_from_above_and_stays_on_it() -> None:
    pdf = COVER.bound()
    with pypdfium2.PdfDocument(pdf) as book:
        text = book[0].get_textpage().get_text_bounded(left=210 * MM, right=219 * MM)
    assert {"First", "Crossings", "Harbour"} <= set(str(text).split())

    seen = dots(pdf)
    spine = np.argwhere(seen[:, round(210 * SCALE) : round(219 * SCALE)] < 128)
    rows, columns = spine[:, 0] / SCALE, spine[:, 1] / SCALE
    assert columns.min() > 1.5
    assert columns.max() < 9 - 1.5
    margins = COVER.desk.sheet.margins
    assert rows.min() == pytest.approx(margins.top, abs=1)
    assert rows.max() == pytest.approx(297 - margins.bottom, abs=1)


SCALE, FINE = 4.0, 10.0
"""Dots in a millimetre; FINE shows each bar in three."""


def dots(pdf: bytes, scale: float = SCALE) -> np.ndarray[tuple[int, ...], np.dtype[np.uint8]]:
    with pypdfium2.PdfDocument(pdf) as book:
        picture = book[0].render(scale=scale / MM, grayscale=True).to_numpy()
    return np.asarray(picture).squeeze()


def test_a_narrow_spine_has_no_words() -> None:
    seen = dots(replace(COVER, spine=5.9).bound())

    assert (seen[:, round(210 * SCALE) : round(215.9 * SCALE)] > 128).all()


@pytest.mark.published("ISO/IEC 15420 (EAN-13), by the reader zxing-cpp")
def test_a_scanner_reads_the_back() -> None:
    (found,) = zxingcpp.read_barcodes(dots(COVER.bound(), FINE))
    assert found.text == "9780306406157"
    assert found.position.bottom_right.x < 210 * FINE


def test_the_press_takes_it_with_marks_for_the_folds() -> None:
    trim = Trim(folds_mm=COVER.folds)
    moment = datetime(2026, 12, 1, tzinfo=UTC)
    pdf = for_press(COVER.bound(), Profile(gray_profile()), moment, trim)

    with pikepdf.open(BytesIO(pdf)) as book:
        assert findings(book) == {}
    seen = dots(pdf)
    height, edge = seen.shape[0], trim.edge / MM
    for x in (edge + 210, edge + 219):
        for rows in (slice(0, round(edge * SCALE)), slice(height - round(edge * SCALE), height)):
            column = seen[rows, round(x * SCALE) - 2 : round(x * SCALE) + 2]
            assert column.min() < 200, "a mark"


def test_what_has_no_room_is_refused() -> None:
    with pytest.raises(NoRoomError, match="back of the cover"):
        replace(COVER, back="A drill. " * 1200).bound()
