"""A page for a lesson: one page, and what has no room is counted."""

import re
from io import BytesIO

import pypdfium2
import pytest
from kit.faring import DAY, LessonFacts, a_lesson_of, fared
from kit.month_plan import a_month
from kit.shorthand import VIOLIN

from bookgen.binder.books.lesson import bind_lesson
from bookgen.binder.page.desk import Desk, desk_of
from bookgen.binder.page.paper import PAPERS
from bookgen.plan.ahead import Further
from bookgen.readers.layout import layout_names, read_layout
from bookgen.words.lesson import Coming
from bookgen.words.speech import ENGLISH


def desk(layout: str = "ordinary", paper: str = "a4") -> Desk:
    return desk_of(VIOLIN, "4/4", read_layout(layout), paper, ENGLISH, "Harbour Lane Strings")


def pages(lesson: LessonFacts, at: Desk) -> list[str]:
    document = pypdfium2.PdfDocument(
        BytesIO(bind_lesson([*lesson.sections(ENGLISH)], "Ines", DAY, at))
    )
    return [" ".join(page.get_textpage().get_text_range().split()) for page in document]


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("layout", layout_names())
def test_a_page_is_one_page_or_two_in_large_print_on_half_of_the_paper(
    layout: str, paper: str
) -> None:
    found = pages(a_lesson_of(60), desk(layout, paper))
    assert len(found) == 1 + (layout == "large-print" and paper in {"a5", "half-letter"})
    page = " ".join(found)
    for part in ("Last results", "Shaky", "Secure", "Next: Thu 3 Dec", "Went well"):
        assert part in page


def test_what_has_no_room_is_counted() -> None:
    lesson = a_lesson_of(60)
    (page,) = pages(lesson, desk(paper="a5"))
    shaky = page[page.index("Shaky") : page.index("Secure")]
    shown = len(re.findall(r"\d+ \d and \d, ", shaky))
    left = re.search(r"and (\d+) more", shaky)
    assert left is not None
    assert shown + int(left[1]) == len(lesson.told.shaky)


def test_few_drills_stand_there_with_numbers_and_results_and_none_is_left_out() -> None:
    lesson = LessonFacts(fared("+-", "++", "-"), None)
    (page,) = pages(lesson, desk())
    assert "Tue 3 Nov secure: 2 not yet: 1" in page
    assert "Mon 2 Nov secure: 1, 2 not yet: 3" in page
    assert (
        "1 1 and 2, half step, 1st position, string by string not yet 3 Nov, secure 2 Nov" in page
    )
    assert "1 and 2, half step 1st position up to \u201cstring by string\u201d 2" in page
    assert "No day to practise in the next two months." in page
    assert "more" not in page


def test_who_has_no_results_is_told_so() -> None:
    (page,) = pages(LessonFacts(fared(), None), desk())
    assert "Last results Nothing was entered yet." in page
    assert "Secure Nothing yet." in page


@pytest.mark.parametrize(
    ("further", "head"),
    [
        (None, "Secure Nothing"),
        (Further(), "Secure: all of the area Nothing"),
        (Further(position="2nd"), "Secure: all of the area; next could come 2nd position"),
        (Further(fingers=(2, 3)), "Secure: all of the area; next could come 2\u20133"),
        (Further(secure=False), "Secure: all of the area was met Nothing"),
        (
            Further(position="2nd", secure=False),
            "Secure: all of the area was met; next could come 2nd position",
        ),
    ],
)
def test_of_an_area_that_is_all_secure_it_is_said_what_could_come(
    further: Further | None, head: str
) -> None:
    (page,) = pages(LessonFacts(fared(), None, further), desk())
    assert head in page


def test_a_drill_without_a_number_of_its_own_stands_without_one() -> None:
    plan = a_month(5, days=1)
    items = tuple((item, entry) for _, item, entry in plan.items())
    coming = Coming(DAY, items, is_printed=False, numbers=frozenset({1, 2}))
    (page,) = pages(LessonFacts(fared(), coming), desk())
    following = page[page.index("Next: Thu 3 Dec, not printed yet") :]
    assert re.findall(r"(\d+) (?=\d and \d, )", following) == ["1", "2"]
    assert "new, only if 1 is secure" in following
    assert "if 3" not in following
