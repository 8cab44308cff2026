"""A drill's block: how it is measured."""

import pytest
from paper import a_drill, stand_in, violin

from bookgen.binder.block import Column
from bookgen.binder.canvas import Face
from bookgen.binder.desk import Desk, Options, desk_of
from bookgen.binder.typeset import Paragraph
from bookgen.plan.document import Link
from bookgen.readers.layout import read_layout


@pytest.fixture(scope="module")
def desk() -> Desk:
    return desk_of((violin(), "4/4"), read_layout("ordinary"), Options())


def test_a_long_hint_goes_below_the_ticks(desk: Desk) -> None:
    known = "violin-1234-whole.half.whole-place2-strings4321-stage2-order1324-same"
    drill = a_drill(link=Link(known, None, "x"))
    short = desk.block(a_drill(), stand_in(1).drills[0], desk.view_alone(a_drill()))
    long = desk.block(drill, stand_in(1).drills[0], desk.view_alone(drill))

    assert short.hint_beside
    assert not long.hint_beside
    assert long.height > short.height


def test_music_engraved_for_wider_paper_is_refused(desk: Desk) -> None:
    with pytest.raises(ValueError, match="does not fit a column of 180"):
        desk.block(a_drill(), stand_in(1, width_mm=181.0).drills[0], desk.view_alone(a_drill()))


def test_words_stand_below_the_chart_where_the_layout_stacks_them(desk: Desk) -> None:
    a5 = desk_of((violin(), "4/4"), read_layout("ordinary"), Options(paper="a5"))

    beside = desk.block(a_drill(), stand_in(1).drills[0], desk.view_alone(a_drill()))
    below = a5.block(a_drill(), stand_in(1, width_mm=120.0).drills[0], a5.view_alone(a_drill()))
    assert not beside.stacked
    assert beside.middle_height == max(beside.chart.height, beside.words_height)
    assert below.stacked
    assert below.chart.width == a5.sheet.column
    assert below.middle_height > below.chart.height + below.words_height


def test_a_part_that_a_template_leaves_out_is_no_line(desk: Desk) -> None:
    title = Paragraph("title", (("x", Face.BOLD),))
    words = Column((title,), desk.layout, width=180.0, stacked=False, measure=desk.fonts)

    assert words.lines("unsure", 100.0, 10.0) == ()
    assert words.plain("unsure") == ""
