"""The easiest drill that holds a move, against a search through all drills."""

from itertools import pairwise, permutations, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from kit.drills import VIOLA, VIOLIN
from kit.planning import difficulty_parts
from kit.shorthand import hands, skips, string_sets, strings

from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.model.move import Move, moves_of
from bookgen.model.music import play, turn_of
from bookgen.model.route import Return
from bookgen.model.spacing import Frame
from bookgen.model.stop import Stop
from bookgen.model.units import Semitones, StringNumber
from bookgen.planner.containing import containing
from bookgen.readers.weights import read_weights

EFFORT = read_weights().effort


def stop(text: str) -> Stop:
    """Read `IV2@4`: finger 2 on string IV, four semitones above the open string."""
    string, at = text.split("@")
    numerals = {"I": 1, "II": 2, "III": 3, "IV": 4}
    return Stop(StringNumber(numerals[string[:-1]]), int(string[-1]), Semitones(int(at)))


def move(text: str) -> Move:
    """Read `IV2@4 IV1@5 shift`."""
    first, then, *shift = text.split()
    return Move(stop(first), stop(then), bool(shift))


@pytest.mark.published("common practice, no source")
@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("IV1@2 IV2@4", "12-whole-place2-strings43-stage1-low-mirror"),
        ("IV1@2 III1@2", "1-place2-strings43-stage3-low-same"),
        ("IV1@2 II2@4", "12-whole-place2-strings42-stage3-low-mirror"),
        ("III1@2 III1@5 shift", "1-place2to5-strings32-stage1-low-same"),
        ("III1@5 III1@2 shift", "1-place2to5-strings32-stage1-low-same"),
        ("II2@4 II1@5 shift", "12-whole-place2to5-strings32-stage1-low-same"),
        (
            "I1@2 I3@4",
            "123-half.half-place2-strings21-stage1-order231-mirror",
        ),  # no pair has a name
        ("I1@2 I3@5", "13-minor-third-place2-strings21-stage1-low-mirror"),
        ("I1@2 I4@7", "134-minor-third.whole-place2-strings21-stage1-order413-mirror"),
    ],
)
def test_a_move_and_its_drill(text: str, key: str) -> None:
    found = containing(move(text), VIOLIN, EFFORT)

    assert found is not None
    assert found.key == f"violin-{key}"
    assert move(text) in moves_of(found)


@pytest.mark.parametrize(
    "text",
    [
        "IV0@0 IV1@2",  # an open string is no stop of a hand
        "IV1@2 IV1@3",  # a finger slides while the hand stays
        "IV1@2 III1@3",
        "IV1@2 IV4@14",
        "IV1@2 IV2@30 shift",
        "IV1@2 IV2@4 shift",  # the hand that takes both has not moved, and no other one is near
    ],
)
def test_what_no_drill_has(text: str) -> None:
    found = containing(move(text), VIOLIN, EFFORT)

    assert found is None or text.endswith("shift")
    assert found is None or move(text) in moves_of(found)


@pytest.mark.parametrize(
    ("text", "fingers"),
    [
        ("IV1@2 III1@2", (1,)),
        ("III1@2 IV2@4", (1, 2)),
        ("III2@4 II3@5", (2, 3)),
        ("II1@2 I4@7", (1, 3, 4)),
        ("III3@4 IV1@2", (1, 2, 3)),
    ],
)
def test_what_is_struck_together_is_struck_in_the_drill(
    text: str, fingers: tuple[int, ...]
) -> None:
    found = containing(move(text), VIOLIN, EFFORT, together=True)

    assert found is not None
    assert found.frame.fingers == fingers
    pairs = [{note.stop for note in event.notes} for event in play(found, VIOLIN)]
    assert {move(text).first, move(text).then} in pairs


