"""The chart, recorded instead of printed."""

import pytest
from paper import Recorder, a_drill, violin

from bookgen.binder.chart import Chart, Room, chart_of, room_in, stops_in
from bookgen.binder.chart_drawing import draw_chart
from bookgen.binder.view import choose_view, common_views
from bookgen.readers.layout import read_layout

LEFT, TOP = 20.0, 200.0


def drawn(key: str, size: str = "4/4") -> Recorder:
    paper = Recorder()
    draw_chart(paper, chart(key, size, paper), LEFT, TOP)
    return paper


def chart(key: str, size: str, paper: Recorder) -> Chart:
    measures = read_layout("ordinary").chart
    planned, length = a_drill(key), violin().size(size).string_length_mm
    view = choose_view(stops_in(planned), length, room_in(86.0), measures.spot_radius)
    return chart_of(planned, violin(), view, measures, Room(86.0, 9.0), paper)


def test_fingers_stand_32_mm_apart_on_a_full_size_violin() -> None:
    paper = drawn("12-whole-place2-strings4321-stage1-low-same")

    columns = sorted({round(x, 3) for x, _ in paper.spots})
    assert columns[1] - columns[0] == pytest.approx(31.9, abs=0.05)
    assert len(paper.spots) == 8
    assert "32" in paper.words
    assert "lengths in mm, actual size" in paper.words


def test_strings_have_numeral_and_letter_and_spots_their_finger() -> None:
    paper = drawn("12-whole-place2-strings4321-stage1-low-same")

    for word in ("I", "II", "III", "IV", "E", "A", "D", "G"):
        assert word in paper.words
    assert paper.words.count("1") == paper.words.count("2") == 4


def test_the_first_stop_has_a_ring_and_the_route_an_arrow_at_its_last() -> None:
    paper = drawn("12-whole-place2-strings4321-stage3-low-mirror")

    start, end = min(paper.spots, key=lambda spot: spot[1]), max(paper.spots, key=lambda s: s[1])
    assert paper.rings == [start]
    ((tip, *_),) = paper.shapes
    assert (tip[0] - end[0]) ** 2 + (tip[1] - end[1]) ** 2 < 3.5**2
    assert paper.dashed == []


def test_a_way_back_over_other_stops_is_dashed() -> None:
    assert len(drawn("12-whole-place2-strings4321-stage3-low-same").dashed) == 3


def test_nothing_leaves_the_chart() -> None:
    for key in (
        "12-whole-place2-strings4321-stage1-low-same",
        "1234-whole.half.whole-place2-strings4321-stage1-low-same",
        "34-half-place20-strings4321-stage3-low-same",
    ):
        paper = Recorder()
        found = chart(key, "1/8", paper)
        draw_chart(paper, found, LEFT, TOP)
        for x, y in (*paper.spots, *(start for start, _ in paper.texts)):
            assert LEFT <= x <= LEFT + found.width
            assert TOP - found.height <= y <= TOP


def test_a_close_chart_says_at_the_break_how_far_the_nut_is() -> None:
    paper = Recorder()
    measures = read_layout("ordinary").chart
    planned, length = a_drill("12-whole-place9-strings4321-stage1-low-same"), 328.0
    view = common_views([stops_in(planned)], length, room_in(62.0), measures.spot_radius)[0]
    found = chart_of(planned, violin(), view, measures, Room(62.0, 9.0, close=True), paper)
    open_chart = chart_of(planned, violin(), view, measures, Room(62.0, 9.0), paper)
    draw_chart(paper, found, LEFT, TOP)

    assert not view.shows_nut
    assert found.height < open_chart.height
    assert f"{length * (1 - 2 ** (-9 / 12)):.0f}" in paper.words
    assert not any("from the nut" in word for word in paper.words)
