"""A plan of days: every number once, boxes where they are said to be, marks that can be read."""

from datetime import date, timedelta
from itertools import combinations, groupby, pairwise

import cv2
import numpy as np
import pytest
import zxingcpp
from kit.block_pages import a_desk as layout_desk
from kit.days_plan import FIRST, PX_PER_MM, a_day, a_desk, a_month, picture, planned
from kit.paper import Recorder

from bookgen.binder.page.canvas import Point
from bookgen.binder.page.paper import PAPERS, NoRoomError
from bookgen.binder.page.typeset import line_height, line_width
from bookgen.binder.parts.days.foot import foot_of
from bookgen.binder.parts.days.marks import Control, code_text, digest
from bookgen.binder.parts.days.notes import notes_of
from bookgen.binder.parts.days.places import PlanPage, TickBox
from bookgen.binder.parts.days.plan import PlanOfDays, plan_of
from bookgen.binder.parts.days.signs import FIGURE
from bookgen.plan.ahead import Deadline
from bookgen.plan.calendar import NO_HOLIDAYS, Away, Calendar
from bookgen.plan.document import Binding, Character, Day
from bookgen.plan.record import Result
from bookgen.readers.layout import layout_names

FULL_MONTH = a_month(14)
PLANS = ((6, 13), (14, 27), (14, 29), (17, 27))
"""Items a day, and days."""

WHITE = 2.7
"""Millimetres between two rows of boxes, below which ticks ran into the row above in a trial."""


class Boxes(Recorder):
    """Remembers every box with its size."""

    def __init__(self) -> None:
        super().__init__()
        self.outlines: list[tuple[float, float, float]] = []
        self.ringed: list[tuple[float, float, float]] = []

    def box(self, corner: Point, size: Point, *, width: float) -> None:
        if size[0] == size[1]:
            self.outlines.append((*corner, size[0]))

    def curve(self, start: Point, one: Point, other: Point, end: Point, *, width: float) -> None:
        """Remember half a ring by its ends: x, upper and lower y."""
        self.ringed.append((start[0], start[1], end[1]))


def drawn(plan: PlanOfDays, page: PlanPage) -> Boxes:
    paper = Boxes()
    plan.draw(paper, page)
    return paper


def boxes(plan: PlanOfDays) -> list[TickBox]:
    return [box for page in plan.pages for box in page.boxes]


def said(plan: PlanOfDays) -> str:
    return "|".join(drawn(plan, plan.pages[0]).words)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("each", [1, 6, 14, 17])
def test_every_item_has_its_two_boxes_in_the_order_of_play(paper: str, each: int) -> None:
    days = a_month(each)
    wanted = [
        (item.number, day.date, result) for day in days for item in day.items for result in Result
    ]
    found = [(box.number, box.date, box.result) for box in boxes(planned(days, paper))]
    assert found == wanted


@pytest.mark.parametrize("paper", PAPERS)
def test_boxes_are_drawn_where_they_are_said_to_be_and_nowhere_else(paper: str) -> None:
    plan = planned(FULL_MONTH, paper)
    for page in plan.pages:
        told = {(b.square.left, b.square.bottom, b.square.side) for b in page.boxes}
        controls = {
            (square.left, square.bottom, square.side)
            for kind, square in page.marks.controls
            if kind is not Control.FULL
        }
        found = drawn(plan, page).outlines
        assert told < set(found)
        key = set(found) - told - controls
        assert len(key) == len(found) - len(told) - len(controls) == 2


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("each", [3, 12, 14, 17])
def test_boxes_stand_apart(paper: str, each: int) -> None:
    for page in planned(a_month(each), paper).pages:
        squares = [box.square for box in page.boxes]
        for one, other in combinations(squares, 2):
            beside = max(one.left, other.left) - min(one.right, other.right)
            above = max(one.bottom, other.bottom) - min(one.top, other.top)
            assert beside > 0.99 or above > WHITE


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("each", [3, 6, 12, 14, 17])
def test_the_boxes_of_an_item_stand_nearer_to_each_other_than_to_the_next(
    paper: str, each: int
) -> None:
    for day in (day for page in planned(a_month(each), paper).pages for day in page.days):
        lines = groupby(day.items, key=lambda item: item.baseline)
        for one, other in (pair for _, line in lines for pair in pairwise(line)):
            secure, not_yet = (box.square for box in one.boxes)
            within = not_yet.left - secure.right
            assert other.boxes[0].square.left - not_yet.right > 1.7 * within


def test_a_line_of_numbers_is_nearer_to_its_own_boxes_than_to_those_above() -> None:
    for day in (day for page in planned(FULL_MONTH, "a5").pages for day in page.days):
        lines = [next(line) for _, line in groupby(day.items, key=lambda item: item.baseline)]
        for above, below in pairwise(lines):
            own = below.baseline - below.boxes[0].square.top
            top = below.baseline + FIGURE * day.grid.level.number_pt
            assert above.boxes[0].square.bottom - top > own


