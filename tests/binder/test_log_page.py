"""The log's pages, recorded instead of printed."""

from booklets import a_month, furniture, words
from paper import Recorder

from bookgen.binder.coverage import coverage_of
from bookgen.binder.leaf import Leaf, side_of
from bookgen.binder.log_columns import LOG_PARTS, log_of
from bookgen.binder.log_page import log_leaves
from bookgen.binder.summary import (
    LOG,
    SUMMARY_PARTS,
    summary_of,
    summary_sets,
    summary_words,
)
from bookgen.model.move import moves_of
from bookgen.plan.document import Plan


def leaves(plan: Plan, paper: str = "a5") -> list[Leaf]:
    around = furniture(plan, paper)
    desk = around.desk
    moves = {m for day in plan.days for planned in day.drills for m in moves_of(planned.drill)}
    before = coverage_of({}, moves)
    facts = {"summary": summary_words(plan, before.aimed(moves), before, desk.instrument)}
    found = desk.words.fill(LOG, facts, LOG_PARTS | SUMMARY_PARTS)
    plain = {paragraph.part: paragraph.plain for paragraph in found}
    summary = summary_of(plan, summary_sets(found, around), plain, around)
    return log_leaves(log_of(plan.days, found, around), summary, found)


def drawn(found: list[Leaf], paper: str = "a5") -> list[Recorder]:
    canvases = [Recorder() for _ in found]
    for leaf, canvas in zip(found, canvases, strict=True):
        list(leaf.draw(canvas, side_of(0, "1", furniture(paper=paper).desk.sheet)))
    return canvases


def test_every_number_has_two_boxes_of_a_good_size() -> None:
    plan = a_month()
    count = sum(len(day.drills) for day in plan.days)
    tests = sum(4 for day in plan.days if day.character == "test")
    boxes = sum(len(canvas.boxes) for canvas in drawn(leaves(plan)))

    assert boxes == 2 * count + tests
    assert furniture().desk.layout.booklet.tick >= 5.0


def test_the_summary_goes_below_a_short_log_and_beside_none() -> None:
    short, long = leaves(a_month(3)), leaves(a_month())

    assert [mark.title for leaf in short for mark in leaf.marks] == [
        "Log",
        "Summary for the teacher",
    ]
    assert len(short) == 1
    assert long[-1].marks[-1].title == "Summary for the teacher"


def test_nothing_leaves_the_page() -> None:
    for paper in ("a5", "a4", "half-letter"):
        around = furniture(paper=paper)
        for canvas in drawn(leaves(a_month(), paper), paper):
            heights = [y for (_, y), _ in canvas.texts] + [y for _, y in canvas.boxes]
            assert min(heights) >= around.bottom - 0.5
            assert max(heights) <= around.top
            right = max(x for x, _ in canvas.boxes) + around.desk.layout.booklet.tick
            assert right <= side_of(0, "1", around.desk.sheet).right + 0.1


def test_dates_stand_over_their_numbers() -> None:
    said = " ".join(word for canvas in drawn(leaves(a_month())) for word in canvas.words)

    assert "Tue 1 Dec" in said
    assert "Sat 5 Dec · cold test" in said
    assert words(a_month()).days == 27
