"""Charts of a passage's hands."""

from itertools import pairwise

import pytest
from paper import Recorder
from passage_pages import desk
from shorthand import strings

from bookgen.binder.leaf import side_of
from bookgen.binder.passage_hands import hand_rows, stopped
from bookgen.binder.typeset import paragraphs
from bookgen.model.geometry import nut_distance_mm
from bookgen.model.stop import Stop
from bookgen.model.units import Semitones

TITLE = paragraphs("<chart><b>A</b> title</chart>", frozenset({"chart"}))


def hand(*heights: int, string: str = "2") -> list[Stop]:
    (number,) = strings(string)
    return [Stop(number, finger, Semitones(at)) for finger, at in enumerate(heights, start=1)]


def drawn(*hands: list[Stop], paper: str = "a4") -> Recorder:
    rows, _ = hand_rows([(one, TITLE) for one in hands], desk(paper))
    canvas = Recorder()
    for row in rows:
        assert not list(row.draw(canvas, side_of(0, "1", desk(paper).sheet), 250.0, 0.0))
    return canvas


def test_two_charts_stand_side_by_side_and_one_below_the_other_on_small_paper() -> None:
    three = [(hand(2, 4), TITLE)] * 3

    assert [len(row.charts) for row in hand_rows(three, desk("a4"))[0]] == [2, 1]
    assert [len(row.charts) for row in hand_rows(three, desk("a5"))[0]] == [1, 1, 1]
    assert hand_rows([], desk()) == ([], "")


def test_fingers_lie_to_scale_without_the_open_strings() -> None:
    spots = drawn([Stop(strings("2")[0], 0, Semitones(0)), *hand(2, 4, 5)]).spots
    xs = sorted({x for x, _ in spots})

    def apart(low: int, high: int) -> float:
        return nut_distance_mm(328, high) - nut_distance_mm(328, low)

    ratio = (xs[1] - xs[0]) / (xs[2] - xs[1])
    assert ratio == pytest.approx(apart(2, 4) / apart(4, 5), rel=1e-6)
    assert len(xs) == 3


def test_a_ring_marks_where_the_hand_begins() -> None:
    canvas = drawn(hand(2, 4)[::-1])

    assert canvas.rings == [max(canvas.spots)]


def test_charts_share_a_scale_but_where_fingers_would_touch() -> None:
    rows, scale = hand_rows(
        [(hand(2, 4, 5), TITLE), (hand(17, 18, 19), TITLE), (hand(5, 7, 8), TITLE)], desk()
    )
    views = [one.chart.view for row in rows for one in row.charts]
    radius = desk().layout.chart.spot_radius

    assert views[0].scale == views[2].scale
    assert views[0].scale_words == scale
    assert all(high - low >= 2 * radius for low, high in pairwise(map(views[1].x, (17, 18, 19))))


def test_only_fingers_are_stopped() -> None:
    assert stopped([Stop(strings("2")[0], 0, Semitones(0)), *hand(2)]) == tuple(hand(2))