@pytest.mark.parametrize("paper", PAPERS)
def test_nothing_lies_under_the_marks(paper: str) -> None:
    for page in planned(FULL_MONTH, paper).pages:
        marks = [*page.marks.corners, *(square for _, square in page.marks.controls)]
        lowest = min(box.square.bottom for box in page.boxes)
        assert lowest > max(square.top for square in marks if square.bottom < 100)
        assert page.days[0].top <= page.marks.code.bottom - page.marks.quiet


def test_a_level_is_as_roomy_as_one_page_allows() -> None:
    sizes = [
        (len(plan.pages), plan.pages[0].days[0].grid.level.number_pt)
        for plan in (planned(a_month(each, days)) for each, days in PLANS)
    ]
    assert [pages for pages, _ in sizes] == [1, 1, 1, 2]
    assert [size for _, size in sizes[:3]] == [11.0, 10.0, 9.0]


def test_a_month_of_jos_size_takes_two_small_pages_of_about_the_same_length() -> None:
    pages = planned(a_month(6, days=22), "a5").pages
    assert [len(page.days) for page in pages] == [11, 11]


@pytest.mark.published("OpenCV, objdetect: the dictionary DICT_4X4_50")
@pytest.mark.parametrize("paper", PAPERS)
def test_opencv_finds_the_four_marks_clockwise_from_the_upper_left(paper: str) -> None:
    plan = planned(FULL_MONTH, paper)
    detector = cv2.aruco.ArucoDetector(cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_4X4_50))
    corners, ids, _ = detector.detectMarkers(picture(plan))
    found = {
        int(number): np.mean(where[0], axis=0)
        for number, where in zip(ids.flat, corners, strict=True)
    }
    _, height = PAPERS[paper]
    assert sorted(found) == [0, 1, 2, 3]
    for number, square in enumerate(plan.pages[0].marks.corners):
        x = (square.left + square.right) / 2 * PX_PER_MM
        y = (height - (square.bottom + square.top) / 2) * PX_PER_MM
        assert found[number] == pytest.approx((x, y), abs=2)


@pytest.mark.published("zxing-cpp, an independent reader of ISO/IEC 18004")
@pytest.mark.parametrize("paper", PAPERS)
def test_the_code_says_whose_page_it_is(paper: str) -> None:
    plan = planned(FULL_MONTH, paper)
    for number, page in enumerate(plan.pages):
        (code,) = zxingcpp.read_barcodes(picture(plan, number))
        studio = digest("Harbour Lane Strings", 6)
        assert code.text == f"BOOKGEN1:{studio}:JO:2026-12:{number + 1}:{page.check}"
        assert code.ec_level == "M"


def test_a_code_holds_no_name_of_a_studio_and_no_long_name_of_a_player() -> None:
    first = FULL_MONTH[0].date
    code = code_text("Harbour Lane Strings", "Anna Maria", first.replace(day=4), 12, "0000")
    assert "ANNA" not in code
    assert "HARBOUR" not in code
    assert len(code) <= 38
    assert code != code_text("Harbour Lane Strings", "Anna-Maria", first.replace(day=4), 12, "0000")


def test_the_check_changes_with_any_box() -> None:
    checks = {
        planned(days, paper).pages[-1].check
        for paper in PAPERS
        for days in (a_month(5), a_month(6), [*a_month(5)[:-1], a_day(31, ">99")])
    }
    assert len(checks) == 3 * len(PAPERS)


def test_the_key_tells_what_the_page_has_and_nothing_else() -> None:
    plain = said(planned([a_day(1, ">1 =2")]))
    assert "start here" in plain
    assert "once more" in plain
    for missing in ("new", "cold", "only if", "easier", "piece"):
        assert missing not in plain
    rich = said(planned([a_day(1, ">1 +2?1 *3 -4 !5 ~6")]))
    for words in ("known moves", "one step easier", "the first try counts", "leads to your piece"):
        assert words in rich
    assert "only if 1 is secure" in rich


def test_a_full_plan_has_a_sign_where_a_roomy_one_names_the_drill_that_must_come_first() -> None:
    assert "if 1" in said(planned([a_day(1, ">1 +2?1")]))
    full = said(planned(FULL_MONTH))
    assert "if 2" not in full
    assert "|?|" in full


def test_a_full_plan_names_the_drill_that_must_come_first_where_its_own_page_does_not() -> None:
    other = a_day(29, ">393 " + " ".join(f"+{n}?7" for n in range(394, 407)))
    full = said(planned([*a_month(14, days=28), other]))
    assert "|?7|" in full
    assert "only if 7 is secure" in full


def test_only_a_light_day_is_called_light() -> None:
    days = [a_day(1, ">1 =2", Character.LIGHT), a_day(2, ">1 =2")]
    assert said(planned(days)).count("light") == 1


def test_a_rule_is_heavier_where_a_week_begins() -> None:
    days = [a_day(on, ">1") for on in (5, 6, 7, 8)]
    assert [day.new_week for day in planned(days).pages[0].days] == [False, False, True, False]


