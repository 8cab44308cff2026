"""What stands above and below the notes."""

from dataclasses import replace
from itertools import pairwise

import pytest
from kit.drills import VIOLIN, drill_of
from kit.refusing import refused

from bookgen.model.event import Event
from bookgen.model.instrument import Instrument
from bookgen.model.music import layings, play, turn_of
from bookgen.model.pitch import Pitch
from bookgen.notation.label import Labels, labels_of

WHOLE = "12-whole-place2-strings4321"


def labels(
    key: str, instrument: Instrument = VIOLIN, *, two_lines: bool = False
) -> tuple[Labels, ...]:
    return labels_of(events(key, instrument), instrument, two_lines=two_lines)


def events(key: str, instrument: Instrument = VIOLIN) -> tuple[Event, ...]:
    return play(drill_of(key, instrument), instrument)


def strings_of(key: str) -> str:
    return " ".join(label.strings or "." for label in labels(key))


def moves_of(key: str) -> str:
    """Crossings as `[P4]`, half steps as `v`, whole ones as `u`, wider ones as `-`, and words."""
    marks = {"crossing": "[{}]", "half": "v{}", "whole": "u{}", "wider": "-{}"}
    marks |= {"rise": "/{}", "fall": "\\{}"}
    return " ".join(
        marks[label.move.shape].format(label.move.text) if label.move else "."
        for label in labels(key)
    )


@pytest.mark.parametrize(
    ("key", "numerals"),
    [
        (f"{WHOLE}-stage1-low-same", "IV . III . II . I . . . II . III . IV ."),
        (f"{WHOLE}-stage2-low-same", "IV III . II . I . II . III . IV"),
        (f"{WHOLE}-stage3-low-mirror", "IV III II I . II III IV"),
        (f"{WHOLE}-stage4-low-same", "IV III . II . I . . II . III . IV ."),
        (f"{WHOLE}-stage5-low-mirror", "IV+III III+II II+I . III+II IV+III"),
    ],
)
def test_a_numeral_stands_where_the_string_changes(key: str, numerals: str) -> None:
    assert strings_of(key) == numerals


@pytest.mark.parametrize(
    ("key", "marks"),
    [
        (
            "12-whole-place2to5-strings43-stage1-low-same",
            r"uW /m2 uW [P4] uW \P4 uW uW uW /m2 uW [M6] uW \P4 uW .",
        ),
        ("12-whole-place2to5-strings43-stage2-low-same", r"/P4 [P4] \m2 uW /P4 [M6] \m2 ."),
        ("1-place2to5-strings432-stage3-low-same", r"/m7 \M3 . /M3 \m7 ."),
        (
            "12-whole-place2to4-strings43-stage1-low-mirror",
            r"uW /P1 uW [P4] uW \M3 uW . uW /M3 uW [P4] uW \P1 uW .",
        ),
        ("12-whole-place2-strings42-stage3-low-same", "[M10] uW [P8] ."),
        ("1-place2-strings432-stage3-low-same", "[P5] [P5] . [P5] [P5] ."),
    ],
)
def test_a_shift_rises_or_falls_with_its_interval(key: str, marks: str) -> None:
    assert moves_of(key) == marks


@pytest.mark.published("common practice, no source")
def test_a_dash_stands_where_one_finger_leads_the_hand_on_its_string() -> None:
    alone = labels("1-place2to5-strings43-stage1-low-same")
    pair = labels("12-whole-place2to5-strings43-stage1-low-same")
    crossing = labels("1-place2to5-strings43-stage3-low-same")

    assert [at for at, label in enumerate(alone) if label.slides] == [1, 3, 5, 7]
    assert not any(label.slides for label in (*pair, *crossing))


@pytest.mark.parametrize("stage", [1, 2, 3, 4, 5])
def test_a_second_line_tells_its_string_again(stage: int) -> None:
    key = f"{WHOLE}-stage{stage}-low-same"
    turn = turn_of(events(key))

    assert labels(key)[turn].strings == ""
    assert labels(key, two_lines=True)[turn].strings == ("II+I" if stage == 5 else "I")
    assert [label.begins_line for label in labels(key, two_lines=True)].index(True) == turn
    assert [label.ends_line for label in labels(key, two_lines=True)].index(True) == turn - 1


@pytest.mark.parametrize(
    ("key", "moves"),
    [
        ("12-whole-place2-strings43-stage1-low-same", "uW [P4] uW uW uW [M6] uW ."),
        ("12-half-place2-strings43-stage1-low-mirror", "vH [aug4] vH . vH [aug4] vH ."),
        ("12-whole-place2-strings43-stage2-low-same", "[M6] uW [P4] ."),
        ("13-minor-third-place2-strings43-stage1-low-mirror", "-m3 [M3] -m3 . -m3 [M3] -m3 ."),
    ],
)
def test_crossings_and_steps_are_told_apart(key: str, moves: str) -> None:
    assert moves_of(key) == moves


