"""Which moves a player knows."""

from collections.abc import Sequence
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from kit.drills import VIOLIN, entry
from kit.planning import ordinary_pairs

from bookgen.model.drill import Drill
from bookgen.model.move import moves_of
from bookgen.plan.document import Role
from bookgen.plan.record import Met, Played, Printed, Record, Result, Standing
from bookgen.planner.area import Area, string_sets
from bookgen.planner.coverage import Cell, Count, area_moves, counts, coverage
from bookgen.planner.pool import pool

START = date(2026, 12, 1)
S, N = Result.SECURE, Result.NOT_YET
AREA = Area(ordinary_pairs(VIOLIN), frozenset({"1st", "2nd"}), string_sets(VIOLIN, 3), 5)
POOL = tuple(pool(VIOLIN, AREA))
FIRST = entry("12-whole-place2-strings4321-stage1-low-same").drill
SECOND = entry("12-whole-place2-strings4321-stage2-low-same").drill
Told = tuple[Drill, int, Result | None]
BOTH = moves_of(FIRST) & moves_of(SECOND)


def records(told: Sequence[Told]) -> list[Record]:
    """One record of each drill, from printings on days of December."""
    found = []
    for number, drill in enumerate(dict.fromkeys(drill for drill, *_ in told), start=1):
        days = sorted((day, result) for other, day, result in told if other == drill)
        printed = tuple(Printed(START + timedelta(day), Role.NEW) for day, _ in days)
        results = tuple(Played(START + timedelta(day), result) for day, result in days if result)
        found.append(Record(number, drill, printed, results))
    return found


results = st.lists(
    st.tuples(st.sampled_from(POOL[:40]), st.integers(0, 9), st.sampled_from([S, N, None])),
    max_size=8,
    unique_by=lambda entry: entry[:2],
)


def test_the_drills_share_moves_and_have_their_own() -> None:
    assert BOTH
    assert moves_of(FIRST) - BOTH
    assert moves_of(SECOND) - BOTH


def test_what_was_not_played_is_new() -> None:
    assert coverage(records([(FIRST, 0, None)])) == {}


@pytest.mark.parametrize(
    ("told", "shared", "own"),
    [
        ([(FIRST, S), (SECOND, N)], Standing.SECURE, Standing.PRACTISED),
        ([(SECOND, N), (FIRST, S)], Standing.SECURE, Standing.PRACTISED),
        ([(FIRST, S), (FIRST, N), (SECOND, S)], Standing.SECURE, Standing.SECURE),
        ([(FIRST, S), (FIRST, N), (SECOND, N)], Standing.PRACTISED, Standing.PRACTISED),
    ],
)
def test_a_move_is_secure_while_one_of_its_drills_is(
    told: list[tuple[Drill, Result]], shared: Standing, own: Standing
) -> None:
    met = coverage(records([(drill, day, result) for day, (drill, result) in enumerate(told)]))

    last = START + timedelta(len(told) - 1)
    assert {met[move] for move in BOTH} == {Met(shared, last)}
    assert {met[move].standing for move in moves_of(SECOND) - BOTH} == {own}


def test_what_the_player_is_said_to_know_is_secure_until_a_result_says_otherwise() -> None:
    met = coverage(records([(FIRST, 0, N)]), secure=[FIRST, SECOND])

    assert {met[move] for move in moves_of(FIRST) - BOTH} == {Met(Standing.PRACTISED, START)}
    assert {met[move] for move in BOTH} == {Met(Standing.SECURE, START)}
    assert {met[move] for move in moves_of(SECOND) - BOTH} == {Met(Standing.SECURE, None)}


@given(results, st.integers(0, 9))
def test_coverage_against_its_rule_in_plain_words(told: list[Told], until: int) -> None:
    met = coverage(reversed(records(told)), until=START + timedelta(until))

    marked = sorted((one for one in told if one[2] and one[1] <= until), key=lambda one: one[1])
    for move in area_moves(VIOLIN, AREA):
        holding = [one for one in marked if move in moves_of(one[0])]
        last = {drill: result for drill, _, result in holding}
        if not holding:
            assert move not in met
        else:
            secure = S in last.values()
            standing = Standing.SECURE if secure else Standing.PRACTISED
            assert met[move] == Met(standing, START + timedelta(holding[-1][1]))


def test_the_moves_of_an_area_are_those_of_all_its_drills() -> None:
    every = frozenset[object]().union(*(moves_of(drill) for drill in POOL))

    assert area_moves(VIOLIN, AREA) == every


def test_every_move_counts_once_from_the_nut_upwards() -> None:
    met = coverage(records([(FIRST, 0, S), (SECOND, 0, N)]))
    table = counts(VIOLIN, AREA, met)
    total = sum(table.values(), start=Count())

    assert total.total == len(area_moves(VIOLIN, AREA))
    assert total.secure == len(moves_of(FIRST))
    assert total.practised == len(moves_of(SECOND) - BOTH)
    assert table[Cell("1st", (1, 2))].secure == len(moves_of(FIRST))
    assert list(dict.fromkeys(cell.position for cell in table)) == ["1st", "2nd"]
    assert {cell.fingers for cell in table} == {(1, 2), (2, 3), (3, 4)}


def test_moves_outside_the_area_do_not_count() -> None:
    far = entry("12-whole-place9-strings4321-stage1-low-same").drill
    total = sum(counts(VIOLIN, AREA, coverage(records([(far, 0, S)]))).values(), start=Count())

    assert total == Count(new=len(area_moves(VIOLIN, AREA)))
