"""What a page looks like on its sheet for the press, and what is refused there."""

from collections.abc import Sequence
from datetime import UTC, datetime
from decimal import Decimal
from io import BytesIO

import numpy as np
import numpy.typing as npt
import pikepdf
import pypdfium2
import pytest
from kit.books import a_sheet
from kit.refusing import refused
from kit.shorthand import VIOLIN

from bookgen.binder.page.desk import desk_of
from bookgen.binder.prepress.for_press import for_press
from bookgen.binder.prepress.gray_profile import gray_profile
from bookgen.binder.prepress.icc import Profile
from bookgen.binder.prepress.ink import FINEST_PT, finer
from bookgen.binder.prepress.trim import Trim
from bookgen.readers.layout import read_layout
from bookgen.words.speech import ENGLISH

MM = 72 / 25.4
MOMENT = datetime(2026, 12, 1, tzinfo=UTC)
GRAY = Profile(gray_profile())
Dots = npt.NDArray[np.uint8]
Where = npt.NDArray[np.bool_]
BLACK, LIGHT = 80, 180
EDGE_PX = 50
"""How many dots the border of a sheet has where it is rendered: pages lie on whole dots."""


def book_of(*drawings: str, size: tuple[float, float] = (300, 400)) -> bytes:
    """A page for each drawing."""
    with pikepdf.new() as book:
        for drawing in drawings:
            book.add_blank_page(page_size=size).contents_add(drawing.encode())
        out = BytesIO()
        book.save(out)
    return out.getvalue()


def is_number(thing: object) -> bool:
    return isinstance(thing, int | float | Decimal)


def steps(pdf: bytes, page: int = 0) -> list[tuple[str, list[float]]]:
    """What a page draws."""
    with pikepdf.open(BytesIO(pdf)) as book:
        return [
            (str(step.operator), [float(one) for one in step.operands if is_number(one)])
            for step in pikepdf.parse_content_stream(book.pages[page])
        ]


def dots(pdf: bytes, page: int, scale: float) -> Dots:
    """A page as an eye sees it."""
    with pypdfium2.PdfDocument(pdf) as book:
        return np.asarray(book[page].render(scale=scale, grayscale=True).to_numpy()).squeeze()


def around(dots: Where) -> Where:
    """Those dots and their neighbours: a sheet lies a part of a dot beside its page."""
    moved = [np.roll(dots, (down, right), (0, 1)) for down in (-1, 0, 1) for right in (-1, 0, 1)]
    return np.asarray(np.logical_or.reduce(moved))


def test_the_page_is_the_trim_and_the_boxes_lie_around_it() -> None:
    with pikepdf.open(BytesIO(for_press(book_of("0 g"), GRAY, MOMENT))) as made:
        page = made.pages[0].obj
        boxes = [[float(side) for side in page[key]] for key in ("/TrimBox", "/BleedBox")]

        trim, bleed = boxes
        assert (trim[2] - trim[0], trim[3] - trim[1]) == pytest.approx((300, 400), abs=1e-3)
        assert [a - b for a, b in zip(trim, bleed, strict=True)] == pytest.approx(
            [3 * MM, 3 * MM, -3 * MM, -3 * MM], abs=1e-3
        )


@pytest.mark.parametrize("corner", [0.0, 20.0])
def test_what_was_drawn_lies_where_it_lay_on_the_trimmed_page(corner: float) -> None:
    book = pikepdf.open(BytesIO(book_of("10 w 0 G 100 100 m 200 100 l S")))
    book.pages[0].obj["/TrimBox"] = pikepdf.Array([corner, corner, 300, 400])
    out = BytesIO()
    book.save(out)

    scale = EDGE_PX / Trim().edge
    made = dots(for_press(out.getvalue(), GRAY, MOMENT), 0, scale)
    dark = np.argwhere(made[EDGE_PX:-EDGE_PX, EDGE_PX:-EDGE_PX] < 128)
    height = (400 - corner) * scale
    assert dark[:, 1].min() == pytest.approx((100 - corner) * scale, abs=1.5)
    assert height - dark[:, 0].mean() == pytest.approx((100 - corner) * scale, abs=1.5)


@pytest.mark.parametrize("page", [0, 1])
def test_a_page_in_black_is_printed_as_it_was(page: int) -> None:
    desk = desk_of(VIOLIN, "4/4", read_layout("ordinary"), "a4", ENGLISH, "Harbour Lane Strings")
    pdf = a_sheet(desk, "Jo")
    scale = EDGE_PX / Trim().edge
    before, after = dots(pdf, page, scale), dots(for_press(pdf, GRAY, MOMENT), page, scale)

    high, wide = before.shape
    kept = after[-EDGE_PX - high : -EDGE_PX, EDGE_PX : EDGE_PX + wide]
    for one, other in ((before, kept), (kept, before)):
        assert not ((one < BLACK) & ~around(other < LIGHT)).any()
        assert not ((one > LIGHT) & ~around(other > BLACK)).any(), "white on black stays white"
    assert (before < BLACK).mean() > 0.01, "something is printed there"


