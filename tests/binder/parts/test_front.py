"""How to use a booklet: only what occurs is said, and nothing leaves the page."""

import pytest
from kit.days_plan import a_desk
from kit.month_plan import SCOPE, a_month, a_picture, booklet_front, bound_with, named_stages
from kit.paper import Recorder
from msgspec.structs import replace

from bookgen.binder.page.frame import frame_of
from bookgen.binder.page.leaf import side_of
from bookgen.binder.page.paper import PAPERS, NoRoomError
from bookgen.binder.page.piece import Slot
from bookgen.binder.parts.answers import answer_pieces
from bookgen.plan.document import Plan, Role


def drawn(
    plan: Plan, paper: str = "a4", high: float = 26.0, wide: float | None = None
) -> list[Recorder]:
    desk = a_desk(paper)
    wide = wide or (84.0 if desk.sheet.column > 150 else 70.0)
    ways = named_stages(plan, [a_picture(41.0, 20.0), a_picture(wide, high)])
    frame = frame_of(desk, "Ines", "Stop.", {}, mirrored=True)
    canvases = []
    for page, leaf in enumerate(booklet_front(plan, ways, frame), start=1):
        canvas = Recorder()
        list(leaf.draw(canvas, side_of(page, "1", desk.sheet)))
        canvases.append(canvas)
    return canvases


def said(plan: Plan) -> str:
    return " ".join(" ".join(word for page in drawn(plan) for word in page.words).split())


def test_five_stages_have_room_on_one_large_page() -> None:
    (page,) = drawn(a_month(120))
    assert len(page.boxes) == 10


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("drills", [6, 120])
def test_nothing_leaves_its_page(paper: str, drills: int) -> None:
    desk = a_desk(paper)
    frame = frame_of(desk, "Ines", "Stop.", {}, mirrored=True)
    for canvas in drawn(a_month(drills), paper):
        heights = [y for (_, y), _ in canvas.texts] + [y for _, y in canvas.boxes]
        assert min(heights) >= frame.bottom - 0.1
        assert max(heights) <= frame.top


def test_a_stage_that_does_not_come_is_not_taught() -> None:
    few = said(a_month(6))
    assert "All fingers on one string" in few
    assert "Two strings at once" not in few
    assert "Two strings at once" in said(a_month(120))


def test_only_intervals_that_come_are_named() -> None:
    assert "perfect fourth" in said(a_month(20))
    assert "octave" not in said(a_month(6))


def test_the_cautions_are_there() -> None:
    found = said(a_month())
    for words in (
        "Stop at once if anything hurts or goes numb",
        "Warm up with movement",
        "five minutes in each half hour",
        "Open the hand only as far as it goes by itself",
        "a medical professional",
    ):
        assert words in found


def test_what_waits_and_what_is_cold_is_told_where_it_comes() -> None:
    plan = a_month()
    assert "only if the other drill is secure" in said(plan)
    assert "the first try counts" in said(plan)
    calm = a_month(days=1)
    assert not any(item.role is Role.COLD for _, item, _ in calm.items())
    assert "the first try counts" not in said(calm)


def test_who_plays_from_memory_is_sent_to_the_answers() -> None:
    assert "answers" not in said(a_month())
    assert "Then look at the answers" in said(bound_with(a_month(), from_memory=True))


def test_by_day_the_front_says_that_drills_come_again() -> None:
    assert "number order" in said(a_month())
    assert "printed again" in said(bound_with(a_month(), by_day=True))


@pytest.mark.parametrize("paper", PAPERS)
def test_charts_stand_below_each_other_and_staves_too(paper: str) -> None:
    for canvas in drawn(a_month(120), paper):
        for kind in (canvas.boxes[::2], canvas.boxes[1::2]):
            assert len({round(x, 3) for x, _ in kind}) <= 1


def test_a_chart_stands_beside_the_words_where_both_pictures_have_no_room_in_a_row() -> None:
    (page,) = drawn(a_month(6), wide=178.0)
    (chart_x, chart_y), (staff_x, staff_y) = page.boxes
    assert chart_x == pytest.approx(12.0 + 186.0 - 41.0)
    assert staff_x == pytest.approx(12.0)
    assert staff_y + 26.0 < chart_y
    said = next(y for (_, y), text in page.texts if text.startswith("All fingers"))
    assert chart_y < said < chart_y + 20.0


def test_pictures_without_room_beside_words_stand_below_each_other() -> None:
    desk, plan = a_desk("a5"), a_month(6)
    ways = named_stages(plan, [a_picture(95.0, 20.0), a_picture(120.0, 26.0)])
    frame = frame_of(desk, "Ines", "Stop.", {}, mirrored=True)
    canvas = Recorder()
    for page, leaf in enumerate(booklet_front(plan, ways, frame), start=1):
        list(leaf.draw(canvas, side_of(page, "1", desk.sheet)))
    (chart_x, chart_y), (staff_x, staff_y) = canvas.boxes
    assert chart_x == staff_x
    assert staff_y + 26.0 < chart_y


def test_a_picture_wider_than_the_page_is_refused() -> None:
    with pytest.raises(NoRoomError, match="example of a stage"):
        drawn(a_month(6), wide=200.0)


def test_a_picture_higher_than_a_page_is_refused_by_the_stages_name() -> None:
    with pytest.raises(NoRoomError, match="string by string"):
        drawn(a_month(6), high=300.0)


def test_each_answer_stands_under_its_number() -> None:
    entries = a_month(3).drills
    desk, canvas = a_desk(), Recorder()
    pieces = [*answer_pieces(entries, [a_picture(84.0, 26.0)] * 3, desk)]
    for place, piece in enumerate(pieces):
        list(piece.draw(canvas, Slot(0, 10.0, 250.0 - 60 * place, 89.0, 0.0)))
    assert canvas.words == ["1", "2", "3"]
    for (_, number), (_, corner) in zip(
        [start for start, _ in canvas.texts], canvas.boxes, strict=True
    ):
        assert corner + 26.0 < number
    assert [mark.title for piece in pieces for mark in piece.marks] == ["Answers"]


def test_whose_log_is_kept_is_told_to_log_the_ticks() -> None:
    plan, log = a_month(20), "Log the ticks before the next pages"

    assert log in said(replace(plan, scope=SCOPE)).replace("<b>", "").replace("</b>", "")
    assert log not in said(plan), "of a stranger no log is kept"
