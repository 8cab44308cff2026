"""Whole booklets, read back from the PDF with other libraries."""

import re
from functools import cache
from io import BytesIO

import msgspec
import pikepdf
import pypdfium2
import pytest
from kit.days_plan import a_desk
from kit.month_plan import STUDIO, a_coverage, a_month, bound_with
from kit.paper import PT_PER_MM, fonts_of, stand_in

from bookgen.binder.books.booklet import bind_booklet, bind_summary, scores_of
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.imposition import MOST_SHEETS, PAGES_ON_A_SHEET
from bookgen.binder.page.paper import PAPERS
from bookgen.notation.engraved import Engraving
from bookgen.plan.document import Plan

MUSIC_MM = 26.0
MONTH = a_month(24)


def music_for(plan: Plan, desk: Desk, high: float = MUSIC_MM) -> Engraving:
    """Stand-in music that has room, so many millimetres high."""
    scores = scores_of(plan, desk)
    width = min(score.width_mm for score in scores) - 0.5
    return stand_in(len(scores), width_mm=width, height_mm=high)


def bound(plan: Plan = MONTH, paper: str = "a4") -> bytes:
    desk = a_desk(paper)
    return bind_booklet(plan, music_for(plan, desk), desk)


@cache
def month_bound(paper: str = "a4", **changes: object) -> bytes:
    return bound(bound_with(MONTH, **changes), paper)


def texts(pdf: bytes) -> list[str]:
    document = pypdfium2.PdfDocument(pdf)
    found = [" ".join(page.get_textpage().get_text_range().split()) for page in document]
    document.close()
    return found


def parts(pdf: bytes) -> dict[str, int]:
    """Titles of the parts with their pages, from 1."""
    document = pypdfium2.PdfDocument(pdf)
    found = {
        mark.get_title(): mark.get_dest().get_index() + 1
        for mark in document.get_toc()
        if mark.level == 0
    }
    document.close()
    return found


def outline(pdf: bytes, level: int) -> list[tuple[str, int]]:
    document = pypdfium2.PdfDocument(pdf)
    found = [
        (mark.get_title(), mark.get_dest().get_index())
        for mark in document.get_toc()
        if mark.level == level
    ]
    document.close()
    return found


def music_on(pdf: bytes) -> list[list[float]]:
    """For every page the left edges of the music on it, in millimetres."""
    found = []
    with pikepdf.open(BytesIO(pdf)) as book:
        for page in book.pages:
            matrix: list[float] = []
            lefts = []
            for step in pikepdf.parse_content_stream(page):
                if str(step.operator) == "cm":
                    matrix = [float(value) for value in step.operands]
                elif str(step.operator) == "Do":
                    box = page.resources["/XObject"][str(step.operands[0])]["/BBox"]
                    lefts.append((float(box[0]) + matrix[4]) / PT_PER_MM)
            found.append(lefts)
    return found


@pytest.mark.parametrize("paper", PAPERS)
def test_the_parts_come_in_their_order(paper: str) -> None:
    found = parts(month_bound(paper))
    assert list(found) == [
        "December 2026",
        "How to use this booklet",
        "Plan of days",
        "Drills by number",
        "Index of intervals",
    ]
    assert sorted(found.values()) == list(found.values())


def test_each_drill_stands_once_in_the_order_of_the_numbers() -> None:
    numbers = [int(title.split(" ")[0]) for title, _ in outline(month_bound(), 1)]
    assert numbers == [entry.number for entry in MONTH.drills]
    counted = sum(map(len, music_on(month_bound())))
    stages = {entry.stage for entry in MONTH.drills}
    assert counted == len(MONTH.drills) + len(stages), "one more for each stage at the front"


def test_every_entry_of_the_outline_leads_to_its_page() -> None:
    words = texts(month_bound())
    for title, page in outline(month_bound(), 1):
        number = title.split(" ")[0]
        assert re.search(rf"(?<!\d){number}(?!\d)", words[page]), title


@pytest.mark.parametrize("paper", PAPERS)
def test_the_printed_number_is_the_pages_own_and_stands_outside(paper: str) -> None:
    document = pypdfium2.PdfDocument(month_bound(paper))
    width = PAPERS[paper][0]
    start = parts(month_bound(paper))["Drills by number"]
    for page in range(start, len(document) + 1):
        outer = (0, 25) if page % 2 == 0 else (width - 25, width)
        words = (
            document[page - 1]
            .get_textpage()
            .get_text_bounded(
                left=outer[0] * PT_PER_MM, right=outer[1] * PT_PER_MM, bottom=0, top=20 * PT_PER_MM
            )
        )
        assert str(page) in words.split()
        assert document.get_page_label(page - 1) == str(page)
    document.close()


def test_the_cover_names_the_pages_of_the_parts() -> None:
    cover = texts(month_bound())[0]
    for title, page in list(parts(month_bound()).items())[1:]:
        assert f"{title} {page}" in cover