def test_a_cup_is_a_whole_step_and_a_wedge_a_half_step_at_the_turn_too() -> None:
    turn = labels("1234-whole.whole.whole-place1-strings43-stage1-low-same")[7].move

    assert turn is not None
    assert (turn.shape, turn.text) == ("wider", "aug4")


def test_a_double_stop_too_is_named_in_the_printed_form() -> None:
    found = labels("12-half-place2-strings4321-stage5-low-mirror")

    assert {label.within for label in found} == {"m6", "aug4"}


def test_a_half_step_within_one_letter_is_still_a_half_step() -> None:
    key = "1234-half.half.half-place1-strings4321-stage1-low-same"
    augmented = [event.from_previous for event in events(key)].index("A1")
    move = labels(key)[augmented - 1].move

    assert move is not None
    assert (move.shape, move.text) == ("half", "H")


def test_a_double_stop_is_named_by_what_sounds_and_no_move_leads_to_it() -> None:
    found = labels(f"{WHOLE}-stage5-low-mirror")

    assert [label.within for label in found] == ["M6", "P4", "M6", "M6", "P4", "M6"]
    assert {label.move for label in found} == {None}


def test_both_fingers_stand_over_two_notes_and_none_over_a_held_one() -> None:
    found = labels(f"{WHOLE}-stage4-low-same")

    assert [label.fingers for label in found[:5]] == [(1,), (1, 2), (), (2, 1), ()]


def test_a_natural_is_told_only_where_the_letter_was_altered_before() -> None:
    key = "1234-half.half.half-place1-strings4321-stage1-low-same"  # G#3 A3 Bb3 B3
    naturals = ["".join(str(pitch) for pitch in label.naturals) for label in labels(key)]

    assert naturals[:8] == ["", "", "", "B3", "", "", "", ""]
    assert naturals[-3:] == ["", "", "B3"]


def test_a_string_goes_under_the_octave_sign_with_all_of_its_notes() -> None:
    key = "1234-whole.half.whole-place17-strings4321-stage1-low-same"  # A6 to D7 on I
    signs = [label.octave_sign for label in labels(key)]

    assert signs == [False] * 12 + [True] * 8 + [False] * 12


@pytest.mark.parametrize(("place", "signed"), [(16, 0), (17, 4), (22, 4)])
def test_the_octave_sign_begins_where_the_instrument_says(place: int, signed: int) -> None:
    found = labels(f"12-half-place{place}-strings4321-stage1-low-same")  # A6 and Bb6 at 17

    assert sum(label.octave_sign for label in found) == signed


@pytest.mark.parametrize("stage", [2, 3, 4, 5])
def test_a_group_that_crosses_strings_keeps_its_ledger_lines(stage: int) -> None:
    found = labels(f"12-whole-place22-strings4321-stage{stage}-low-same")

    assert not any(label.octave_sign for label in found)


@pytest.mark.parametrize("limit", ["E5", "A5", "C6", "C7"])
@pytest.mark.parametrize("stage", [1, 2, 3, 4, 5])
@pytest.mark.parametrize("frame", ["12-whole", "34-half", "1234-whole.half.whole"])
def test_notes_rise_and_fall_within_a_group_as_they_sound(
    limit: str, stage: int, frame: str
) -> None:
    early = replace(VIOLIN, octave_sign_from=Pitch.parse(limit))
    key = f"{frame}-place12-strings4321-stage{stage}-low-same"
    signs = iter(labels(key, early))
    for group in layings(events(key, early)):
        octaves = [next(signs).octave_sign for _ in group]
        sounding = [event.notes[-1].pitch.degree for event in group]
        printed = [degree - 7 * octave for degree, octave in zip(sounding, octaves, strict=True)]
        assert contour(printed) == contour(sounding)


def contour(degrees: list[int]) -> list[int]:
    """Where notes rise, fall or stay."""
    return [(after > before) - (after < before) for before, after in pairwise(degrees)]


@pytest.mark.parametrize("stage", [1, 2, 3, 4, 5])
def test_no_lower_string_stands_under_the_octave_sign(stage: int) -> None:
    early = replace(VIOLIN, octave_sign_from=Pitch.parse("E6"))  # first finger of I at place 12
    key = f"12-whole-place12-strings4321-stage{stage}-low-same"
    signed = {
        note.stop.string
        for event, label in zip(events(key, early), labels(key, early), strict=True)
        for note in event.notes
        if label.octave_sign
    }

    assert signed == ({1} if stage == 1 else set())


@pytest.mark.parametrize("key", [f"{WHOLE}-stage1-low-same", f"{WHOLE}-stage3-low-same"])
def test_program_text_in_a_plan_is_no_interval(key: str) -> None:
    hostile = [replace(event, from_previous='P4" #(system "touch x") "') for event in events(key)]

    with refused("is no interval"):
        labels_of(hostile, VIOLIN)


def test_program_text_within_a_double_stop_is_no_interval() -> None:
    hostile = [replace(event, within="#(exit)") for event in events(f"{WHOLE}-stage5-low-same")]

    with refused("is no interval"):
        labels_of(hostile, VIOLIN)
