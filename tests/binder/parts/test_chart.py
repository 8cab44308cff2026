"""Charts: true to scale, one scale for a book, the order of play in figures."""

from fractions import Fraction

import msgspec
import pytest
from kit.block_pages import FRAME, HIGH, MIRROR, SAME, a_desk, drills_for
from kit.drills import entry
from kit.paper import Recorder

from bookgen.binder.page.desk import Desk
from bookgen.binder.page.paper import NoRoomError
from bookgen.binder.parts.chart import Chart, chart_of
from bookgen.binder.parts.chart_drawing import draw_chart
from bookgen.binder.parts.chart_scale import Hand, Scale, hand_of, scale_of
from bookgen.model.music import play
from bookgen.model.stop import Stop
from bookgen.model.units import Semitones, StringNumber


def hand(key: str, desk: Desk) -> Hand:
    return hand_of(play(entry(key, instrument=desk.instrument).drill, desk.instrument))


def order(key: str, desk: Desk) -> dict[str, int]:
    """The order of play by `IV1`, as the trade writes a finger on a string."""
    numerals = ("I", "II", "III", "IV")
    found = hand(key, desk).order
    return {f"{numerals[stop.string - 1]}{stop.finger}": number for stop, number in found.items()}


def chart(key: str, desk: Desk, width: float = 90.0, per: str = "2") -> Chart:
    length = desk.instrument.size(desk.size).string_length_mm
    scale = Scale(length, Fraction(per))
    return chart_of(hand(key, desk), scale, desk, width, "drill 1", figures=True)


def drawn(one: Chart, desk: Desk) -> Recorder:
    paper = Recorder()
    draw_chart(paper, one, desk, 0.0, 0.0)
    return paper


@pytest.mark.published("definition of equal temperament")
@pytest.mark.parametrize("per", ["1", "2", "2.3"])
def test_fingers_stand_as_far_apart_as_on_the_instrument(per: str) -> None:
    desk = a_desk()
    length = desk.instrument.size("4/4").string_length_mm
    one = chart(MIRROR, desk, per=per)
    on_string = length * (2 ** (-2 / 12) - 2 ** (-4 / 12))
    found = sorted({round(x, 3) for x, _ in drawn(one, desk).spots})
    assert found[1] - found[0] == pytest.approx(on_string / float(per), abs=0.002)


@pytest.mark.parametrize("size", ["4/4", "1/2", "1/8"])
@pytest.mark.parametrize("layout", ["ordinary", "large-print", "chart-first"])
def test_no_chart_is_larger_than_life(layout: str, size: str) -> None:
    for paper in ("a4", "a5"):
        drills = drills_for(a_desk(paper, layout, size=size), MIRROR, HIGH)
        assert all(setting.chart.scale.per >= 1 for setting in drills.settings)


def test_a_book_has_one_scale_and_says_it_under_every_chart() -> None:
    desk = a_desk()
    drills = drills_for(desk, MIRROR, SAME, HIGH, FRAME)
    scales = {setting.chart.scale.per for setting in drills.settings}
    assert len(scales) == 1
    (per,) = scales
    for setting in drills.settings:
        assert f"1 : {float(per):g}" in drawn(setting.chart, desk).words


def test_the_scale_is_the_largest_at_which_the_widest_hand_fits() -> None:
    desk = a_desk()
    wide = hand("12-whole-place1-strings4321-stage1-low-mirror", desk)
    hands = [hand(MIRROR, desk), wide]
    scale = scale_of(hands, desk, 42.0, 78.0, ["one", "other"])
    larger = Scale(scale.string_length_mm, scale.per - Fraction(1, 10))
    with pytest.raises(NoRoomError):
        chart_of(wide, larger, desk, 42.0, "other", figures=True)
    assert chart_of(wide, scale, desk, 42.0, "other", figures=True).end <= 42.0


def test_one_wide_hand_takes_the_whole_line_and_leaves_the_others_readable() -> None:
    drills = drills_for(a_desk(), MIRROR, FRAME)
    pair, frame = (setting.chart for setting in drills.settings)
    assert pair.scale.per <= 3
    assert frame.width > pair.width


