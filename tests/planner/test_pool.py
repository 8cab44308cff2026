"""Every drill of an area."""

from itertools import product

from kit.drills import VIOLIN
from kit.planning import ordinary_pairs

from bookgen.model.drill import Drill
from bookgen.model.route import Return
from bookgen.model.units import Semitones
from bookgen.planner.area import Area, string_sets
from bookgen.planner.pool import pool

AREA = Area(ordinary_pairs(VIOLIN), frozenset({"1st", "4th"}), string_sets(VIOLIN, 3), 4)


def test_the_pool_is_what_the_area_holds_and_no_more() -> None:
    every = (
        Drill("violin", frame, order, Semitones(place), strings, stage, back)
        for frame in AREA.frames
        for order in (frame.fingers, frame.fingers[::-1])
        for place, strings, stage, back in product(range(26), AREA.strings, range(1, 6), Return)
    )
    slow = [drill for drill in every if AREA.holds(drill, VIOLIN)]
    found = list(pool(VIOLIN, AREA))

    assert set(found) == set(slow)
    assert len(found) == len(slow)


def test_no_two_drills_of_the_pool_are_one() -> None:
    keys = [drill.key for drill in pool(VIOLIN, AREA)]

    assert len(set(keys)) == len(keys)
    assert not any(drill.turns_alike for drill in pool(VIOLIN, AREA) if drill.back is Return.MIRROR)
