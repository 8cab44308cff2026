"""Whole booklets, read back from the PDF with other libraries."""

import re
from collections.abc import Sequence
from io import BytesIO
from itertools import pairwise

import pikepdf
import pytest
from booklets import (
    STUDIO,
    a_month,
    bound,
    desk,
    furniture,
    labels,
    month_bound,
    month_of,
    music_for,
    outline,
    pages,
    texts,
    views,
    words,
)
from paper import PT_PER_MM, fonts_of, stand_in, violin

from bookgen.binder import booklet
from bookgen.binder.booklet import BookletFacts, bind_booklet, week_pages
from bookgen.binder.desk import Options
from bookgen.binder.flow import Book, Entry
from bookgen.binder.layout import PAPERS
from bookgen.binder.leaf import Leaf
from bookgen.readers.layout import read_layout

LAYOUT = read_layout("ordinary")


def forms(page: pikepdf.Page) -> list[list[float]]:
    """Left, bottom, right, top of each piece of music on a page, in millimetres."""
    matrix, found = [0.0] * 6, []
    for step in pikepdf.parse_content_stream(page):
        if str(step.operator) == "cm":
            matrix = [float(value) for value in step.operands]
        elif str(step.operator) == "Do":
            box = page.resources["/XObject"][str(step.operands[0])]["/BBox"]
            shift = (matrix[4], matrix[5]) * 2
            found.append(
                [(float(edge) + by) / PT_PER_MM for edge, by in zip(box, shift, strict=True)]
            )
    return found


def test_the_parts_come_in_their_order() -> None:
    found = outline(month_bound())
    parts = [title for level, title, _ in found if level == 0]

    assert parts == [
        "December 2026",
        "How to use this booklet",
        "Week 1: 1 to 6 December",
        "Week 2: 7 to 13 December",
        "Week 3: 14 to 20 December",
        "Week 4: 21 to 27 December",
        "Week 5: 28 to 31 December",
        "Map of the fingerboard",
        "Index of intervals",
        "Log",
        "Summary for the teacher",
    ]
    assert [page for _, _, page in found] == sorted(page for _, _, page in found)


def test_weeks_hold_days_and_days_hold_drills() -> None:
    plan = a_month()
    found = outline(month_bound())

    days = [title for level, title, _ in found if level == 1]
    drills = [title for level, title, _ in found if level == 2]
    assert days[0] == "Tuesday, 1 December"
    assert len(days) == len(plan.days)
    assert [int(title.split(" ")[0]) for title in drills] == [
        planned.number for day in plan.days for planned in day.drills
    ]
    for (before, _, _), (level, _, _) in pairwise(found):
        assert level <= before + 1


def test_every_entry_of_the_outline_leads_to_its_page() -> None:
    words = texts(month_bound())

    for level, title, page in outline(month_bound()):
        if level == 2:
            number = title.split(" ")[0]
            assert re.search(rf"(?<!\d){number}(?!\d)", words[page]), title
        elif level == 1:
            assert title in words[page]


@pytest.mark.parametrize("paper", sorted(PAPERS))
def test_right_hand_pages_are_odd(paper: str) -> None:
    found = labels(month_bound(paper))
    roman = [label for label in found if not label.isdigit()]

    assert found[0] == "i"
    assert len(roman) % 2 == 0
    assert found[len(roman) :] == [str(n) for n in range(1, len(found) - len(roman) + 1)]
    for page, label in enumerate(found):
        if label.isdigit():
            assert (int(label) % 2 == 1) == (page % 2 == 0)


@pytest.mark.parametrize("paper", sorted(PAPERS))
def test_the_printed_number_is_the_label_and_stands_outside(paper: str) -> None:
    import pypdfium2  # noqa: PLC0415

    pdf = month_bound(paper)
    found = labels(pdf)
    document = pypdfium2.PdfDocument(pdf)
    width, height = PAPERS[paper]
    for page in (1, len(found) - 2, len(found) - 1):
        foot = 12.0 * PT_PER_MM
        left = page % 2 == 1
        outer = (0, 25) if left else (width - 25, width)
        text = document[page].get_textpage()
        words = text.get_text_bounded(
            left=outer[0] * PT_PER_MM, right=outer[1] * PT_PER_MM, bottom=0, top=foot * 1.6
        )
        assert found[page] in words.split(), (page, height)


@pytest.mark.parametrize("paper", sorted(PAPERS))
@pytest.mark.parametrize("from_memory", [False, True])
def test_all_music_lies_inside_the_mirrored_margins(paper: str, *, from_memory: bool) -> None:
    pdf = month_bound(paper, from_memory=from_memory)
    sheet = LAYOUT.sheet(paper)
    count = 0
    with pikepdf.open(BytesIO(pdf)) as book:
        for number, page in enumerate(book.pages):
            inner, outer = sheet.margins.left, sheet.margins.right
            least = outer if number % 2 else inner
            boxes = sorted(forms(page), key=lambda box: -box[3])
            for left, bottom, right, top in boxes:
                assert left >= least - 0.3
                assert right <= least + sheet.column + 0.3
                assert top <= sheet.top
                assert bottom >= sheet.bottom
            for above, below in pairwise(boxes):
                assert below[3] < above[1]
            count += len(boxes)
    plan = month_of(paper, from_memory=from_memory)
    drills = [planned.drill for day in plan.days for planned in day.drills]
    assert count == (len(set(drills)) if from_memory else len(drills))