def with_calendar(
    days: list[Day], calendar: Calendar, paper: str = "a4", deadlines: tuple[Deadline, ...] = ()
) -> PlanOfDays:
    span = (FIRST, FIRST + timedelta(30))
    binding = Binding(book="booklet", calendar=calendar, deadlines=deadlines)
    desk = a_desk(paper)
    notes = notes_of(days, binding, span, desk)
    return plan_of(days, {}, "Jo", span, desk, calendar=calendar, notes=notes)


HOLIDAYS = Calendar(away=(Away(first=date(2026, 12, 21), last=date(2027, 1, 3)),), lesson=2)


@pytest.mark.parametrize("paper", PAPERS)
def test_days_away_stand_where_they_fall_and_take_no_box(paper: str) -> None:
    days = [a_day(on, ">1 =2") for on in (18, 19)]
    plan = with_calendar(days, HOLIDAYS, paper)
    words = drawn(plan, plan.pages[-1]).words
    rows = [row.date for page in plan.pages for row in page.rows]

    assert "Mon 21 Dec \u2013 Sun 3 Jan: away" in [word.replace("\u2009", " ") for word in words]
    assert rows == sorted(rows)
    assert {box.date for box in boxes(plan)} == {day.date for day in days}
    for page in plan.pages:
        assert all(upper.bottom == pytest.approx(lower.top) for upper, lower in pairwise(page.rows))


def test_a_lesson_is_ringed_on_a_practice_day_and_has_a_row_on_another() -> None:
    plan = with_calendar([a_day(on, ">1 =2") for on in (1, 2, 3)], HOLIDAYS)
    (page,) = plan.pages
    paper = drawn(plan, page)

    assert [note.date.day for note in page.notes if note.note.beside] == [9, 16]
    assert paper.words.count("lesson") == 3, "the key and two rows"
    assert len(paper.ringed) == 2 * 4, "the key, the 2nd, 9th and 16th; none while away"
    rows = {row.date: row for row in page.rows}
    for _, top, bottom in paper.ringed[2:]:
        assert any(row.bottom < bottom and top < row.top for row in rows.values())


def test_on_the_last_three_days_before_theirs_the_bars_themselves_are_played() -> None:
    air = Deadline(title="Harbour air", bars=("9", "16"), ready_by=date(2026, 12, 5))
    plan = with_calendar([a_day(on, ">1") for on in (1, 2, 3, 5, 6)], NO_HOLIDAYS, "a4", (air,))
    (page,) = plan.pages

    assert [note.date.day for note in page.notes] == [3, 5]
    assert "Harbour air · bars 9\u201316, ready by Sat 5 Dec" in said(plan).replace("\u2009", " ")
    rows = [type(row).__name__ for row in page.rows]
    assert rows == ["PlacedDay"] * 3 + ["PlacedNote", "PlacedDay", "PlacedNote", "PlacedDay"]


def test_without_a_lesson_the_key_tells_of_none() -> None:
    assert "lesson" not in said(planned([a_day(1, ">1")]))


def test_pages_of_a_later_section_go_on_counting() -> None:
    later = plan_of(FULL_MONTH, {}, "Jo", (FULL_MONTH[0].date,) * 2, a_desk("a5"), first=4)
    assert [page.number for page in later.pages] == [4, 5, 6, 7]
    assert [page.page for page in later.pages] == [1, 2, 3, 4]


def test_a_day_without_room_is_refused_by_name() -> None:
    endless = " ".join(f"={number}" for number in range(1, 500))
    with pytest.raises(NoRoomError, match="plan of days"):
        planned([a_day(1, endless)], "a5")


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("layout", layout_names())
def test_the_words_of_the_foot_stand_between_the_squares_or_over_them(
    paper: str, layout: str
) -> None:
    desk = layout_desk(paper, layout)
    plan = plan_of(FULL_MONTH, {}, "Jo", (FULL_MONTH[0].date,) * 2, desk)
    page, foot = plan.pages[0], foot_of(desk, plan.pages[0].marks)
    squares = [page.marks.corners[-1], *(square for _, square in page.marks.controls)]
    size = desk.layout.text.small_pt
    wide = max(line_width(line, size, desk.fonts) for line in foot.lines)
    left, right = page.marks.inner
    between = left < foot.left and foot.left + wide < right
    last = foot.first - (len(foot.lines) - 1) * line_height(size, desk.layout.text.leading)
    assert between or last > max(square.top for square in squares)
    assert len(foot.lines) <= 2
    assert min(box.square.bottom for box in page.boxes) > foot.first + size * FIGURE


def test_a_day_too_high_for_a_roomy_page_is_set_more_closely() -> None:
    desk = layout_desk("a5", "large-print")
    long = [a_day(1, ">1 " + " ".join(f"={number}" for number in range(2, 46)))]
    (page,) = plan_of(long, {}, "Jo", (long[0].date,) * 2, desk).pages
    assert page.days[0].grid.level != desk.layout.days.roomy


def test_numbers_of_six_figures_have_room() -> None:
    days = [a_day(1, ">999999 +999998?999997 =123456")]
    (page,) = planned(days, "half-letter").pages
    lefts = [item.left for item in page.days[0].items]
    assert min(b - a for a, b in pairwise(lefts)) > 12.0