def test_a_crossing_can_be_asked_for_sooner() -> None:
    text = move("IV2@4 III1@2")
    stages = [
        found.stage
        for least in (1, 2, 3, 4)
        if (found := containing(text, VIOLIN, EFFORT, least_stage=least))
    ]

    assert stages == [1, 3, 3, 4]  # two fingers on two strings: stage 2 is stage 3


# The slow twin: every drill of one and two fingers on every strings, one after the other


def every_drill(instrument: Instrument, place: int, shift: int) -> list[Drill]:
    """All drills of one finger and of neighbours at a place, with that shift."""
    still = [
        *(Frame((finger,), ()) for finger in (1, 2, 3, 4)),
        *hands(instrument, (1, 2)),
        *hands(instrument, (2, 3)),
        *hands(instrument, (3, 4)),
    ]
    runs = [run for run in (*string_sets(instrument), *skips(instrument)) if len(run) == 2]
    found = []
    for frame, run, stage, back in product(still, runs, (1, 2, 3), Return):
        shifting = Frame(frame.fingers, frame.spacings, Semitones(shift))
        for order in permutations(frame.fingers):
            drill = Drill(instrument.key, shifting, order, Semitones(place), run, stage, back)
            if drill.refusal(instrument) is None:
                found.append(drill)
    return found


def within(drill: Drill, wanted: Move) -> bool:
    """The move comes before the turn or after it."""
    events = play(drill, {"violin": VIOLIN, "viola": VIOLA}[drill.instrument])
    turn = turn_of(events)
    halves = (events[:turn], events[turn:])
    return any(
        (one.notes[0].stop, other.notes[0].stop) == (wanted.first, wanted.then)
        for half in halves
        for one, other in pairwise(half)
    )


@settings(max_examples=15, deadline=None)
@given(st.sampled_from([VIOLIN, VIOLA]), st.integers(3, 9), st.sampled_from([0, 2, 5]), st.data())
def test_no_drill_with_so_few_fingers_is_easier(
    instrument: Instrument, place: int, shift: int, data: st.DataObject
) -> None:
    drills = every_drill(instrument, place, shift)
    drill = data.draw(st.sampled_from(drills))
    moves = [one for one in sorted(moves_of(drill)) if within(drill, one)]
    wanted = data.draw(st.sampled_from(moves))
    found = containing(wanted, instrument, EFFORT)

    assert found is not None
    assert wanted in moves_of(found)
    assert len(found.order) <= len(drill.order)
    if len(found.order) == len(drill.order):
        others = [drills, every_drill(instrument, place, 0)]
        others.append(every_drill(instrument, place + shift, 0))
        rivals = [one for some in others for one in some if len(one.order) == len(found.order)]
        least = 2 if wanted.crosses else 1
        rivals = [
            one for one in rivals if one.stage >= least and (one.stage != 2 or one.frame.shift)
        ]
        own = tuple(sorted({wanted.first.string, wanted.then.string}, reverse=True))
        rivals = [one for one in rivals if within(one, wanted)]
        rivals = [one for one in rivals if set(own) <= set(one.strings) and wanted in moves_of(one)]
        rivals = [one for one in rivals if len(own) > 1 or not one.skips]
        best = min(sum(difficulty_parts(one, instrument).values()) for one in rivals)
        assert sum(difficulty_parts(found, instrument).values()) <= best + 1e-9


def test_every_move_of_a_drill_that_a_passage_asks_for_has_a_drill() -> None:
    for key in (
        "12-whole-place2to5-strings4321-stage3-low-same",
        "123-whole.half-place2-strings43-stage3-low-same",
        "23-half-place4-strings41-stage3-high-same",
        "4-place7to9-strings432-stage1-low-same",
    ):
        for one in moves_of(Drill.parse_key(f"violin-{key}")):
            assert containing(one, VIOLIN, EFFORT) is not None, (key, one)


def test_a_move_on_one_string_is_laid_on_a_neighbour_too() -> None:
    found = containing(move("IV1@2 IV2@3"), VIOLIN, EFFORT)

    assert found is not None
    assert found.strings == strings("43")
