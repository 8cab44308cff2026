"""A drill's block: how it is measured."""

from dataclasses import replace

import pytest
from paper import a_drill, stand_in, violin

from bookgen.binder.block import Column
from bookgen.binder.canvas import Face
from bookgen.binder.desk import Desk, Options, desk_of
from bookgen.binder.layout import Arrangement
from bookgen.binder.typeset import Paragraph
from bookgen.plan.document import Kind, Link
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
    assert beside.arrangement is Arrangement.BESIDE
    assert beside.middle_height == max(beside.chart.height, beside.words_height)
    assert below.arrangement is Arrangement.STACKED
    assert below.chart.width == a5.sheet.column
    assert below.middle_height > below.chart.height + below.words_height


def test_a_part_that_a_template_leaves_out_is_no_line(desk: Desk) -> None:
    title = Paragraph("title", (("x", Face.BOLD),))
    words = Column(
        (title,),
        desk.layout,
        width=180.0,
        arrangement=Arrangement.BESIDE,
        measure=desk.fonts,
        plays=5,
    )

    assert words.lines("unsure", 100.0, 10.0) == ()
    assert words.plain("unsure") == ""


@pytest.fixture(scope="module")
def small() -> Desk:
    options = Options(paper="a5")
    return desk_of((violin(), "4/4"), read_layout("ordinary"), options, booklet=True)


@pytest.fixture(scope="module")
def large() -> Desk:
    return desk_of((violin(), "4/4"), read_layout("ordinary"), Options(), booklet=True)


def test_on_small_pages_the_link_stands_beside_the_chart(small: Desk) -> None:
    drill = a_drill(link=Link(None, None, "As before, one thing is new."))
    block = small.block(drill, stand_in(1, width_mm=120.0).drills[0], small.view_alone(drill))

    assert block.link == ()
    assert "As before" in str(block.texts)
    assert block.plays == small.layout.booklet.plays


def test_words_go_below_the_chart_where_the_block_is_lower_for_it(small: Desk) -> None:
    music = stand_in(1, width_mm=120.0).drills[0]
    short, long = (
        small.block(drill, music, small.view_alone(drill), brief=True)
        for drill in (a_drill(), a_drill(link=Link(None, None, "one more thing " * 12)))
    )

    assert short.wide == ()
    assert long.wide != ()
    assert long.middle_height >= long.chart.height


def test_on_large_pages_the_music_stands_beside_the_chart(large: Desk) -> None:
    width = large.layout.music_width("a4", booklet=True)
    music = stand_in(1, width_mm=width - 0.5, height_mm=30.0).drills[0]
    block = large.block(a_drill(), music, large.view_alone(a_drill()), brief=True)

    assert block.below_height == 0
    assert block.row_height == max(30.0, block.chart.height)
    with pytest.raises(ValueError, match="mm wide does not fit"):
        large.block(a_drill(), stand_in(1, width_mm=179.0).drills[0], large.view_alone(a_drill()))


def test_without_music_a_block_is_lower_by_it(small: Desk) -> None:
    music = stand_in(1, width_mm=120.0, height_mm=30.0).drills[0]
    view = small.view_alone(a_drill())
    with_music, without = (small.block(a_drill(), ink, view) for ink in (music, None))

    gap = small.layout.block.gap
    assert with_music.height - without.height == pytest.approx(30.0 + gap)


def test_an_item_of_a_test_has_no_boxes_for_times_played(small: Desk) -> None:
    drill = replace(a_drill(), kind=Kind.TEST)
    block = small.block(drill, None, small.view_alone(drill))

    assert block.plays == 0
    assert block.label("played") == "First try"
    assert block.unsure == ()


def test_a_long_number_moves_title_and_link_aside(small: Desk) -> None:
    view = small.view_alone(a_drill())
    short, long = (small.block(a_drill(number=n), None, view) for n in (7, 12345))

    assert long.indent > short.indent
