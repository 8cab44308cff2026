"""Drills that only a passage asks for: no area holds them, days do not bring them."""

import pytest
from kit.drills import VIOLA, VIOLIN, drill_of
from kit.planning import ordinary_pairs

from bookgen.model.dimension import Dimension
from bookgen.model.drill import Drill
from bookgen.model.spacing import Frame, Spacing
from bookgen.model.units import Semitones, StringNumber
from bookgen.planner.area import Area, string_sets
from bookgen.planner.graph import Graph
from bookgen.planner.minutes import minutes_of
from bookgen.planner.pool import pool
from bookgen.readers.weights import read_weights

WEIGHTS = read_weights()
THREE = Frame((1, 2, 3), (Spacing.WHOLE, Spacing.HALF))
BASE = drill_of("12-whole-place2-strings43-stage3-low-same")
KINDS = [
    "12-whole-place2to4-strings43-stage3-low-same",
    "2-place4-strings43-stage3-low-same",
    "12-whole-place2-strings42-stage3-low-same",
    "123-whole.half-place2-strings43-stage3-low-same",
]
CHANGES = [Dimension.SHIFT, Dimension.PAIR, Dimension.STRINGS]


def wide(*frames: Frame) -> Area:
    """An area that names all of it: fingers alone, skipped strings, three fingers, a shift."""
    alone = tuple(Frame((finger,), ()) for finger in (1, 2, 3, 4))
    shift = Frame((1, 2), (Spacing.WHOLE,), Semitones(2))
    skip = (StringNumber(4), StringNumber(2))
    strings = (*string_sets(VIOLIN, 2), skip)
    return Area((*ordinary_pairs(VIOLIN), *alone, shift, *frames), None, strings, 5)


@pytest.mark.parametrize("key", KINDS)
def test_no_area_holds_it_however_wide(key: str) -> None:
    drill, area = drill_of(key), wide(THREE)

    assert drill.refusal(VIOLIN) is None
    assert not area.holds(drill, VIOLIN)
    assert not Graph(VIOLIN, area, WEIGHTS).holds(drill)
    assert drill not in set(pool(VIOLIN, Area((drill.frame,), None, (drill.strings,), 5)))


def test_an_area_still_holds_three_fingers_where_each_plays_on_its_own_string() -> None:
    area = Area((THREE,), None, string_sets(VIOLIN, 2), 5)
    found = [drill for drill in pool(VIOLIN, area) if drill.place == 2]

    assert {len(drill.strings) for drill in found if drill.stage <= 2} == {2, 3, 4}
    assert {len(drill.strings) for drill in found if drill.stage >= 3} == {3, 4}


@pytest.mark.parametrize(("key", "change"), list(zip(KINDS[:3], CHANGES, strict=True)))
def test_where_it_is_asked_for_it_is_one_step_from_the_ordinary_drill(
    key: str, change: Dimension
) -> None:
    drill = drill_of(key)
    graph = Graph(VIOLIN, Area((BASE.frame,), None, (BASE.strings,), 3), WEIGHTS, [drill])

    assert graph.holds(drill)
    assert (change, drill) in graph.neighbours(BASE)
    assert (change, BASE) in graph.neighbours(drill)
    assert BASE.changes_to(drill) == drill.changes_to(BASE) == (change,)


def test_every_neighbour_that_is_asked_for_differs_in_the_one_thing() -> None:
    asked = [drill_of(key) for key in KINDS]
    graph = Graph(VIOLIN, wide(THREE), WEIGHTS, asked)
    for drill in (BASE, *asked):
        for dimension, other in graph.neighbours(drill):
            assert drill.changes_to(other) == (dimension,), (drill.key, other.key)


def test_a_finger_alone_begins_where_it_crosses() -> None:
    drills = [drill_of(f"1-place2-strings4321-stage{stage}-low-same") for stage in (3, 4, 5)]
    graph = Graph(VIOLIN, wide(), WEIGHTS, drills)

    assert [graph.gate(drill) for drill in drills] == [None, *drills[:2]]


def test_a_shift_takes_its_own_time() -> None:
    graph = Graph(VIOLIN, wide(), WEIGHTS)
    for key in ("12-whole-place2-strings43-stage1-low-same", KINDS[0].replace("stage3", "stage1")):
        assert graph.minutes(drill_of(key)) == minutes_of(drill_of(key))


def test_a_key_is_the_same_drill_on_the_viola() -> None:
    keys = [f"viola-{key}" for key in KINDS]

    assert [Drill.parse_key(key).refusal(VIOLA) for key in keys] == [None] * 4
