"""Whole sheets, read back from the PDF with other libraries."""

from dataclasses import replace
from io import BytesIO
from itertools import pairwise

import pikepdf
import pypdfium2
import pytest
from paper import LADDER, PT_PER_MM, a_plan, fonts_of, stand_in

from bookgen.binder.layout import PAPERS
from bookgen.binder.sheet import Options, bind
from bookgen.plan.document import Plan
from bookgen.readers.instrument import read_instrument
from bookgen.readers.layout import read_layout

LAYOUT = read_layout("ordinary")
WIDEST = {"a4": 180.0, "a5": 126.0, "letter": 180.0, "half-letter": 119.0}


def bound(plan: Plan, paper: str = "a4", studio: str | None = "Harbour Lane Strings") -> bytes:
    drills = sum(len(day.drills) for day in plan.days)
    engraving = stand_in(drills, width_mm=WIDEST[paper])
    options = Options(paper=paper, studio=studio)
    return bind(plan, read_instrument(plan.instrument), engraving, LAYOUT, options)


def texts(pdf: bytes) -> list[str]:
    document = pypdfium2.PdfDocument(pdf)
    return [page.get_textpage().get_text_range() for page in document]


def music_boxes(page: pikepdf.Page) -> list[list[float]]:
    """Left, bottom, right, top of each form on a page, in points."""
    matrix, boxes = [0.0] * 6, []
    for step in pikepdf.parse_content_stream(page):
        if str(step.operator) == "cm":
            matrix = [float(value) for value in step.operands]
        elif str(step.operator) == "Do":
            form = page.resources["/XObject"][str(step.operands[0])]
            box = [float(edge) for edge in form["/BBox"]]
            shift = (matrix[4], matrix[5]) * 2
            boxes.append([edge + by for edge, by in zip(box, shift, strict=True)])
    return boxes


def boxes_of_first_page(pdf: bytes) -> list[float]:
    with pikepdf.open(BytesIO(pdf)) as book:
        return [edge for box in music_boxes(book.pages[0]) for edge in box]


@pytest.mark.parametrize("paper", sorted(PAPERS))
@pytest.mark.parametrize("instrument", ["violin", "viola"])
def test_every_drill_lies_whole_inside_the_margins(paper: str, instrument: str) -> None:
    pdf = bound(a_plan(instrument=instrument), paper)
    sheet = LAYOUT.sheet(paper)
    found = 0
    with pikepdf.open(BytesIO(pdf)) as book:
        for page in book.pages:
            size = [float(edge) / PT_PER_MM for edge in page.mediabox[2:]]
            assert size == pytest.approx(PAPERS[paper], abs=0.05)
            for left, bottom, right, top in music_boxes(page):
                assert left / PT_PER_MM >= sheet.margins.left - 0.3
                assert right / PT_PER_MM <= sheet.width - sheet.margins.right + 0.3
                assert top / PT_PER_MM <= sheet.top
                assert bottom / PT_PER_MM >= sheet.bottom
                found += 1
    assert found == len(LADDER)


def test_no_two_drills_cover_each_other_and_their_ticks_stay_with_them() -> None:
    pdf = bound(a_plan())
    with pikepdf.open(BytesIO(pdf)) as book:
        for page in book.pages:
            boxes = sorted(music_boxes(page), key=lambda box: -box[3])
            for above, below in pairwise(boxes):
                assert below[3] < above[1] - 40 * PT_PER_MM, "words and chart stand between"
    for text in texts(pdf):
        assert text.count("Played") == text.count("not yet") - 1, "the foot says it once more"


def test_five_drills_make_two_full_pages_on_a4() -> None:
    pages = texts(bound(a_plan()))

    assert len(pages) == 2
    assert [page.count("Played") for page in pages] == [3, 2]
    assert "1 of 2" in pages[0]
    assert "2 of 2" in pages[1]


def test_the_words_can_be_searched() -> None:
    first, *_ = texts(bound(a_plan()))

    for words in (
        "Ines",
        "Tuesday, 1 December 2026",
        "10 minutes",
        "Harbour Lane Strings",
        "Fingers 1 and 2, a whole step apart",
        "Like the drill before 2",
        "actual size",
        "Not secure? Go back to No. 1.",
        "Stop at once if anything hurts",
    ):
        assert words in first


def test_fonts_are_embedded_and_the_file_is_sound() -> None:
    pdf = bound(a_plan())

    names = [name for name, _ in fonts_of(pdf)]
    assert any("PTSerif" in name for name in names)
    assert all(embedded for _, embedded in fonts_of(pdf))
    with pikepdf.open(BytesIO(pdf)) as book:
        assert book.check_pdf_syntax() == []


def test_the_same_plan_makes_the_same_bytes() -> None:
    assert bound(a_plan()) == bound(a_plan())


def test_days_and_drills_make_the_outline_and_the_labels() -> None:
    pdf = bound(a_plan(LADDER[:2], days=2))

    toc = [(e.level, e.get_title()) for e in pypdfium2.PdfDocument(pdf).get_toc()]
    assert [title for level, title in toc if level == 0] == [
        "Tuesday, 1 December 2026",
        "Wednesday, 2 December 2026",
    ]
    assert sum(level == 1 for level, _ in toc) == 4
    with pikepdf.open(BytesIO(pdf)) as book:
        assert [page.label for page in book.pages] == ["2026-12-01 · 1", "2026-12-02 · 1"]
        assert "Tuesday, 1 December 2026 to Wednesday" in str(book.docinfo["/Title"])


HOSTILE = (
    'Ines "Q" {#(system "x")} \\markup $x <b>&amp;</para> %',
    "<img src='file:/etc/passwd'/>{{ 7 * 7 }}{% raw %}",
    "שלום Ines سعد",
    "😀🎻\x00\x07\u202e\ufeff",
    "W" * 500,
    "漢字かな",
    "a\u0301\u0302\u0303" * 40,
)


@pytest.mark.parametrize("name", HOSTILE)
@pytest.mark.parametrize("paper", ["a4", "a5"])
def test_no_name_breaks_a_page(name: str, paper: str) -> None:
    plain = bound(a_plan(LADDER[:1]), paper)
    pdf = bound(a_plan(LADDER[:1], player=name), paper, studio=name)

    assert len(pypdfium2.PdfDocument(pdf)) == len(pypdfium2.PdfDocument(plain))
    assert all(embedded for _, embedded in fonts_of(pdf))
    assert boxes_of_first_page(pdf) == pytest.approx(boxes_of_first_page(plain))
    with pikepdf.open(BytesIO(pdf)) as book:
        assert book.check_pdf_syntax() == []
        assert "/Annots" not in book.pages[0]


def test_a_name_is_printed_as_it_is_written() -> None:
    name = 'Ines "Q" {#(x)} \\y <b>&amp;'
    (page,) = texts(bound(a_plan(LADDER[:1], player=name)))

    assert name in page


def test_without_a_player_there_is_room_for_the_name() -> None:
    (page,) = texts(bound(a_plan(LADDER[:1], player=None), studio=None))

    assert page.startswith("Name")


def test_another_plans_engraving_is_refused() -> None:
    plan = a_plan()
    violin = read_instrument("violin")
    with pytest.raises(ValueError, match="5 drills planned, 4 engraved"):
        bind(plan, violin, stand_in(4), LAYOUT, Options())
    with pytest.raises(ValueError, match="does not fit"):
        bind(plan, violin, stand_in(5, height_mm=250.0), LAYOUT, Options())
    with pytest.raises(ValueError, match="no size of the violin"):
        bind(replace(plan, size="9/8"), violin, stand_in(5), LAYOUT, Options())
