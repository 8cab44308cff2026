"""What the hand, the fingers and the bow cost, part by part."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from kit.fingered import CELLO, COSTS, notes_of
from kit.phrases import phrase
from kit.shorthand import VIOLIN

from bookgen.model.costs import PARTS, Preference
from bookgen.passage.cost import Tariff, crossings, guided, shrink
from bookgen.passage.event import Event, events_of
from bookgen.passage.placement import Pose, Poses
from bookgen.passage.shape import Shape
from bookgen.passage.timing import Gap, Leap, Manner

SHAPE = Shape(VIOLIN)
TARIFF = Tariff(SHAPE, COSTS, None)
POSES = Poses(SHAPE)
PLAIN = Gap(1.0, 1.0)
STOPPED = Leap(free=False, harmonic=False, many=False)


def pose(text: str, place: int = 0) -> Pose:
    """The only pose of a note with its finger and string, at that place."""
    (found,) = [one for one in POSES.of(notes_of(text)) if one.place == place and not one.touched]
    return found


def event(text: str = "C4") -> Event:
    """The last event of a phrase."""
    return events_of(phrase(text))[-1]


def own(text: str, place: int, lasts: str = "1/8") -> dict[str, float]:
    return TARIFF.told(TARIFF.own(pose(text, place), event(f"C4={lasts}")))


def change(
    one: tuple[str, int],
    other: tuple[str, int],
    *,
    sings: bool = False,
    slurred: bool = False,
    quick: bool = False,
) -> dict[str, float]:
    before, then = pose(*one), pose(*other)
    stays = before.place == then.place
    manner = Manner(sings, slurred, quick)
    return TARIFF.told(TARIFF.change(before, then, manner, stays=stays))


def shift(way: int, gap: Gap = PLAIN, leap: Leap = STOPPED) -> float:
    return TARIFF.shift(way, gap, leap)


def test_a_finger_in_first_position_costs_nothing() -> None:
    assert own("E4:1@III", 2) == {}


def test_an_open_string_costs_more_where_it_lasts() -> None:
    assert own("D4:0", 0) == {"open": pytest.approx(0.03)}
    assert own("D4:0", 0, "1/2") == {"open": pytest.approx(0.43)}


def test_the_fourth_finger_costs_more_than_a_quick_open_string_and_less_than_a_long_one() -> None:
    finger = sum(own("A4:4@III", 2).values())

    assert sum(own("A4:0@II", 0).values()) < finger < sum(own("A4:0@II", 0, "1/2").values())


def test_a_stretch_costs_less_where_the_spacings_are_smaller() -> None:
    low, high = own("A#4:4@III", 2)["stretch"], own("A#5:4@III", 14)["stretch"]

    assert low == pytest.approx((0.7 + 0.5) * shrink(2))
    assert high == pytest.approx(low / 2)


def test_a_low_first_finger_is_drawn_back_or_half_position() -> None:
    assert own("Eb4:1@III", 2) == {"stretch": pytest.approx(0.3 * shrink(2))}
    assert own("Eb4:1@III", 1) == {"place": pytest.approx(0.4)}


def test_fingers_drawn_together_cost_and_the_closed_hand_of_a_cello_does_not() -> None:
    cello = Tariff(Shape(CELLO), COSTS, None)
    closed = [one for one in Poses(cello.shape).of(notes_of("F#3:3@II")) if one.place == 2]

    assert own("F#4:3@III", 2) == {"stretch": pytest.approx(0.5 * shrink(2))}
    assert own("G4:3@III", 2) == {}
    assert own("F#4:3@III+D5:4@II", 2)["stretch"] == pytest.approx(1.0 * shrink(2))
    assert [cello.told(cello.own(one, event())) for one in closed] == [{}]


def test_a_finger_too_near_to_the_one_before_costs_once() -> None:
    assert change(("F#4:2@III", 2), ("A4:4@III", 2)) == {}
    assert change(("F#4:2@III", 2), ("G#4:4@III", 2)) == {"stretch": pytest.approx(0.5 * shrink(2))}
    assert change(("E4:1@III", 2), ("F#4:3@III", 2)) == {}  # the pose itself has paid


def test_high_places_cost_more_on_lower_strings() -> None:
    on_three = [own(f"{note}:1@{string}", 9).get("high", 0.0) for note, string in
                [("C#6", "I"), ("F#5", "II"), ("B4", "III"), ("E4", "IV")]]  # fmt: skip

    assert on_three == pytest.approx([0.0, 0.06, 0.12, 0.18])


def test_a_shift_costs_more_the_further_it_goes() -> None:
    ways = [shift(way) for way in range(13)]

    assert ways[:4] == pytest.approx([0.0, 0.8, 1.2, 1.3])
    assert ways == sorted(ways)


def test_a_harmonic_an_open_string_or_time_make_a_shift_easier_and_many_fingers_harder() -> None:
    plain = shift(5)

    assert shift(5, PLAIN, Leap(free=True, harmonic=False, many=False)) == 0.5 * plain
    assert shift(5, PLAIN, Leap(free=False, harmonic=True, many=False)) == 0.6 * plain
    assert shift(5, PLAIN, Leap(free=True, harmonic=True, many=False)) == 0.5 * plain
    assert shift(5, Gap(0.2, 1.0), Leap(free=True, harmonic=True, many=False)) == 0.2 * plain
    assert shift(5, PLAIN, Leap(free=False, harmonic=False, many=True)) == 1.3 * plain
    assert shift(5, Gap(1.0, 1.3)) == 1.3 * plain


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("C4 D4", Gap(1.0, 1.0)),
        ("C4 r D4", Gap(0.4, 1.0)),
        ("C4 r=1/16 D4", Gap(1.0, 1.0)),
        ("C4 r=1/2 D4", Gap(0.2, 1.0)),
        ("C4=1/2 D4", Gap(0.7, 1.0)),
        ("C4=1/2 r D4", Gap(0.4, 1.0)),
        ("C4 gD4", Gap(1.0, 1.3)),
        ("gC4 D4", Gap(1.0, 1.3)),
        ("{C4 D4}", Gap(1.0, 3.0)),
        ("{C4 gD4}", Gap(1.0, 1.3 * 3.0)),
        ("{B3 C4} {D4 E4}", Gap(1.0, 3.0)),
        ("{B3 C4} {D4}", Gap(1.0, 1.0)),
    ],
)
def test_rests_and_long_notes_cover_a_shift_and_grace_notes_hurry_it(
    text: str, expected: Gap
) -> None:
    before, then = events_of(phrase(text))[-2:]

    assert TARIFF.gap(before, then) == expected


def test_the_same_finger_lies_over_hops_or_slides() -> None:
    assert change(("E4:1@III", 2), ("B4:1@II", 2)) == {
        "string": pytest.approx(0.25), "finger": pytest.approx(0.4),
    }  # fmt: skip
    assert change(("F#4:2@III", 2), ("C5:2@II", 2))["finger"] == pytest.approx(0.9)
    assert change(("F4:2@III", 2), ("F#4:2@III", 2)) == {"finger": pytest.approx(0.6)}
    assert change(("E4:1@III", 2), ("E4:1@III", 2)) == {}


def test_a_quick_slide_costs_more() -> None:
    slide = ("F4:2@III", 2), ("F#4:2@III", 2)

    assert change(*slide, quick=True) == {"finger": pytest.approx(0.7)}


def test_the_hand_is_laid_anew_within_a_slur_at_three_times_the_cost() -> None:
    anew, shift = (("F#4:2@III", 2), ("C#5:3@II", 2)), (("F#4:2@III", 2), ("G4:1@III", 5))

    assert change(*anew, slurred=True)["shift"] == pytest.approx(3 * 0.8)
    assert change(*shift, slurred=True)["shift"] == pytest.approx(3 * 0.2)


def test_a_shift_wants_a_finger_that_stays_on_its_string() -> None:
    assert change(("E4:1@III", 2), ("G4:1@III", 5)) == {}
    assert change(("F#4:2@III", 2), ("G4:1@III", 5)) == {"shift": pytest.approx(0.2)}


def test_fingers_that_would_cross_lay_the_hand_anew() -> None:
    assert change(("F#4:2@III", 2), ("C#5:3@II", 2))["shift"] == pytest.approx(0.8)


def test_two_fingers_farther_apart_than_the_hand_was_cost_a_stretch() -> None:
    assert change(("F4:2@III", 2), ("G#4:3@III", 2)) == {"stretch": pytest.approx(0.7 * shrink(2))}
    assert change(("F4:2@III", 2), ("G4:3@III", 2)) == {}


def test_the_bow_pays_for_each_string_it_passes() -> None:
    assert change(("G3:0", 0), ("D4:0", 0)) == {"string": pytest.approx(0.25)}
    assert change(("G3:0", 0), ("A4:0@II", 0)) == {"string": pytest.approx(0.6)}
    assert change(("G3:0", 0), ("G3+D4", 0)) == {"string": pytest.approx(0.125)}


def test_a_broken_chord_begins_low_and_ends_high() -> None:
    chord = pose("G3+D4+B4+G5", 2)

    assert TARIFF.bow(chord) == (3.5, 1.5)


def test_a_slow_step_over_to_another_string_changes_the_timbre() -> None:
    assert "timbre" in change(("G4:3@III", 2), ("A4:0@II", 0), sings=True)
    assert "timbre" not in change(("G4:3@III", 2), ("A4:0@II", 0))
    assert "timbre" not in change(("G4:3@III", 2), ("C5:2@II", 2), sings=True)


def test_double_stops_pay_for_two_fingers_for_a_bar_and_for_crossed_strings() -> None:
    assert own("E4:1@III+C#5:2@II", 2) == {"double": pytest.approx(0.3)}
    assert own("E4:1@III+B4:1@II", 2) == {"double": pytest.approx(0.9)}
    assert own("D4:0@III+B4:1@II", 2) == {"open": pytest.approx(0.03)}
    assert own("A4:0@II+C5:4@III", 5)["double"] == pytest.approx(0.6)


def test_crossings_are_counted_from_the_lower_note_up() -> None:
    assert crossings(pose("A4:0@II+C5:4@III", 5).stops) == 1
    assert crossings(pose("E4:1@III+C#5:2@II", 2).stops) == 0


def test_a_position_that_is_not_the_players_costs_more_than_anything_else() -> None:
    first = Tariff(SHAPE, COSTS, None, {"1st"})

    assert "beyond" not in first.told(first.own(pose("E4:1@III", 2), event()))
    assert first.told(first.own(pose("G4:1@III", 5), event()))["beyond"] == 40.0
    assert "beyond" not in first.told(first.own(pose("D4:0", 0), event()))


def test_a_guide_is_the_same_finger_on_the_same_string() -> None:
    assert guided(pose("E4:1@III", 2), pose("G4:1@III", 5))
    assert not guided(pose("E4:1@III", 2), pose("D5:1@II", 5))


@given(
    first=st.sampled_from(POSES.of(notes_of("B4")) + POSES.of(notes_of("F4+D5"))),
    then=st.sampled_from(POSES.of(notes_of("E5")) + POSES.of(notes_of("D4+B4"))),
    prefer=st.sampled_from([None, *Preference]),
    lasts=st.sampled_from(["1/16", "1/2"]),
    manner=st.builds(Manner, st.booleans(), st.booleans(), st.booleans()),
)
def test_no_part_is_below_nothing_and_the_parts_make_the_sum(
    first: Pose, then: Pose, prefer: Preference | None, lasts: str, manner: Manner
) -> None:
    tariff = Tariff(SHAPE, COSTS, prefer)
    stays = first.place == then.place
    parts = [
        *tariff.own(then, event(f"C4={lasts}")),
        *tariff.change(first, then, manner, stays=stays),
    ]

    assert {name for name, _ in parts} <= set(PARTS)
    assert all(amount >= 0 for _, amount in parts)
    assert tariff.total(parts) == pytest.approx(sum(tariff.told(parts).values()))
