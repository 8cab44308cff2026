"""Groups: the longest runs in one placement, and what is told of them."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from kit.fingered import CELLO, solved
from kit.phrases import phrase
from kit.shorthand import VIOLIN

from bookgen.model.instrument import Instrument
from bookgen.model.move import Move
from bookgen.model.phrase import Phrase
from bookgen.model.spacing import Frame, Spacing
from bookgen.model.units import Semitones
from bookgen.passage.groups import grouped, letter, moves_in
from bookgen.plan.passage import Fingering, Group

SOME_NOTES = "G3 A3 C4 D4 F4 A4 B4 C5 E5 F#5 A5 C6 E6"
TONES = st.sampled_from([*SOME_NOTES.split(), "r", "|"])
WHOLE_HALF = Frame((1, 2, 3), (Spacing.WHOLE, Spacing.HALF))


def found(text: str, instrument: Instrument = VIOLIN) -> tuple[Fingering, Phrase]:
    passage = phrase(text)
    return grouped(solved(passage, instrument).best, passage, instrument), passage


def group(text: str, index: int = 0, instrument: Instrument = VIOLIN) -> Group:
    return found(text, instrument)[0].groups[index]


def moves(text: str, index: int = 0) -> list[str]:
    fingering, passage = found(text)
    return [
        f"{move.first.string}.{move.first.finger} {move.then.string}.{move.then.finger} {name}"
        for move, name in moves_in(fingering.groups[index], fingering, passage).items()
    ]


@pytest.mark.published("common practice, no source")
@pytest.mark.parametrize(
    ("text", "frame"),
    [
        ("D4 E4 F#4 G4 A4 B4 C#5 D5", WHOLE_HALF),
        ("A4 B4 C#5 D5 E5 F#5 G#5 A5", WHOLE_HALF),
        ("G3 A3 B3 C4 D4 E4 F#4 G4", WHOLE_HALF),
    ],
)
def test_a_scale_in_first_position_is_one_group(text: str, frame: Frame) -> None:
    (only,) = found(text)[0].groups

    assert (only.letter, only.first, only.last) == ("A", 0, 7)
    assert (only.frame, only.others, only.place, only.position) == (frame, (), 2, "1st")


@pytest.mark.published("common practice, no source")
def test_a_low_second_finger_is_another_frame_but_no_other_group() -> None:
    (only,) = found("G3 A3 B3 C4 D4 E4 F#4 G4 A4 B4 C5 D5 E5 F#5 G5")[0].groups

    assert only.frame == WHOLE_HALF
    assert only.others == (Frame((1, 2, 3), (Spacing.HALF, Spacing.WHOLE)),)


@pytest.mark.published("common practice, no source")
def test_c_on_the_g_string_is_third_position() -> None:
    third = group("C4:1@IV D4:2 E4:3 F4:4")

    assert (third.place, third.position) == (5, "3rd")


def test_a_shift_begins_a_group_and_open_strings_belong_to_the_one_before() -> None:
    fingering, _ = found("B4:1@II C5 E5:0 E6:1@I F#6 G6")

    assert [(one.letter, one.first, one.last) for one in fingering.groups] == [
        ("A", 0, 2), ("B", 3, 5),
    ]  # fmt: skip


def test_crossed_fingers_begin_a_group_in_the_same_place() -> None:
    passage = phrase("F#4:2@III C#5:3@II")
    best = solved(passage).best
    placed = [
        replace(one, hand=replace(one.hand, place=Semitones(2))) for one in best.placed if one.hand
    ]
    groups = grouped(replace(best, placed=tuple(placed)), passage, VIOLIN).groups

    assert len(groups) == 2


def test_fingers_do_not_cross_over_an_open_string() -> None:
    passage = phrase("F#4:2@III A4:0 C#5:3@II")
    best = solved(passage).best
    placed = [
        replace(one, hand=one.hand and replace(one.hand, place=Semitones(2))) for one in best.placed
    ]

    assert len(grouped(replace(best, placed=tuple(placed)), passage, VIOLIN).groups) == 1


def test_an_equal_hand_higher_up_is_tied_to_the_first_one() -> None:
    fingering, _ = found("E4:1@III F#4:2 G4:3 A5:1@I B5:2 C6:3 E4:1@III F#4:2 G4:3")
    first, higher, again = fingering.groups

    assert (first.same_as, first.higher) == (None, 0)
    assert (higher.same_as, higher.higher) == ("A", 3)
    assert (again.same_as, again.higher) == ("A", 0)


def test_open_strings_alone_are_a_group_without_a_place() -> None:
    only = group("G3 D4 A4:0")

    assert (only.frame, only.place, only.position) == (None, 0, "")


def test_one_finger_has_a_place_and_no_frame() -> None:
    only = group("E4:1@III")

    assert (only.frame, only.place, only.position) == (None, 2, "1st")


def test_the_cellos_positions_are_its_own() -> None:
    assert group("E3:1@II F3:2 G3:4", 0, CELLO).position == "1st"


def test_moves_come_in_order_each_once_with_its_interval() -> None:
    assert moves("E4:1@III F#4:2 E4:1 F#4:2 C#5:2@II") == [
        "3.1 3.2 M2", "3.2 3.1 M2", "3.2 2.2 P5",
    ]  # fmt: skip


def test_a_double_stop_is_a_move_of_its_own_and_goes_on_voice_by_voice() -> None:
    assert moves("E4+C#5 F#4+D5") == [
        "3.1 2.2 M6", "3.1 3.2 M2", "2.2 2.3 m2", "3.2 2.3 m6",
    ]  # fmt: skip


def test_an_interval_without_a_plain_name_is_left_empty() -> None:
    fingering, passage = found("E##4:2@III Fbb4:1@III")

    assert list(moves_in(fingering.groups[0], fingering, passage).values()) == [""]
    assert all(isinstance(move, Move) for move in moves_in(fingering.groups[0], fingering, passage))


def test_letters_go_on_after_z() -> None:
    assert [letter(index) for index in (0, 1, 25, 26, 27, 701, 702)] == [
        "A", "B", "Z", "AA", "AB", "ZZ", "AAA",
    ]  # fmt: skip


@settings(max_examples=20)
@given(st.lists(TONES, min_size=1, max_size=20))
def test_groups_cover_all_and_each_keeps_its_place(words: list[str]) -> None:
    fingering, passage = found(" ".join(words))
    covered = [index for one in fingering.groups for index in range(one.first, one.last + 1)]

    assert covered == list(range(len(fingering.placed)))
    assert fingering == replace(solved(passage).best, groups=fingering.groups)
    for one in fingering.groups:
        held = [sound.hand for sound in fingering.placed[one.first : one.last + 1]]
        assert len({hand.place for hand in held if hand is not None}) <= 1
    for before, after in zip(fingering.groups, fingering.groups[1:], strict=False):
        assert fingering.placed[after.first].hand is not None
        assert before.letter < after.letter