def test_figures_count_the_notes_in_the_order_of_play() -> None:
    desk = a_desk()
    assert order("12-whole-place2-strings4321-stage2-low-mirror", desk) == {
        "IV1": 1,
        "III2": 2,
        "III1": 3,
        "II2": 4,
        "II1": 5,
        "I2": 6,
    }


def test_a_stop_of_the_way_back_alone_goes_on_counting() -> None:
    desk = a_desk()
    found = order("12-whole-place2-strings4321-stage2-low-same", desk)
    assert found["IV2"] == 12
    assert found["I1"] == 7


@pytest.mark.parametrize("stage", [4, 5])
def test_a_finger_that_lies_is_not_counted_again(stage: int) -> None:
    desk = a_desk()
    found = order(f"12-whole-place2-strings4321-stage{stage}-low-mirror", desk)
    assert found == {"IV1": 1, "III2": 2, "II1": 3, "I2": 4}


def test_the_first_finger_alone_has_a_ring() -> None:
    desk = a_desk()
    one = chart(MIRROR, desk)
    assert len(drawn(one, desk).rings) == 1
    assert one.hand.start == Stop(StringNumber(4), 1, Semitones(2))


def test_order_figures_stand_outside_the_hand() -> None:
    desk = a_desk()
    one = chart(MIRROR, desk)
    paper = drawn(one, desk)
    low, high = one.x(Semitones(2)), one.x(Semitones(4))
    figures = {text: x for (x, _), text in paper.texts if text in set("12345678")}
    assert all(figures[text] < low - one.half for text in "357")
    assert all(figures[text] > high + one.half for text in "468")


def test_inner_fingers_too_close_for_figures_have_them_at_the_strings_end() -> None:
    desk = a_desk()
    one = chart(FRAME, desk, width=78.0, per="3")
    assert "13 14 15 16" in drawn(one, desk).words
    apart = chart(FRAME, desk, width=140.0, per="1")
    assert {"13", "14", "15", "16"} <= set(drawn(apart, desk).words)


def test_the_nut_is_shown_where_it_is_near_and_the_break_where_it_is_not() -> None:
    desk = a_desk()
    near = chart("12-whole-place1-strings4321-stage1-low-mirror", desk)
    far = chart("12-whole-place7-strings4321-stage1-low-mirror", desk)
    assert near.nut is not None
    length = desk.instrument.size("4/4").string_length_mm
    away = length * (1 - 2 ** (-1 / 12)) / 2
    assert near.x(Semitones(1)) - near.nut == pytest.approx(away, abs=0.01)
    assert far.nut is None


def test_millimetres_are_those_of_the_instrument() -> None:
    desk = a_desk()
    assert {"36", "32", "mm"} <= set(drawn(chart(MIRROR, desk), desk).words)


def test_spots_that_lie_close_are_narrower_and_never_on_each_other() -> None:
    desk = a_desk()
    close = chart("12-half-place19-strings4321-stage1-low-mirror", desk, per="1.5")
    apart = close.x(Semitones(20)) - close.x(Semitones(19))
    assert close.half < desk.layout.chart.spot_radius_mm
    assert 2 * close.half < apart


def with_chart(**measures: float) -> Desk:
    desk = a_desk()
    chart = msgspec.structs.replace(desk.layout.chart, **measures)
    return a_desk(layout=msgspec.structs.replace(desk.layout, chart=chart))


@pytest.mark.parametrize(
    ("measures", "part"),
    [
        ({"string_gap_mm": 3.0}, "its chart"),
        ({"label_pt": 16.0}, "its chart"),
        ({"order_pt": 20.0}, "the order of play"),
        ({"finger_pt": 24.0}, "a finger in its spot"),
        ({"before_mm": 50.0}, "its chart"),
    ],
)
def test_what_has_no_room_in_a_chart_is_told_by_drill_and_part(
    measures: dict[str, float], part: str
) -> None:
    with pytest.raises(NoRoomError) as refused:
        chart(MIRROR, with_chart(**measures), width=42.0)
    assert f"drill 1: {part}" in str(refused.value.message)
