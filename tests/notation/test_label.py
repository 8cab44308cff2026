"""What stands above and below the notes."""

from dataclasses import replace

import pytest
from drills import VIOLIN, entry

from bookgen.model.event import Begins
from bookgen.notation.label import labels_of
from bookgen.plan.document import PlannedDrill

WHOLE = "12-whole-place2-strings4321"


def strings_of(drill: PlannedDrill) -> str:
    return " ".join(label.strings or "." for label in labels_of(drill, VIOLIN))


def moves_of(drill: PlannedDrill) -> str:
    """Crossings as `[P4]`, half steps as `v`, wider ones as `u`, with their words."""
    marks = {"crossing": "[{}]", "half": "v{}", "wide": "u{}"}
    return " ".join(
        marks[label.move.shape].format(label.move.text) if label.move else "."
        for label in labels_of(drill, VIOLIN)
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
    assert strings_of(entry(key)) == numerals


def test_a_long_drill_tells_the_string_again_at_the_turn() -> None:
    drill = entry("123-whole.half-place2-strings4321-stage1-low-same")
    turn = next(i for i, event in enumerate(drill.events) if event.begins is Begins.TURN)

    assert labels_of(drill, VIOLIN)[turn].strings == "I"


@pytest.mark.parametrize(
    ("key", "moves"),
    [
        ("12-whole-place2-strings43-stage1-low-same", "uW [P4] uW uW uW [M6] uW ."),
        ("12-half-place2-strings43-stage1-low-mirror", "vH [A4] vH . vH [A4] vH ."),
        ("12-whole-place2-strings43-stage2-low-same", "[M6] uW [P4] ."),
        ("13-minor-third-place2-strings43-stage1-low-mirror", "um3 [M3] um3 . um3 [M3] um3 ."),
    ],
)
def test_crossings_and_steps_are_told_apart(key: str, moves: str) -> None:
    assert moves_of(entry(key)) == moves


def test_a_half_step_within_one_letter_is_still_a_half_step() -> None:
    drill = entry("1234-half.half.half-place1-strings4321-stage1-low-same")
    augmented = [event.from_previous for event in drill.events].index("A1")
    move = labels_of(drill, VIOLIN)[augmented - 1].move

    assert move is not None
    assert (move.shape, move.text) == ("half", "H")


def test_a_double_stop_is_named_by_what_sounds_and_no_move_leads_to_it() -> None:
    drill = entry(f"{WHOLE}-stage5-low-mirror")
    labels = labels_of(drill, VIOLIN)

    assert [label.within for label in labels] == ["M6", "P4", "M6", "M6", "P4", "M6"]
    assert {label.move for label in labels} == {None}


def test_both_fingers_stand_over_two_notes_and_none_over_a_held_one() -> None:
    labels = labels_of(entry(f"{WHOLE}-stage4-low-same"), VIOLIN)

    assert [label.fingers for label in labels[:5]] == [(1,), (1, 2), (), (2, 1), ()]


def test_a_natural_is_told_only_where_the_letter_was_altered_before() -> None:
    drill = entry("1234-half.half.half-place1-strings4321-stage1-low-same")  # Ab3 A3 Bb3 B3
    naturals = [
        "".join(str(pitch) for pitch in label.naturals) for label in labels_of(drill, VIOLIN)
    ]

    assert naturals[:8] == ["", "A3", "", "B3", "", "E4", "", ""]
    assert naturals[-3:] == ["A3", "", "B3"]


def test_a_string_goes_under_the_octave_sign_with_all_of_its_notes() -> None:
    drill = entry("34-half-place17-strings4321-stage1-low-same")  # A6 and Bb6 on the first string
    signs = [label.octave_sign for label in labels_of(drill, VIOLIN)]

    assert signs == [False] * 6 + [True] * 4 + [False] * 6


def test_tied_notes_share_one_side_of_the_octave_sign() -> None:
    drill = entry("34-half-place17-strings4321-stage4-low-same")

    assert all(label.octave_sign for label in labels_of(drill, VIOLIN))


@pytest.mark.parametrize("key", [f"{WHOLE}-stage1-low-same", f"{WHOLE}-stage3-low-same"])
def test_program_text_in_a_plan_is_no_interval(key: str) -> None:
    drill = entry(key)
    hostile = tuple(
        replace(event, from_previous='P4" #(system "touch x") "') for event in drill.events
    )

    with pytest.raises(ValueError, match="is no interval"):
        labels_of(replace(drill, events=hostile), VIOLIN)


def test_program_text_within_a_double_stop_is_no_interval() -> None:
    drill = entry(f"{WHOLE}-stage5-low-same")
    hostile = tuple(replace(event, within="#(exit)") for event in drill.events)

    with pytest.raises(ValueError, match="is no interval"):
        labels_of(replace(drill, events=hostile), VIOLIN)
