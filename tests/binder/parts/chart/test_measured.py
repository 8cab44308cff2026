"""Charts: true to scale, one scale for a book, the order of play in figures."""

from fractions import Fraction

import msgspec
import pytest
from kit.block_pages import FRAME, HIGH, MIRROR, SAME, a_desk, drills_for
from kit.drills import entry
from kit.paper import Recorder

from bookgen.binder.page.desk import Desk
from bookgen.binder.page.paper import NoRoomError
from bookgen.binder.page.signs import draw_thumb
from bookgen.binder.parts.chart.drawing import draw_chart
from bookgen.binder.parts.chart.hand import Hand, hand_of
from bookgen.binder.parts.chart.measured import Chart, chart_of
from bookgen.binder.parts.chart.scale import Scale, scale_of
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


def on_iv(finger: int, semitones: int) -> Stop:
    return Stop(StringNumber(4), finger, Semitones(semitones))


def test_the_first_finger_alone_has_a_ring() -> None:
    desk = a_desk()
    one = chart(MIRROR, desk)
    assert len(drawn(one, desk).rings) == 1
    assert one.hand.start == on_iv(1, 2)


def test_order_figures_stand_outside_the_hand() -> None:
    desk = a_desk()
    one = chart(MIRROR, desk)
    paper = drawn(one, desk)
    low, high = one.x(on_iv(1, 2)), one.x(on_iv(2, 4))
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
    assert near.x(on_iv(1, 1)) - near.nut == pytest.approx(away, abs=0.01)
    assert far.nut is None


def test_millimetres_are_those_of_the_instrument() -> None:
    desk = a_desk()
    assert {"36", "32", "mm"} <= set(drawn(chart(MIRROR, desk), desk).words)


def test_spots_that_lie_close_are_narrower_and_never_on_each_other() -> None:
    desk = a_desk()
    close = chart("12-half-place19-strings4321-stage1-low-mirror", desk, per="1.5")
    apart = close.x(on_iv(2, 20)) - close.x(on_iv(1, 19))
    assert close.half < desk.layout.chart.spot_radius_mm
    assert 2 * close.half < apart


SHIFT = "12-whole-place2to5-strings4321-stage1-low-same"


def test_fingers_after_a_shift_stand_true_to_scale_and_are_hollow() -> None:
    desk = a_desk()
    one = chart(SHIFT, desk, per="2")
    length = desk.instrument.size("4/4").string_length_mm
    places = [length * (1 - 2 ** (-semitones / 12)) / 2 for semitones in (2, 4, 5, 7)]
    stops = [on_iv(1, 2), on_iv(2, 4), on_iv(1, 5), on_iv(2, 7)]
    found = [one.x(stop) - one.x(stops[0]) for stop in stops]

    assert found == pytest.approx([place - places[0] for place in places], abs=0.01)
    assert one.hand.shifted == {stop for stop in one.hand.stops if stop.semitones >= 5}
    assert [one.hand.order[stop] for stop in stops] == [1, 2, 3, 4]


def test_two_fingers_at_one_spot_stand_on_either_side_of_it() -> None:
    desk = a_desk()
    one = chart("12-whole-place2to4-strings43-stage1-low-same", desk, width=110.0, per="1")
    second = on_iv(2, 4)

    assert one.hand.beside(second) == on_iv(1, 4)
    spots = {round(x - one.x(second), 2) for x, _ in drawn(one, desk).spots}
    side = next(x for x in sorted(spots) if 0 < x < 3)
    assert -side in spots
    assert 0.0 not in spots


def test_a_wide_shift_has_a_scale_of_its_own() -> None:
    desk = a_desk()
    alone = drills_for(desk, MIRROR).settings[0].chart.scale.per
    drills = drills_for(desk, MIRROR, "12-whole-place2to14-strings4321-stage1-low-same")
    still, shift = (setting.chart.scale.per for setting in drills.settings)

    assert still == alone
    assert shift >= still


def test_where_a_line_is_too_short_the_strings_between_two_places_are_cut_out() -> None:
    desk = a_desk("a4", "chart-first")
    drills = drills_for(desk, "12-half-place2to14-strings4321-stage1-low-same")
    one = drills.settings[0].chart
    assert one.cut is not None
    left, right = one.cut
    before, after = one.x(on_iv(2, 3)), one.x(on_iv(1, 14))

    assert before + one.half < left < right < after - one.half
    per, length = float(one.scale.per), one.scale.string_length_mm
    for low, high in ((on_iv(1, 2), on_iv(2, 3)), (on_iv(1, 14), on_iv(2, 15))):
        apart = length * (2 ** (-low.semitones / 12) - 2 ** (-high.semitones / 12))
        assert one.x(high) - one.x(low) == pytest.approx(apart / per, abs=0.01)


SHIFTS = [
    *("12-whole-place2to3", "12-half-place9to21", "34-whole-place5to10", "1-place2to14"),
    *("123-whole.half-place2to4", "1234-half.half.half-place5to12"),
]


@pytest.mark.parametrize("size", ["4/4", "1/8"])
@pytest.mark.parametrize("layout", ["ordinary", "large-print", "chart-first"])
def test_shifts_have_room_on_every_paper(layout: str, size: str) -> None:
    for paper in ("a4", "a5", "letter"):
        for one in SHIFTS:
            drills = drills_for(
                a_desk(paper, layout, size=size), f"{one}-strings4321-stage1-low-same"
            )
            shown = drills.settings[0].chart.hand
            assert shown.start == min(shown.stops, key=lambda stop: (-stop.string, stop.semitones))
            assert shown.shifted


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


def test_the_thumb_is_drawn_where_a_figure_would_stand() -> None:
    paper = Recorder()

    draw_thumb(paper, (10.0, 20.0), 1.0)

    [oval] = paper.shapes  # its inside is of the other ink
    [(top, foot)] = paper.lines
    heights = [y for _, y in oval]
    assert max(heights) == pytest.approx(21.0)
    assert min(heights) > foot[1] > 19.0
    assert foot[0] == top[0] == 10.0
