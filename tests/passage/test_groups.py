"""Groups: the longest runs in one placement, and what is told of them."""

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from kit.fingered import CELLO, solved
from kit.phrases import phrase
from kit.shorthand import VIOLIN

from bookgen.model.instrument import Instrument
from bookgen.model.phrase import Phrase
from bookgen.passage.groups import grouped, letter
from bookgen.plan.passage import Fingering, Group

SOME_NOTES = "G3 A3 C4 D4 F4 A4 B4 C5 E5 F#5 A5 C6 E6"
TONES = st.sampled_from([*SOME_NOTES.split(), "r", "|"])


def found(text: str, instrument: Instrument = VIOLIN) -> tuple[Fingering, Phrase]:
    passage = phrase(text)
    return grouped(solved(passage, instrument).best, passage, instrument), passage


def group(text: str, index: int = 0, instrument: Instrument = VIOLIN) -> Group:
    return found(text, instrument)[0].groups[index]


@pytest.mark.published("common practice, no source")
@pytest.mark.parametrize(
    "text",
    ["D4 E4 F#4 G4 A4 B4 C#5 D5", "A4 B4 C#5 D5 E5 F#5 G#5 A5", "G3 A3 B3 C4 D4 E4 F#4 G4"],
)
def test_a_scale_in_first_position_is_one_group(text: str) -> None:
    (only,) = found(text)[0].groups

    assert (only.letter, only.first, only.last) == ("A", 0, 7)
    assert (only.place, only.position) == (2, "1st")
    low, high = sorted({stop.string for stop in only.stops}, reverse=True)
    for string in (low, high):
        own = {stop.finger: stop.semitones for stop in only.stops if stop.string == string}
        assert own == {1: 2, 2: 4, 3: 5}


def test_a_frame_that_comes_again_has_its_letter_again() -> None:
    low, high = "B4 C5 D5 C5 B4 C5 D5 r", "B4 C#5 D5 C#5 B4 C#5 D5 r"
    fingering, _ = found(f"{low} {high} {low}")

    assert [group.letter for group in fingering.groups] == ["A", "B", "A"]
    first, second, third = fingering.groups
    assert first.stops == third.stops != second.stops


def test_a_finger_that_only_passes_elsewhere_is_told() -> None:
    (only,) = found("B4 C5 B4 D5 C5 B4 C#5 B4 C5 D5 C5 B4")[0].groups
    assert only.passing == (6,)


@pytest.mark.published("common practice, no source")
def test_c_on_the_g_string_is_third_position() -> None:
    third = group("C4:1@IV D4:2 E4:3 F4:4")

    assert (third.place, third.position) == (5, "3rd")


def test_a_shift_begins_a_group_and_open_strings_belong_to_the_one_before() -> None:
    fingering, _ = found("B4:1@II C5 E5:0 E6:1@I F#6 G6")

    assert [(one.letter, one.first, one.last) for one in fingering.groups] == [
        ("A", 0, 2), ("B", 3, 5),
    ]  # fmt: skip


def test_open_strings_alone_are_a_group_without_a_place() -> None:
    only = group("G3 D4 A4:0")

    assert (only.stops, only.place, only.position) == ((), 0, "")


def test_one_finger_has_a_place() -> None:
    only = group("E4:1@III")

    assert (len(only.stops), only.place, only.position) == (1, 2, "1st")


def test_the_cellos_positions_are_its_own() -> None:
    assert group("E3:1@II F3:2 G3:4", 0, CELLO).position == "1st"


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
        stops = {(stop.string, stop.finger): stop.semitones for stop in one.stops}
        assert len(stops) == len(one.stops)
        for at in range(one.first, one.last + 1):
            held_here = [s for s in fingering.placed[at].stops if s is not None and s.finger]
            assert at in one.passing or set(held_here) <= set(one.stops)
    for before, after in pairwise(fingering.groups):
        assert before.letter != after.letter
    order = list(dict.fromkeys(one.letter for one in fingering.groups))
    assert order == [letter(at) for at in range(len(order))]
