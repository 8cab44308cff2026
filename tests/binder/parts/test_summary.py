"""The teacher's summary."""

import msgspec
import pytest
from kit.days_plan import a_desk
from kit.month_plan import a_coverage, a_month, bound_with
from kit.paper import Recorder

from bookgen.binder.page.flow import Room, flow
from bookgen.binder.page.leaf import leaves_of, side_of
from bookgen.binder.page.paper import PAPERS
from bookgen.binder.parts.summary import position_order, summary_pieces
from bookgen.plan.ahead import Further, Unreached
from bookgen.plan.document import Plan, Role


def drawn(plan: Plan, paper: str = "a4") -> Recorder:
    desk, canvas = a_desk(paper), Recorder()
    pages = flow(
        [*summary_pieces(plan, desk)],
        lambda _: Room(1, desk.sheet.column, 0.0, desk.sheet.top - 20),
    )
    for leaf in leaves_of(pages, desk.sheet.top):
        list(leaf.draw(canvas, side_of(0, "1", desk.sheet)))
    return canvas


def text(plan: Plan) -> str:
    return " ".join(" ".join(drawn(plan).words).split())


def test_what_was_planned_is_counted() -> None:
    plan = a_month()
    items = [item for _, item, _ in plan.items()]
    new = sum(item.role is Role.NEW for item in items)
    assert f"20 drills in {len(items)} items" in text(plan)
    assert f"{new} new" in text(plan)
    assert "towards a piece" not in text(plan)


def test_hands_come_from_the_lowest_finger_and_positions_from_the_lowest() -> None:
    found = text(a_month())
    hands = ["1\N{EN DASH}2 half", "1\N{EN DASH}2 whole", "2\N{EN DASH}3 half"]
    places = [found.index(hand) for hand in hands]
    assert places == sorted(places)
    assert "in 1st position" in found
    labels = ["10th", "half", "2nd", "1st"]
    assert sorted(labels, key=position_order) == ["half", "1st", "2nd", "10th"]


def test_moves_before_and_after_are_told_where_they_were_counted() -> None:
    assert "moves" not in text(a_month()).lower().replace("known moves", "")
    found = text(bound_with(a_month(), coverage=a_coverage((2, 6), (8, 9))))
    assert "10 of 20 were secure before; when all of this is secure, 15 will be." in found
    assert "5 moves are left for later." in found


def test_what_a_month_does_not_reach_stands_there_with_the_reason() -> None:
    assert "Not reached" not in text(a_month())
    missed = (
        Unreached(position="6th", fingers=(1, 2), steps=2),
        Unreached(position="7th", fingers=(1, 2), steps=4),
        Unreached(position="12th", fingers=(2, 3), steps=None),
    )
    found = text(bound_with(a_month(), unreached=missed))
    assert (
        "Not reached: 1\u20132 in 6th and 7th position. Each hand goes through its stages first;"
        " there it is up to 4 steps further. Plan on, or cover less." in found
    )
    assert "nothing leads to 2\u20133 in 12th position; cover the positions between" in found


@pytest.mark.parametrize(
    ("further", "words"),
    [
        (Further(position="2nd"), "Next: all of the area is secure; 2nd position could come."),
        (
            Further(fingers=(3, 4), secure=False),
            "Next: all of the area has been met, not all of it is secure; 3\u20134 could come.",
        ),
        (Further(), "5 moves are left for later."),
    ],
)
def test_where_nothing_of_the_area_is_left_the_next_is_proposed(
    further: Further, words: str
) -> None:
    counted = a_coverage((2, 6), (8, 9))

    assert words in text(bound_with(a_month(), coverage=counted, further=further))


def test_every_cold_test_has_a_box_in_its_week() -> None:
    plan = a_month()
    cold = [item.number for _, item, _ in plan.items() if item.role is Role.COLD]
    paper = drawn(plan)
    assert len(paper.boxes) == len(cold)
    assert len({round(y) for _, y in paper.boxes}) >= 4


@pytest.mark.parametrize("paper", PAPERS)
def test_nothing_leaves_the_column(paper: str) -> None:
    sheet = a_desk(paper).sheet
    for (x, _), words in drawn(a_month(60), paper).texts:
        assert sheet.margins.left - 0.1 <= x <= sheet.width - sheet.margins.right, words


def test_who_learns_without_a_name_has_a_summary_too() -> None:
    assert "20 drills" in text(msgspec.structs.replace(a_month(), player=None))
