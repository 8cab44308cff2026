"""The graph of an area against a plain search through all its drills."""

from dataclasses import replace
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st
from kit.drills import VIOLA, VIOLIN, entry
from kit.planning import difficulty_parts, ordinary_pairs
from kit.shorthand import frame, specimen

from bookgen.model.dimension import Dimension
from bookgen.model.drill import Drill
from bookgen.model.move import moves_of
from bookgen.model.spacing import Frame, Spacing
from bookgen.model.units import Semitones, StringNumber
from bookgen.planner.area import Area, string_sets
from bookgen.planner.graph import Graph
from bookgen.planner.minutes import minutes_of
from bookgen.planner.pool import pool
from bookgen.readers.weights import read_weights

WEIGHTS = read_weights()
AREA = Area(ordinary_pairs(VIOLIN), frozenset({"1st", "2nd", "8th"}), string_sets(VIOLIN, 3), 4)
GRAPH = Graph(VIOLIN, AREA, WEIGHTS)
POOL = list(pool(VIOLIN, AREA))
drills = st.sampled_from(POOL)


def near(one: Drill, other: Drill) -> bool:
    """A change of place is small or an octave, a stage is the next or the one before."""
    return abs(one.place - other.place) in {0, 1, 2, 12} and abs(one.stage - other.stage) <= 1


@given(drills)
def test_neighbours_are_all_drills_of_the_area_that_differ_in_one_thing(drill: Drill) -> None:
    slow = {
        (changes[0], other)
        for other in POOL
        if len(changes := drill.changes_to(other)) == 1 and near(drill, other)
    }

    assert set(GRAPH.neighbours(drill)) == slow
    assert len(GRAPH.neighbours(drill)) == len(slow)


@given(drills)
def test_joined_both_ways(drill: Drill) -> None:
    for dimension, other in GRAPH.neighbours(drill):
        assert (dimension, drill) in GRAPH.neighbours(other)


def test_every_kind_of_neighbour_is_found() -> None:
    kinds = {dimension for drill in POOL for dimension, _ in GRAPH.neighbours(drill)}

    assert kinds == set(Dimension) - {Dimension.SHIFT, Dimension.FINGERS}, "pairs that do not shift"


def test_the_order_is_fixed() -> None:
    again = Graph(VIOLIN, AREA, WEIGHTS)

    for drill in reversed(POOL):
        assert again.neighbours(drill) == GRAPH.neighbours(drill)


@given(drills)
def test_the_quick_answers_are_those_of_the_parts(drill: Drill) -> None:
    parts = difficulty_parts(drill, VIOLIN)

    assert abs(GRAPH.difficulty(drill) - sum(parts.values())) < 1e-9
    assert GRAPH.minutes(drill) == minutes_of(drill)
    assert GRAPH.moves(drill) == moves_of(drill)


@given(drills)
def test_what_the_area_holds_the_graph_holds(drill: Drill) -> None:
    assert AREA.holds(drill, VIOLIN)
    assert GRAPH.holds(drill)
    for other in (
        replace(drill, place=Semitones(drill.place + 3)),
        replace(drill, stage=5),
        replace(drill, strings=(StringNumber(2), StringNumber(1))),
        replace(drill, instrument="viola"),
    ):
        outside = other.instrument != "violin" or not AREA.holds(other, VIOLIN)
        assert GRAPH.holds(other) is not outside


def test_a_drill_outside_still_has_neighbours_inside() -> None:
    outside = entry("12-augmented-place2-strings4321-stage1-low-same").drill

    assert not GRAPH.holds(outside)
    assert {dimension for dimension, _ in GRAPH.neighbours(outside)} == {Dimension.SPACING}


def test_frames_of_four_fingers_have_their_own_neighbours() -> None:
    frames = (frame("WHW"), frame("WWH"), frame("HWW"))
    graph = Graph(VIOLA, Area(frames, frozenset({"1st"}), string_sets(VIOLA, 4), 5), WEIGHTS)
    drill = next(pool(VIOLA, graph.area))

    assert {dimension for dimension, _ in graph.neighbours(drill)} >= {
        *(Dimension.SPACING, Dimension.STAGE, Dimension.LEAD, Dimension.RETURN)
    }
    assert drill.frame == frames[0]


def test_a_finger_joins_others_that_stay_where_they_are() -> None:
    pairs = ordinary_pairs(VIOLIN)
    three = Frame((1, 2, 3), (Spacing.WHOLE, Spacing.HALF))
    area = Area((*pairs, three, frame("WHW")), frozenset({"1st"}), string_sets(VIOLIN, 4), 3)
    graph = Graph(VIOLIN, area, WEIGHTS)
    every = list(pool(VIOLIN, area))
    for drill in every:
        joined = {one for how, one in graph.neighbours(drill) if how is Dimension.FINGERS}
        assert joined == {one for one in every if drill.changes_to(one) == (Dimension.FINGERS,)}
    key = "violin-123-whole.half-place2-strings4321-stage1-low-same"
    near = {one.key for _, one in graph.neighbours(Drill.parse_key(key))}
    assert near >= {
        key.replace("123-whole.half", "12-whole"),
        key.replace("123-whole.half-place2", "23-half-place4"),
        key.replace("123-whole.half", "1234-whole.half.whole"),
    }


def test_another_tuning_and_hand() -> None:
    cello = specimen("cello")
    labels = frozenset({"1st", "2nd", "3rd", "I", "II", "III"})
    graph = Graph(cello, Area(ordinary_pairs(cello), labels, string_sets(cello, 3), 5), WEIGHTS)
    found = list(pool(cello, graph.area))

    assert found
    assert all(graph.holds(drill) and graph.difficulty(drill) >= 0 for drill in found)
    assert all(here != there for here, there in pairwise(found))


@given(drills)
def test_the_same_drill_on_more_strings_and_at_the_stages_beside(drill: Drill) -> None:
    wider = {
        other
        for other in POOL
        if drill.changes_to(other) == (Dimension.STRINGS,)
        and set(drill.strings) < set(other.strings)
    }
    gate, following = GRAPH.gate(drill), GRAPH.following(drill)

    assert set(GRAPH.wider(drill)) == wider
    assert (gate is None) == (drill.stage == 1)
    assert gate is None or (gate.stage, gate.changes_to(drill)) == (
        drill.stage - 1,
        (Dimension.STAGE,),
    )
    later = [other for other in POOL if other.stage == drill.stage + 1]
    later = [other for other in later if drill.changes_to(other) == (Dimension.STAGE,)]
    assert following == (later[0] if later else None)
