"""What a day knows of itself while it fills up."""

import pytest
from kit.knowing import day, knowing, short

from bookgen.plan.document import Character, Role
from bookgen.planner.filling import Filling
from bookgen.planner.knowledge import Knowledge
from bookgen.planner.outline import Outline, Pick

START = short("12W2 4321 1")
NEXT, CROSSING = short("12W2 4321 2"), short("12W2 4321 3")
HALF = short("12H2 4321 1")


def filling(knowledge: Knowledge, minutes: float = 10.0, *banned: str) -> Filling:
    outline = Outline(day(0), Character.ORDINARY, minutes, 4.0, 1)
    return Filling(knowledge, outline, frozenset(map(short, banned)))


def test_a_drill_is_reachable_over_a_link_and_the_stage_before_it() -> None:
    empty = filling(knowing())
    assert not empty.reachable(START)
    empty.put(Pick(START, Role.START, 2.0))

    assert empty.reachable(NEXT)
    assert empty.reachable(HALF)
    assert not empty.reachable(CROSSING)
    assert filling(knowing(NEXT)).reachable(CROSSING)


def test_what_stands_on_the_day_or_is_banned_does_not_come() -> None:
    found = filling(knowing(START), 10.0, "12H2 4321 1")
    found.put(Pick(START, Role.START, 2.0))

    assert not found.allowed(START)
    assert not found.allowed(HALF)
    assert found.allowed(NEXT)


def test_new_moves_take_from_the_minutes_and_the_hands_for_new_ones() -> None:
    found = filling(knowing(START))
    found.put(Pick(START, Role.START, 2.0))
    assert (found.left, found.new_left, found.hands_left) == (8.0, 4.0, 1)
    found.put(Pick(HALF, Role.NEW, 2.0))
    assert (found.left, found.new_left, found.hands_left) == (6.0, 2.0, 0)


@pytest.mark.parametrize(("minutes", "fewest"), [(3.0, 1), (6.0, 2), (10.0, 4), (45.0, 4)])
def test_a_day_has_so_many_drills_at_least(minutes: float, fewest: int) -> None:
    assert filling(knowing(), minutes).fewest == fewest


def test_a_day_is_full_when_its_drills_stretch_over_it() -> None:
    found = filling(knowing(START, HALF, NEXT, CROSSING), 10.0)
    for drill in (START, HALF, NEXT):
        found.put(Pick(drill, Role.AGAIN, 2.0))
    assert found.reach() == 10.0
    assert not found.full()
    found.put(Pick(CROSSING, Role.AGAIN, 1.5))
    assert found.full()