def test_the_teachers_summary_is_a_page_of_its_own() -> None:
    assert "Summary for the teacher" not in " ".join(texts(month_bound()))
    plan = bound_with(MONTH, coverage=a_coverage((2, 6), (8, 9)))
    (page,) = texts(bind_summary(plan, a_desk()))
    assert "Summary for the teacher" in page
    assert "Ines · December 2026" in page
    assert "10 of 20 were secure before" in page


def test_a_map_is_bound_where_it_says_something() -> None:
    assert "Map of the fingerboard" not in parts(month_bound())
    full = month_bound(coverage=a_coverage((10, 10), (10, 10)))
    assert "Map of the fingerboard" not in parts(full)
    some = month_bound(coverage=a_coverage((2, 6), (8, 9)))
    assert list(parts(some))[-2:] == ["Map of the fingerboard", "Index of intervals"]


def test_few_drills_have_no_index() -> None:
    assert list(parts(bound(a_month(6))))[-1] == "Drills by number"


def test_day_by_day_each_day_has_its_drills() -> None:
    pdf = month_bound(by_day=True)
    days = [title for title, _ in outline(pdf, 1)]
    assert len(days) == len(MONTH.days)
    assert days[0] == "Tuesday 1 December · 10 minutes"
    numbers = [int(title.split(" ")[0]) for title, _ in outline(pdf, 2)]
    assert numbers == [item.number for _, item, _ in MONTH.items()]


def test_from_memory_the_notation_stands_among_the_answers_only() -> None:
    pdf = month_bound(from_memory=True)
    start = parts(pdf)["Answers"]
    with_music = [page for page, lefts in enumerate(music_on(pdf), start=1) if lefts]
    assert with_music[0] == start
    assert sum(map(len, music_on(pdf))) == len(MONTH.drills)


@pytest.mark.parametrize("paper", PAPERS)
def test_all_music_lies_inside_the_mirrored_margins(paper: str) -> None:
    sheet = a_desk(paper).sheet
    for page, lefts in enumerate(music_on(month_bound(paper))):
        margins = sheet.mirrored.margins if page % 2 else sheet.margins
        assert all(left >= margins.left - 0.3 for left in lefts)


def test_six_drills_and_more_share_a_large_page() -> None:
    counts = [len(lefts) for lefts in music_on(month_bound())[3:]]
    drills = [count for count in counts if count]
    assert len(MONTH.drills) / len(drills) >= 6


def test_a_short_booklet_is_folded_as_one() -> None:
    pdf = month_bound("a5", fold=True)
    document = pypdfium2.PdfDocument(pdf)
    assert len(document) == 2 * -(-len(texts(month_bound("a5"))) // PAGES_ON_A_SHEET)
    assert document.get_page_label(0) == "1r"
    document.close()


def test_a_long_one_is_folded_in_sections_each_with_its_own_plan_of_days() -> None:
    plan = bound_with(a_month(120), fold=True)
    desk = a_desk("a5")
    pdf = bind_booklet(plan, music_for(plan, desk, high=50.0), desk)
    document = pypdfium2.PdfDocument(pdf)
    labels = [document.get_page_label(side) for side in range(len(document))]
    document.close()
    sheets: dict[str, set[str]] = {}
    for label in labels:
        section, sheet = label[:-1].split(".")
        sheets.setdefault(section, set()).add(sheet)
    assert len(sheets) > 1
    assert all(len(found) <= MOST_SHEETS for found in sheets.values())
    words = texts(pdf)
    firsts = [words[labels.index(f"{section}.1r")] for section in sheets]
    assert all("not yet" in first for first in firsts[1:]), "a plan is its first page"
    assert "Plan of days, " in firsts[0]


def test_fonts_are_embedded_and_the_file_is_sound() -> None:
    pdf = month_bound()
    assert all(embedded for _, embedded in fonts_of(pdf))
    with pikepdf.open(BytesIO(pdf)) as book:
        assert book.check_pdf_syntax() == []
        assert str(book.docinfo["/Title"]) == "Ines · December 2026"


def test_the_same_plan_makes_the_same_bytes() -> None:
    assert bound() == bound()


@pytest.mark.parametrize("player", [None, "W" * 400, "שלום", "<b>{{ 7 }}</b>", "漢\x00字"])
def test_no_name_breaks_a_booklet(player: str | None) -> None:
    plan = msgspec.structs.replace(MONTH, player=player)
    pdf = bound(bound_with(plan, note="a\n\nb <i>" * 90))
    assert len(texts(pdf)) == len(texts(month_bound()))
    assert all(embedded for _, embedded in fonts_of(pdf))


@pytest.mark.parametrize("days", [1, 2, 7])
@pytest.mark.parametrize("paper", PAPERS)
def test_short_booklets_have_their_parts(paper: str, days: int) -> None:
    found = parts(bound(a_month(5, days=days), paper))
    assert list(found)[-2:] == ["Plan of days", "Drills by number"]


def test_a_studio_is_named_on_every_page() -> None:
    assert all(STUDIO in text for text in texts(month_bound()))


def test_another_plans_engraving_is_refused() -> None:
    with pytest.raises(ValueError, match="24 drills planned, 4 engraved"):
        bind_booklet(MONTH, stand_in(4), a_desk())
