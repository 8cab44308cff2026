"""Which part of the string a chart shows."""

from fractions import Fraction

import pytest

from bookgen.binder.view import View, choose_view
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
    assert view.ratio == "1 : 2"
