"""The parts of a booklet with type that grows until it is told, and never stands on other type."""

from collections.abc import Callable

import pytest
from kit.ink import larger, outside, overprints, refused_or_printed
from kit.month_plan import (
    FIRST,
    LAST,
    a_coverage,
    a_month,
    a_picture,
    booklet_front,
    bound_with,
    named_stages,
)
from kit.shorthand import VIOLIN

from bookgen.binder.books.booklet import bind_summary
from bookgen.binder.page.bind import bind_leaves
from bookgen.binder.page.desk import Desk, desk_of
from bookgen.binder.page.frame import Frame, frame_of
from bookgen.binder.page.imprint import Imprint
from bookgen.binder.page.leaf import Leaf
from bookgen.binder.page.paper import PAPERS
from bookgen.binder.parts.cover import cover_leaf, cover_of
from bookgen.binder.parts.days.plan import days_leaves, plan_of
from bookgen.binder.parts.index import index_leaves
from bookgen.binder.parts.map import map_of, map_piece
from bookgen.notation.engraved import Engraving
from bookgen.plan.document import Plan
from bookgen.readers.layout import read_layout
from bookgen.words.speech import ENGLISH

PLAN = bound_with(a_month(120), coverage=a_coverage((2, 6), (8, 9), (0, 4)), note="Listen. " * 40)


def days(plan: Plan, frame: Frame) -> list[Leaf]:
    return [*days_leaves(plan_of(plan.days, {}, plan.player, (FIRST, LAST), frame.desk))]


def cover(plan: Plan, frame: Frame) -> list[Leaf]:
    contents = [("How to use this booklet", 2), ("Plan of days", 3), ("Drills by number", 4)]
    return [cover_leaf(cover_of(plan, "December 2026", frame.desk, contents))]


def front(plan: Plan, frame: Frame) -> list[Leaf]:
    pictures = [a_picture(41.0, 20.0), a_picture(70.0, 26.0)]
    return booklet_front(plan, named_stages(plan, pictures), frame)


def index(plan: Plan, frame: Frame) -> list[Leaf]:
    assert plan.binding is not None
    assert plan.binding.coverage is not None
    above = map_piece(map_of(plan.binding.coverage, frame.desk, frame.desk.sheet.column))
    return index_leaves(plan.drills, frame, above)


PARTS = [days, cover, front, index]


def bound(part: Callable[[Plan, Frame], list[Leaf]], plan: Plan, desk: Desk) -> bytes:
    frame = frame_of(desk, "December 2026 · Harbour Lane Strings", "Stop.", {}, mirrored=True)
    imprint = Imprint("title", "author", "subject")
    return bind_leaves([], part(plan, frame), frame, Engraving((), ()), imprint)


def grown(paper: str, factor: float, layout: str = "ordinary") -> Desk:
    taken = larger(read_layout(layout), factor)
    return desk_of(VIOLIN, "4/4", taken, paper, ENGLISH, "Harbour Lane Strings")


@pytest.mark.parametrize("part", PARTS)
@pytest.mark.parametrize("paper", PAPERS)
def test_type_grows_until_it_is_told(part: Callable[[Plan, Frame], list[Leaf]], paper: str) -> None:
    refused_or_printed(lambda factor: bound(part, PLAN, grown(paper, factor)))


@pytest.mark.parametrize("paper", PAPERS)
def test_the_summary_grows_until_it_is_told(paper: str) -> None:
    refused_or_printed(lambda factor: bind_summary(PLAN, grown(paper, factor)))


@pytest.mark.parametrize("part", PARTS)
@pytest.mark.parametrize("paper", PAPERS)
def test_large_print_has_room_on_every_paper(
    part: Callable[[Plan, Frame], list[Leaf]], paper: str
) -> None:
    pdf = bound(part, PLAN, grown(paper, 1.0, "large-print"))
    assert overprints(pdf) == []
    assert outside(pdf) == []
