"""A few drills that lead to a spot: what they hold is what the spot has."""

from collections.abc import Iterable
from itertools import pairwise

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from kit.fingered import solved
from kit.knowing import short
from kit.phrases import phrase
from kit.shorthand import VIOLIN

from bookgen.model.drill import Drill
from bookgen.model.move import Move
from bookgen.model.music import play
from bookgen.model.stop import Stop
from bookgen.passage.climb import open_area
from bookgen.passage.groups import grouped
from bookgen.passage.ladder import Ladders
from bookgen.passage.secure import Secure
from bookgen.passage.sounds import Sounds
from bookgen.plan.passage import Ladder, Need, Spot
from bookgen.planner.graph import Graph
from bookgen.readers.weights import read_weights

SINGLE = ("A3", "B3", "E4", "F4", "F#4", "G4", "B4", "C5", "C#5", "D5", "E5:4", "F#5", "G5")
TONES = st.sampled_from([*SINGLE, "E4+C5", "F4+D5", "G4+B4"])
MOST = 4


def ladders_for(text: str, secure: Iterable[Drill] = ()) -> Ladders:
    written = phrase(text)
    fingering = grouped(solved(written).best, written, VIOLIN)
    graph = Graph(VIOLIN, open_area(VIOLIN), read_weights())
    return Ladders(Sounds.of(fingering, written, VIOLIN), graph, Secure.of(secure), MOST, 100)


def ladder(text: str, secure: Iterable[Drill] = ()) -> Ladder:
    """The ladder to a spot that is the whole text."""
    found = ladders_for(text, secure)
    (one,) = found.to_spots([Spot(1, 0, len(found.sounds) - 1, 0, {}, 1.0)])
    return one


def struck(drill: Drill) -> tuple[set[tuple[Stop, Stop]], set[frozenset[Stop]]]:
    """The notes of a drill as they are played: what follows what, and what sounds together."""
    events = play(drill, VIOLIN)
    stops = [tuple(note.stop for note in event.notes) for event in events]
    pairs = pairwise(stops)
    turns = {(one[0], other[0]) for one, other in pairs if len(one) == len(other) == 1}
    return turns, {frozenset(some) for some in stops if len(some) > 1}


def met(need: Need, drills: Iterable[Drill]) -> bool:
    for drill in drills:
        turns, together = struck(drill)
        if need.together and frozenset({need.first, need.then}) in together:
            return True
        if not need.together and (need.first, need.then) in turns:
            return True
    return False


@settings(max_examples=8, deadline=None)
@given(st.lists(TONES, min_size=2, max_size=6))
@example(["A3", "E4", "A3"])
def test_every_need_is_met_by_the_notes_or_told(words: list[str]) -> None:
    ladders = ladders_for(" ".join(words))
    last = len(ladders.sounds) - 1
    (one,) = ladders.to_spots([Spot(1, 0, last, 0, {}, 1.0)])
    told = {*one.missing, *one.crowded}

    assert len(one.drills) <= MOST
    assert [drill.stage for drill in one.drills] == sorted(drill.stage for drill in one.drills)
    for need in ladders.needs(range(last + 1)):
        assert met(need, one.drills) != (need in told)


def test_a_crossing_is_met_where_notes_cross_and_its_hand_comes_string_by_string_first() -> None:
    one = ladder("D5:3@II G5:2@I")

    assert [drill.stage for drill in one.drills] == [1, 3]
    assert one.meets_all


def test_a_double_stop_is_met_at_stage_5_after_its_hand_and_its_crossing() -> None:
    one = ladder("E4:1@III+C5:2@II")
    assert [drill.stage for drill in one.drills] == [1, 3, 5]


def test_a_frame_of_three_that_has_everything_stands_last() -> None:
    one = ladder("B4:1@II C5:2@II D5:3@II C5:2@II B4:1@II D5:3@II")
    assert one.drills[-1].frame.fingers == (1, 2, 3)
    assert one.meets_all


def test_what_is_secure_is_not_drilled_again() -> None:
    known = short("12H2 4321 1 mirror")

    assert ladder("B4:1@II C5:2@II", [known]).drills == ()
    assert ladder("B4:1@II C5:2@II", [known]).meets_all
    assert ladder("C5:2@II F#5:1@I", [known]).drills[0].stage == 3


def test_a_spot_shares_the_drills_of_an_earlier_one() -> None:
    found = ladders_for("B4:1@II C5:2@II r B4:1@II C5:2@II")
    one, other = found.to_spots([Spot(1, 0, 1, 1, {}, 2.0), Spot(2, 2, 3, 3, {}, 1.0)])

    assert one.drills == other.drills == other.shared
    assert one.shared == ()


def test_the_ladders_of_all_frames_meet_all_that_these_have() -> None:
    found = ladders_for("B4 C5 D5 F#5 G5 D5 C5 B4")
    (one,) = found.to_frames(())

    assert one.letter == "A"
    assert one.meets_all
    assert all(met(need, one.drills) for need in found.needs(range(len(found.sounds))))


@pytest.mark.published("common practice, no source")
def test_a_changed_finger_among_open_strings_is_tried_against_its_neighbour() -> None:
    found = ladders_for("B4:1@II C5:2@II r A4:0 C#5:2@II A4:0 B4:1@II C#5:2@II B4:1@II C#5:2@II")
    needs = found.needs(range(2, 5))

    assert needs == [
        Need(
            Stop(needs[0].first.string, 1, needs[0].first.semitones),
            needs[0].then,
            together=False,
            place=2,
        )
    ]
    assert Move(needs[0].first, needs[0].then).crosses is False


def test_where_the_pages_are_full_a_spot_has_only_drills_that_stand_there() -> None:
    found = ladders_for("B4:1@II C5:2@II r F#5:1@I G5:2@I r D5:3@II B5:4@I")
    found.in_all = 1
    one, *others = found.to_spots(
        [Spot(1, 0, 1, 1, {}, 3.0), Spot(2, 2, 3, 3, {}, 2.0), Spot(3, 4, 5, 5, {}, 1.0)]
    )

    assert len(one.drills) == 1
    assert {drill for other in others for drill in other.drills} <= set(one.drills)
    assert all(other.crowded for other in others)