def test_from_memory_the_notation_stands_at_the_end_only() -> None:
    pdf = month_bound(from_memory=True)
    start = next(page for _, title, page in outline(pdf) if title == "Answers")
    end = next(page for _, title, page in outline(pdf) if title == "Log")
    words = " ".join(texts(pdf)[start:end])

    with pikepdf.open(BytesIO(pdf)) as book:
        with_music = [number for number, page in enumerate(book.pages) if forms(page)]
    assert with_music == list(range(start, end))
    told = {
        int(number) for part in re.findall(r"No\. ([\d, ]+)", words) for number in part.split(",")
    }
    plan = month_of(from_memory=True)
    assert told == {planned.number for day in plan.days for planned in day.drills}


def test_two_drills_share_a_small_page_and_four_a_large_one() -> None:
    for paper, most in (("a5", 2), ("half-letter", 2), ("a4", 4), ("letter", 4)):
        with pikepdf.open(BytesIO(month_bound(paper))) as book:
            counts = [len(found) for page in book.pages if (found := forms(page))]
        weeks = 2 if paper != "a5" else 5
        assert max(counts) == most
        assert len(counts) <= sum(counts) / most + weeks, "a week may end with a page not full"


def test_no_word_is_missing_and_nothing_is_left_of_the_templates() -> None:
    for text in texts(month_bound()):
        assert "{{" not in text
        assert "None" not in text
        assert "\N{WHITE SQUARE}" not in text
    every = " ".join(texts(month_bound()))
    for said in (
        STUDIO,
        "Listen first.",
        "Stop at once if anything hurts or goes numb",
        "Warm up with movement",
        "five minutes in each half hour",
        "Open the hand only as far as it goes by itself",
        "a medical professional",
        "Only if No. 2 is secure.",
        "Known moves, new order.",
        "One step easier.",
        "Review.",
        "New moves.",
        "First try",
        "lighter day",
        "four items, played once, the first try counts",
    ):
        assert said in every, said


def test_fonts_are_embedded_and_the_file_is_sound() -> None:
    pdf = month_bound()

    assert all(embedded for _, embedded in fonts_of(pdf))
    with pikepdf.open(BytesIO(pdf)) as book:
        assert book.check_pdf_syntax() == []
        assert str(book.docinfo["/Title"]) == "Ines · December 2026"


def test_the_same_plan_makes_the_same_bytes() -> None:
    assert len({bound(a_month(7)) for _ in range(2)}) == 1


@pytest.mark.parametrize("player", [None, "W" * 400, "שלום", "<b>{{ 7 }}</b>", "漢\x00字"])
def test_no_name_breaks_a_booklet(player: str | None) -> None:
    facts = BookletFacts("December\n2026 {{ x }}", note="a\n\nb <i>" * 90)
    pdf = bound(a_month(3, player=player), facts=facts)

    assert len(texts(pdf)) == len(texts(bound(a_month(3))))
    assert all(embedded for _, embedded in fonts_of(pdf))


@pytest.mark.parametrize("days", [1, 2, 7])
@pytest.mark.parametrize("paper", ["a4", "a5"])
def test_short_booklets_have_all_parts(paper: str, days: int) -> None:
    titles = [title for level, title, _ in outline(bound(a_month(days), paper)) if level == 0]

    assert titles[-4:] == [
        "Map of the fingerboard",
        "Index of intervals",
        "Log",
        "Summary for the teacher",
    ]


def test_numbers_may_have_four_digits() -> None:
    pdf = bound(a_month(4, first_number=1998))

    assert "2003" in " ".join(texts(pdf))


def test_another_plans_engraving_is_refused() -> None:
    plan = a_month(3)
    facts = BookletFacts("x")
    options = Options(paper="a5")
    with pytest.raises(ValueError, match="15 drills planned, 4 engraved"):
        bind_booklet(plan, violin(), stand_in(4), LAYOUT, options, facts)
    with pytest.raises(ValueError, match="does not fit"):
        bind_booklet(plan, violin(), stand_in(15, height_mm=150.0), LAYOUT, options, facts)
    with pytest.raises(ValueError, match="mm wide does not fit"):
        bind_booklet(plan, violin(), music_for(plan, "a5"), LAYOUT, Options(paper="a4"), facts)


def test_the_contents_name_the_pages_of_the_parts() -> None:
    pdf = month_bound()
    front = " ".join(texts(pdf)[:4])
    found = labels(pdf)

    for level, title, page in outline(pdf):
        if level == 0 and found[page].isdigit():
            assert re.search(rf"{re.escape(title)} {found[page]}(?!\d)", front), title


def test_the_desk_of_a_booklet_is_closer() -> None:
    assert desk("a5").layout.block.plays < LAYOUT.block.plays


def test_the_days_of_a_week_know_on_which_side_they_begin(monkeypatch: pytest.MonkeyPatch) -> None:
    sides: list[bool] = []

    def one_page(_book: Book, _entries: Sequence[Entry], *, verso: bool) -> list[Leaf]:
        sides.append(verso)
        return [Leaf("x", (), lambda _canvas, _side: ())] * (len(sides) % 2)

    monkeypatch.setattr(booklet, "week_leaves", one_page)
    plan = a_month(31)
    music = music_for(plan).drills
    found = Book(plan, furniture(plan), pages(plan), music, views(plan), from_memory=False)
    list(week_pages(found, words(plan), BookletFacts("x")))

    assert sides == [True, True, False, False, True], "each after its week's own page"
