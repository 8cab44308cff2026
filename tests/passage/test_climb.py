"""The way from what is secure to a drill, one change a step."""

from dataclasses import replace
from heapq import heappop, heappush
from itertools import count, pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from kit.knowing import short
from kit.reading import differing, reading
from kit.shorthand import VIOLIN, specimen, strings

from bookgen.model.drill import Drill
from bookgen.model.music import play
from bookgen.passage.climb import on_one_string, open_area, way_to
from bookgen.planner.graph import Graph
from bookgen.planner.pool import pool
from bookgen.readers.weights import read_weights

GRAPH = Graph(VIOLIN, open_area(VIOLIN), read_weights())
START = short("12W2 4321 1")
AREA = replace(GRAPH.area, positions=frozenset({"1st", "2nd", "3rd"}))
SMALL = Graph(VIOLIN, replace(AREA, strings=(strings("4321"), strings("32"))), read_weights())
POOL = [d for d in pool(VIOLIN, SMALL.area) if d.frame.fingers in {(1, 2), (2, 3), (3, 4)}]
"""Neighbouring fingers, stretches too: links join no others to them."""


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