@pytest.mark.parametrize("bleed_mm", [0.0, 3.0, 5.0])
def test_marks_are_in_line_with_the_trim_and_outside_of_the_bleed(bleed_mm: float) -> None:
    trim = Trim(bleed_mm)
    boxes = trim.boxes(300, 400)
    left, bottom, right, top = boxes["/TrimBox"]
    outer = boxes["/BleedBox"]
    lines = list(trim.crops(300, 400))

    assert len(lines) == 8
    for x, y, x_end, y_end in lines:
        assert abs(x - x_end) + abs(y - y_end) == pytest.approx(5 * MM)
        upright = x == pytest.approx(x_end)
        assert min(abs(x - left), abs(x - right)) < 0.001 if upright else True
        assert min(abs(y - bottom), abs(y - top)) < 0.001 if not upright else True
        ends = (y, y_end) if upright else (x, x_end)
        low, high = (outer[1], outer[3]) if upright else (outer[0], outer[2])
        assert max(ends) <= low - 0.99 * MM or min(ends) >= high + 0.99 * MM
        assert min(ends) >= 0


def test_without_marks_the_sheet_ends_with_the_bleed() -> None:
    made = for_press(book_of("0 g"), GRAY, MOMENT, Trim(3.0, marks=False))

    with pikepdf.open(BytesIO(made)) as book:
        page = book.pages[0].obj
        assert list(page["/MediaBox"]) == list(page["/BleedBox"])
    assert [one for one, _ in steps(made) if one == "S"] == []


def drawn_lines(pdf: bytes) -> Sequence[tuple[float, float]]:
    """Gray and width of each line, without the crop marks."""
    gray, width = 0.0, 1.0
    kept, found = [], []
    for operator, operands in steps(pdf):
        if operator == "q":
            kept.append((gray, width))
        elif operator == "Q":
            gray, width = kept.pop()
        elif operator == "G":
            gray = operands[0]
        elif operator == "w":
            width = operands[0]
        elif operator == "S":
            found.append((gray, width))
    return found[:-8]


def test_a_screened_line_becomes_solid_and_finer() -> None:
    pencil = ".8 w .5 G 0 0 m 9 9 l S q 2 w .6 G 0 0 m 9 9 l S Q 1 1 m 9 9 l S"
    black = " 0 G 1 1 m 9 9 l S .7 w 1 1 m 9 9 l S 1 G 0 0 m 9 9 l S"

    found = drawn_lines(for_press(book_of(pencil + black), GRAY, MOMENT))
    assert [gray for gray, _ in found] == [0, 0, 0, 0, 0, 1]
    assert [width for _, width in found] == pytest.approx([0.4, 0.8, 0.4, 0.8, 0.7, 0.7])


@pytest.mark.parametrize("gray", [0.45, 0.5, 0.6, 0.7])
def test_a_finer_line_weighs_what_the_gray_one_weighed(gray: float) -> None:
    assert finer(1.134, gray) == pytest.approx(1.134 * (1 - gray))
    assert finer(0.3, gray) == FINEST_PT
    assert finer(0.1, gray) == 0.1, "never wider than it was"


@pytest.mark.parametrize(
    ("drawing", "problem"),
    [
        ("1 0 0 rg 0 0 9 9 re f", "page 1 is drawn in colour"),
        ("0 0 0 1 K 0 0 m 9 9 l S", "page 1 is drawn in colour"),
        ("BI /W 1 /H 1 /CS /G /BPC 8 ID 0 EI", "page 1 has a picture in dots"),
    ],
)
def test_ink_other_than_black_is_refused(drawing: str, problem: str) -> None:
    with refused(problem):
        for_press(book_of(drawing), GRAY, MOMENT)


@pytest.mark.parametrize(
    ("place", "thing", "problem"),
    [
        ("/ExtGState", pikepdf.Dictionary(ca=0.5), "shine through"),
        ("/ExtGState", pikepdf.Dictionary(BM=pikepdf.Name.Multiply), "shine through"),
        ("/ExtGState", pikepdf.Dictionary(OP=True), "prints over"),
        ("/XObject", pikepdf.Dictionary(Subtype=pikepdf.Name.Image), "a picture in dots"),
    ],
)
def test_what_a_page_holds_is_refused(place: str, thing: pikepdf.Object, problem: str) -> None:
    out = BytesIO()
    with pikepdf.open(BytesIO(book_of("0 g"))) as book:
        book.pages[0].obj["/Resources"] = pikepdf.Dictionary()
        book.pages[0].resources[place] = pikepdf.Dictionary(One=thing)
        book.save(out)

    with refused(problem):
        for_press(out.getvalue(), GRAY, MOMENT)


@pytest.mark.parametrize(
    ("font", "problem"),
    [
        (pikepdf.Dictionary(BaseFont=pikepdf.Name("/Serif")), "is not in the file"),
        (
            pikepdf.Dictionary(
                BaseFont=pikepdf.Name("/Serif"),
                FontDescriptor=pikepdf.Dictionary(FontFile2=pikepdf.Array()),
            ),
            "is not cut to its letters",
        ),
    ],
)
def test_a_face_that_is_not_there_is_refused(font: pikepdf.Dictionary, problem: str) -> None:
    out = BytesIO()
    with pikepdf.open(BytesIO(book_of("0 g"))) as book:
        font["/Type"], font["/Subtype"] = pikepdf.Name.Font, pikepdf.Name.TrueType
        held = pikepdf.Dictionary(F1=book.make_indirect(font))
        book.pages[0].obj["/Resources"] = pikepdf.Dictionary(Font=held)
        book.save(out)

    with refused(problem):
        for_press(out.getvalue(), GRAY, MOMENT)


def test_pages_of_two_sizes_are_no_block() -> None:
    with pikepdf.open(BytesIO(book_of("0 g"))) as book:
        book.add_blank_page(page_size=(300, 300))
        out = BytesIO()
        book.save(out)

    with refused("page 2 has another size than page 1"):
        for_press(out.getvalue(), GRAY, MOMENT)
