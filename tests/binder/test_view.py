"""Which part of the string a chart shows."""

from fractions import Fraction

import pytest

from bookgen.binder.view import View, choose_view, common_views
from bookgen.model.stop import Stop
from bookgen.model.units import Semitones, StringNumber


def stops(*semitones: int) -> list[Stop]:
    return [Stop(StringNumber(1), 1, Semitones(height)) for height in semitones]


def test_low_fingers_are_shown_in_actual_size_with_the_nut() -> None:
    assert choose_view(stops(2, 4), 328.0, 69.0, 2.4) == View(328.0, 0.0, Fraction(1))


def test_a_wide_hand_is_drawn_smaller_but_keeps_the_nut() -> None:
    view = choose_view(stops(2, 4, 5, 7), 328.0, 69.0, 2.4)

    assert view.shows_nut
    assert view.scale == Fraction(1, 2)


def test_high_fingers_are_cut_out() -> None:
    view = choose_view(stops(14, 16), 328.0, 69.0, 2.4)

    assert not view.shows_nut
    assert view.scale == 1
    assert view.x(14) == pytest.approx(9.0)


def test_fingers_that_would_touch_on_paper_are_drawn_larger() -> None:
    view = choose_view(stops(20, 21), 235.0, 69.0, 2.4)

    assert view.scale > 1
    assert view.x(21) - view.x(20) > 2 * 2.4


@pytest.mark.parametrize("length", [235.0, 328.0, 375.0, 690.0, 1060.0])
@pytest.mark.parametrize("heights", [(1, 2), (2, 4), (2, 4, 5, 7), (7, 9), (12, 14), (20, 24)])
def test_every_view_fits_its_room(length: float, heights: tuple[int, ...]) -> None:
    view = choose_view(stops(*heights), length, 69.0, 2.4)

    assert 0 <= view.x(heights[0]) < view.x(heights[-1]) <= 69.0
    assert "size" in view.scale_words or view.scale_words.startswith("scale ")


def test_the_nut_stays_where_leaving_it_out_gains_nothing() -> None:
    view = choose_view(stops(2, 4, 5, 7), 267.0, 45.0, 2.4)

    assert view.shows_nut
    assert view.scale == Fraction(1, 2)
    assert view.scale_words == "half of actual size"


def test_all_charts_of_a_day_have_one_scale_and_one_nut() -> None:
    half, whole = common_views([stops(5, 6), stops(5, 7)], 328.0, 69.0, 2.4)

    assert half == whole
    assert half.shows_nut
    assert not half.alone
    assert half.x(6) - half.x(5) < whole.x(7) - whole.x(5)


def test_a_day_with_far_places_leaves_the_nut_out_everywhere() -> None:
    near, far = common_views([stops(2, 4), stops(14, 16)], 328.0, 69.0, 2.4)

    assert near.scale == far.scale == 1
    assert not far.shows_nut
    assert not near.shows_nut


@pytest.mark.parametrize("length", [235.0, 328.0, 375.0, 690.0, 1060.0])
@pytest.mark.parametrize("room", [69.0, 109.0])
def test_every_common_view_fits_its_room(length: float, room: float) -> None:
    days: list[list[tuple[int, ...]]] = [
        [(1, 2), (2, 4, 5, 7)],
        [(2, 4), (20, 24)],
        [(22, 23), (1, 3)],
        [(20, 21)],
    ]
    for day in days:
        charts = [stops(*heights) for heights in day]
        views = common_views(charts, length, room, 2.4)
        assert len({view.scale for view in views}) == 1
        for view, heights in zip(views, day, strict=True):
            assert 0 <= view.x(heights[0]) < view.x(heights[-1]) <= room
