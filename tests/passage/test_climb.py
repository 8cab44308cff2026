"""The way from what is secure to a drill, one change a step."""

from collections.abc import Collection
from dataclasses import replace
from heapq import heappop, heappush
from itertools import count, pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from kit.knowing import short
from kit.reading import differing, reading
from kit.shorthand import VIOLIN, specimen, strings

from bookgen.model.drill import Drill
from bookgen.model.music import play
from bookgen.model.spacing import Frame, Spacing
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

THREE = Frame((1, 2, 3), (Spacing.WHOLE, Spacing.HALF))
MIXED = replace(SMALL.area, frames=(*SMALL.area.frames, THREE))
OUTSIDE = short("12W14 4321 1"), short("23W4 321 1")
"""In no position and on no strings of the small area, a link away from it."""


def cost(way: list[Drill]) -> float:
    return sum(1.0 + SMALL.difficulty(drill) for drill in way)


def relaxed(drills: list[Drill], graph: Graph, known: Collection[Drill]) -> list[float]:
    """What the easiest way to each drill of stage 1 costs, by relaxing every link until none helps.

    The Bellman-Ford algorithm on arrays: no queue, no direction, no end before the last link.
    """
    rank = {drill: at for at, drill in enumerate(drills)}
    ends = [
        (rank[one], rank[other])
        for one in drills
        for _, other in graph.neighbours(one)
        if other in rank
    ]
    came, goes = np.array(ends).T
    step = np.array([1.0 + graph.difficulty(drill) for drill in drills])
    best = np.full(len(drills), np.inf)
    entered = [rank[o] for one in known for _, o in graph.neighbours(one) if o in rank]
    best[entered] = step[entered]
    best[[rank[one] for one in known if one in rank]] = 0.0
    for _ in drills:
        before = best.copy()
        np.minimum.at(best, goes, before[came] + step[goes])
        if np.array_equal(before, best):
            break
    return list(best)


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


@pytest.mark.parametrize(
    "known", [(START,), OUTSIDE, (START, *OUTSIDE, *POOL[:400:40])], ids=["one", "outside", "many"]
)
def test_each_drill_costs_what_relaxing_every_link_finds(known: tuple[Drill, ...]) -> None:
    graph = Graph(VIOLIN, MIXED, read_weights())
    drills = [drill for drill in pool(VIOLIN, MIXED) if drill.stage == 1]
    costs = relaxed(drills, graph, known)

    assert min(cost for cost in costs if cost > 0) < np.inf
    for target, least in list(zip(drills, costs, strict=True))[::17]:
        way = on_one_string(target, graph, known) if target not in known else []
        found = sum(1.0 + graph.difficulty(drill) for drill in way)
        assert found == (0.0 if least == np.inf else pytest.approx(least))


def test_links_go_both_ways() -> None:
    graph = Graph(VIOLIN, MIXED, read_weights())
    drills = [drill for drill in pool(VIOLIN, MIXED) if drill.stage == 1]
    links = {(one, other) for one in drills for _, other in graph.neighbours(one)}

    assert any(one.frame == THREE != other.frame for one, other in links)
    assert all((other, one) in links for one, other in links if other.stage == 1)


def test_only_what_is_near_the_drill_is_asked_for_its_links() -> None:
    graph = Graph(VIOLIN, open_area(VIOLIN), read_weights())
    drills = [drill for drill in pool(VIOLIN, graph.area) if drill.stage == 1]
    known = [drill for drill in drills if drill.place <= 4 and drill.frame.fingers == (1, 2)]

    assert len(on_one_string(short("34H6 4321 1"), graph, known)) == 2
    assert len(graph.joined) < len(drills) / 100


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
    hands = list(pool(instrument, replace(graph.area, highest_stage=1)))
    reached = [drill for drill in hands[::97] if way_to(drill, graph, {hands[0]})]

    assert reached
    for drill in reached:
        assert all(
            len(one.changes_to(other)) == 1
            for one, other in pairwise([hands[0], *way_to(drill, graph, {hands[0]})])
        )
