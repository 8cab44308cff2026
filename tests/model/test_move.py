"""Moves: which there are in a drill."""

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from kit.drills import VIOLIN
from kit.refusing import refused
from kit.shorthand import VIOLA, drills, steps

from bookgen.model.drill import Drill
from bookgen.model.move import Move, moves_of
from bookgen.model.music import play
from bookgen.model.stop import Stop
from bookgen.model.units import Semitones

HEIGHTS = {1: Semitones(2), 2: Semitones(4)}


def moves(text: str) -> set[Move]:
    """Read `IV1-IV2 IV2-III1`: moves of a whole step between fingers 1 and 2 from place 2."""
    ends = (steps(pair.replace("-", " ")) for pair in text.split())
    stops = ([Stop(string, finger, HEIGHTS[finger]) for string, finger in end] for end in ends)
    return {Move(first, then) for first, then in stops}


def hand(stage: int, way: str) -> frozenset[Move]:
    return moves_of(Drill.parse_key(f"violin-12-whole-place2-strings21-stage{stage}-{way}"))


@pytest.mark.published("worked by hand from the definition of the stages")
@pytest.mark.parametrize(
    ("stage", "way", "expected"),
    [
        (1, "low-mirror", "II1-II2 II2-I1 I1-I2 I2-I1 I1-II2 II2-II1"),
        (1, "low-same", "II1-II2 II2-I1 I1-I2 I2-I1 I2-II1 II1-II2"),
        (3, "low-same", "II1-I2 I2-I1 I1-II2"),
        (5, "low-same", "II1-I2 I2-I1 I1-II2"),
    ],
)
def test_the_moves_of_a_hand_on_two_strings(stage: int, way: str, expected: str) -> None:
    assert hand(stage, way) == moves(expected)


@settings(suppress_health_check=[HealthCheck.filter_too_much], max_examples=50)
@given(st.sampled_from([VIOLIN, VIOLA]).flatmap(drills))
def test_the_moves_are_those_of_the_notes_that_are_played(drill: Drill) -> None:
    instrument = VIOLIN if drill.instrument == "violin" else VIOLA
    assume(drill.refusal(instrument) is None)
    played = [event.notes[-1] for event in play(drill, instrument) if not event.notes[-1].held]
    if drill.stage == 5:
        played = [note for event in play(drill, instrument) for note in event.notes]
    stops = [note.stop for note in played]

    assert {(move.first, move.then) for move in moves_of(drill)} >= {
        (one, other) for one, other in pairwise(stops) if one != other and drill.stage < 5
    }
    assert {stop for move in moves_of(drill) for stop in (move.first, move.then)} == set(stops)


def test_overlap_and_double_stops_have_the_moves_of_stage_3() -> None:
    drill = Drill.parse_key("violin-23-half-place4-strings4321-stage3-high-same")

    assert moves_of(replace(drill, stage=4)) == moves_of(drill) == moves_of(replace(drill, stage=5))


def test_a_finger_that_stays_is_no_move() -> None:
    (string, finger) = steps("II1")[0]
    first = Stop(string, finger, HEIGHTS[finger])
    with refused("finger 1 stays where it is"):
        Move(first, first)


def test_a_move_knows_that_it_crosses() -> None:
    assert {move.crosses for move in moves("II1-II2")} == {False}
    assert {move.crosses for move in moves("II1-I2")} == {True}
