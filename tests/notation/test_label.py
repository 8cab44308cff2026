"""What stands above and below the notes."""

from dataclasses import replace
from itertools import pairwise

import pytest
from drills import VIOLIN, entry

from bookgen.model.event import Begins
from bookgen.model.pitch import Pitch
from bookgen.notation.label import groups, labels_of, printed_interval
from bookgen.plan.document import PlannedDrill

WHOLE = "12-whole-place2-strings4321"


def strings_of(drill: PlannedDrill) -> str:
    return " ".join(label.strings or "." for label in labels_of(drill, VIOLIN))


def moves_of(drill: PlannedDrill) -> str:
    """Crossings as `[P4]`, half steps as `v`, whole ones as `u`, wider ones as `-`, and words."""
    marks = {"crossing": "[{}]", "half": "v{}", "whole": "u{}", "wider": "-{}"}
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
        ("12-half-place2-strings43-stage1-low-mirror", "vH [aug4] vH . vH [aug4] vH ."),
        ("12-whole-place2-strings43-stage2-low-same", "[M6] uW [P4] ."),
        ("13-minor-third-place2-strings43-stage1-low-mirror", "-m3 [M3] -m3 . -m3 [M3] -m3 ."),
    ],
)
def test_crossings_and_steps_are_told_apart(key: str, moves: str) -> None:
    assert moves_of(entry(key)) == moves


def test_a_cup_is_a_whole_step_and_a_wedge_a_half_step_at_the_turn_too() -> None:
    wide = entry("1234-whole.whole.whole-place1-strings43-stage1-low-same")
    turn = [label.move for label in labels_of(wide, VIOLIN)][7]

    assert turn is not None
    assert (turn.shape, turn.text) == ("wider", "aug4")


@pytest.mark.parametrize(
    ("label", "printed"),
    [
        ("A4", "aug4"),
        ("d5", "dim5"),
        ("A6", "aug6"),
        ("AA4", "2aug4"),
        ("dd5", "2dim5"),
        ("d12", "dim12"),
        ("M6", "M6"),
        ("m6", "m6"),
        ("P4", "P4"),
        ("P8", "P8"),
    ],
)
def test_no_printed_interval_can_be_read_as_a_note(label: str, printed: str) -> None:
    assert printed_interval(label) == printed
    with pytest.raises(ValueError, match="is no pitch name"):
        Pitch.parse(printed)


def test_a_double_stop_too_is_named_in_the_printed_form() -> None:
    labels = labels_of(entry("12-half-place2-strings4321-stage5-low-mirror"), VIOLIN)

    assert {label.within for label in labels} == {"m6", "aug4"}


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
    drill = entry("1234-whole.half.whole-place17-strings4321-stage1-low-same")  # A6 to D7 on I
    signs = [label.octave_sign for label in labels_of(drill, VIOLIN)]

    assert signs == [False] * 12 + [True] * 8 + [False] * 12


@pytest.mark.parametrize(("place", "signed"), [(18, 0), (19, 4), (22, 4)])
def test_the_octave_sign_begins_where_the_instrument_says(place: int, signed: int) -> None:
    drill = entry(f"12-half-place{place}-strings4321-stage1-low-same")  # B6 and C7 at 19

    assert sum(label.octave_sign for label in labels_of(drill, VIOLIN)) == signed


@pytest.mark.parametrize("stage", [2, 3, 4, 5])
def test_a_group_that_crosses_strings_keeps_its_ledger_lines(stage: int) -> None:
    drill = entry(f"12-whole-place22-strings4321-stage{stage}-low-same")

    assert not any(label.octave_sign for label in labels_of(drill, VIOLIN))


@pytest.mark.parametrize("limit", ["E5", "A5", "C6", "C7"])
@pytest.mark.parametrize("stage", [1, 2, 3, 4, 5])
@pytest.mark.parametrize("frame", ["12-whole", "34-half", "1234-whole.half.whole"])
def test_notes_rise_and_fall_within_a_group_as_they_sound(
    limit: str, stage: int, frame: str
) -> None:
    early = replace(VIOLIN, octave_sign_from=Pitch.parse(limit))
    drill = entry(f"{frame}-place12-strings4321-stage{stage}-low-same", instrument=early)
    signs = iter(labels_of(drill, early))
    for group in groups(drill.events):
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
    drill = entry(f"12-whole-place12-strings4321-stage{stage}-low-same", instrument=early)
    signed = {
        note.stop.string
        for event, label in zip(drill.events, labels_of(drill, early), strict=True)
        for note in event.notes
        if label.octave_sign
    }

    assert signed == ({1} if stage == 1 else set())


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
