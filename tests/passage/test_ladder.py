"""Ladders: the shortest way from what is secure to the hands that a passage needs."""

from dataclasses import replace
from heapq import heappop, heappush
from itertools import count, pairwise
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from kit.knowing import short
from kit.reading import differing, reading
from kit.shorthand import VIOLIN, specimen, strings

from bookgen.model.drill import Drill
from bookgen.model.move import Move
from bookgen.model.music import play
from bookgen.model.spacing import Frame, Spacing
from bookgen.model.stop import Stop
from bookgen.model.units import Semitones, StringNumber
from bookgen.passage.ladder import ladders, needed, on_one_string, open_area, pairs_of, way_to
from bookgen.plan.passage import Group
from bookgen.planner.graph import Graph
from bookgen.planner.pool import pool
from bookgen.readers.weights import read_weights

if TYPE_CHECKING:
    from collections.abc import Mapping

GRAPH = Graph(VIOLIN, open_area(VIOLIN), read_weights())
START = short("12W2 4321 1")
AREA = replace(GRAPH.area, positions=frozenset({"1st", "2nd", "3rd"}))
SMALL = Graph(VIOLIN, replace(AREA, strings=(strings("4321"), strings("32"))), read_weights())
POOL = [d for d in pool(VIOLIN, SMALL.area) if d.frame.fingers in {(1, 2), (2, 3), (3, 4)}]
"""Neighbouring fingers, stretches too: links join no others to them."""

FOURTH = Frame((1, 2, 3, 4), (Spacing.WHOLE, Spacing.HALF, Spacing.WHOLE))


def cost(way: list[Drill]) -> float:
    return sum(1.0 + SMALL.difficulty(drill) for drill in way)


def plain_cost(target: Drill, known: set[Drill]) -> float:
    """The slow twin: all stages in one search, a later stage only after the one before it.

    Raises:
        AssertionError: there is no way.
    """
    order = count()
    best: dict[Drill, float] = {}
    ahead = [(0.0, next(order), drill) for drill in known]
    while ahead:
        spent, _, drill = heappop(ahead)
        if drill in best:
            continue
        best[drill] = spent
        if drill == target:
            return spent
        for _, other in SMALL.neighbours(drill):
            if other.stage == 1 or SMALL.gate(other) == drill:
                step = spent + 1.0 + SMALL.difficulty(other)
                heappush(ahead, (step, next(order), other))
    raise AssertionError(target.key)


@settings(max_examples=8, deadline=None)
@given(st.sampled_from(POOL))
def test_no_way_is_easier(target: Drill) -> None:
    way = way_to(target, SMALL, {START})

    assert cost(way) == pytest.approx(plain_cost(target, {START}))


@settings(max_examples=20, deadline=None)
@given(st.sampled_from(POOL))
def test_every_step_changes_one_thing_by_the_notes(target: Drill) -> None:
    way = [START, *way_to(target, SMALL, {START})]
    shown = [reading(play(drill, VIOLIN)) for drill in way]

    assert way[-1] == target
    assert all(len(differing(one, other)) == 1 for one, other in pairwise(shown))
    assert len(set(way)) == len(way)


def test_what_is_known_at_an_earlier_stage_is_climbed_from() -> None:
    target = short("23H4 4321 3")

    assert way_to(target, GRAPH, {short("23H4 4321 1")}) == [short("23H4 4321 2"), target]
    assert way_to(target, GRAPH, {target}) == []


def test_where_nothing_is_known_there_is_no_way() -> None:
    assert way_to(short("23H4 4321 3"), GRAPH, set()) == []
    assert on_one_string(short("23H4 4321 1"), GRAPH, {short("12W2 4321 2")}) == []


def group(frame: Frame | None, place: int, *others: Frame) -> Group:
    return Group("A", 0, 3, frame, Semitones(place), "1st", others=others)


def moves(*ends: tuple[int, int, int]) -> list[Move]:
    stops = [Stop(StringNumber(string), finger, Semitones(at)) for string, finger, at in ends]
    return [Move(one, other) for one, other in pairwise(stops)]


@pytest.mark.published("common practice, no source")
def test_a_frame_is_learned_by_its_pairs_on_the_strings_that_it_crosses() -> None:
    crossing = moves((3, 1, 2), (2, 2, 4), (1, 4, 7))
    found = needed(group(FOURTH, 2), crossing, (), VIOLIN)

    assert [drill.key.removeprefix("violin-") for drill in found] == [
        "12-whole-place2-strings321-stage3-low-same",
        "23-half-place4-strings321-stage3-low-same",
        "34-whole-place5-strings321-stage3-low-same",
    ]


@pytest.mark.parametrize(
    ("together", "stages"), [((), [1, 1, 1]), ([(1, 3)], [5, 5, 1]), ([(3, 4)], [1, 1, 5])]
)
def test_fingers_that_do_not_cross_stay_at_stage_1_and_those_that_sound_together_do_not(
    together: list[tuple[int, int]], stages: list[int]
) -> None:
    found = needed(group(FOURTH, 2), moves((4, 1, 2), (4, 2, 4)), together, VIOLIN)

    assert [drill.stage for drill in found] == stages
    assert {drill.strings for drill in found} == {(4, 3)}


def test_a_crossing_between_outer_fingers_is_learned_by_all_pairs_between() -> None:
    found = needed(group(FOURTH, 2), moves((3, 1, 2), (2, 3, 5)), (), VIOLIN)

    assert [drill.stage for drill in found] == [3, 3, 1]


def test_a_finger_that_does_not_play_stands_between_two_that_do() -> None:
    third = Frame((1, 3), (Spacing.MINOR_THIRD,))

    assert list(pairs_of(third, Semitones(2))) == [
        (Frame.pair(1, 2, Spacing.WHOLE), 2),
        (Frame.pair(2, 3, Spacing.HALF), 4),
    ]


def test_another_frame_of_the_placement_shares_a_finger_with_it() -> None:
    low = Frame((2, 3), (Spacing.WHOLE,))
    found = needed(group(FOURTH, 2, low), moves((3, 2, 4), (2, 3, 5)), (), VIOLIN)

    assert found[-1].frame == low
    assert found[-1].place == 4


def test_a_single_finger_needs_no_drill() -> None:
    assert needed(group(None, 0), [], (), VIOLIN) == ()


def test_what_an_earlier_ladder_has_is_shared() -> None:
    needs: Mapping[str, list[Drill]] = {
        "A": [short("12H2 4321 2")],
        "B": [short("12H2 4321 2"), short("12H2 4321 3")],
    }
    first, second = ladders(needs, GRAPH, [START])

    assert first.drills[-1] == short("12H2 4321 2")
    assert second.drills == (short("12H2 4321 3"),)
    assert second.shared == (short("12H2 4321 2"),)


@pytest.mark.parametrize("key", ["cello", "double_bass"])
def test_ladders_lead_anywhere_on_other_instruments_too(key: str) -> None:
    instrument = specimen(key)
    graph = Graph(instrument, open_area(instrument), read_weights())
    hands = [drill for drill in pool(instrument, graph.area) if drill.stage == 1]
    reached = [drill for drill in hands[::29] if way_to(drill, graph, {hands[0]})]

    assert reached
    for drill in reached:
        assert all(
            len(one.changes_to(other)) == 1
            for one, other in pairwise([hands[0], *way_to(drill, graph, {hands[0]})])
        )
