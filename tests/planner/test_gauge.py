"""How an area stands before a plan, and what the plan aims at."""

from kit.knowing import SMALL, day, pool_of, record, short
from kit.shorthand import VIOLIN

from bookgen.model.move import moves_of
from bookgen.plan.record import Result
from bookgen.planner.coverage import area_moves, coverage
from bookgen.planner.gauge import coverage_facts

SECURE, PRACTISED, AIM = short("12W2 4321 1"), short("23W4 4321 1"), short("34W5 4321 1")
MET = coverage(
    [record(1, SECURE, (-2, Result.SECURE)), record(2, PRACTISED, (-1, Result.NOT_YET))],
    until=day(0),
)
FOUND = coverage_facts(area_moves(VIOLIN, SMALL), MET, [AIM, PRACTISED, short("12W9 4321 1")])


def test_all_moves_of_the_area_are_counted_once() -> None:
    assert FOUND.secure == len(moves_of(SECURE))
    assert FOUND.practised == len(moves_of(PRACTISED))
    assert FOUND.secure + FOUND.practised + FOUND.new == len(area_moves(VIOLIN, SMALL))
    assert FOUND.aimed == len(moves_of(SECURE) | moves_of(PRACTISED) | moves_of(AIM))


def test_each_place_counts_the_moves_that_begin_or_end_there() -> None:
    every = {move for drill in pool_of(SMALL) for move in moves_of(drill)}
    for gauge in FOUND.gauges:
        place = (gauge.string, gauge.semitones)
        here = {
            move
            for move in every
            if place in {(stop.string, stop.semitones) for stop in (move.first, move.then)}
        }

        assert gauge.secure == len(here & moves_of(SECURE))
        assert gauge.practised == len(here & moves_of(PRACTISED))
        assert gauge.secure + gauge.practised + gauge.new == len(here)
        assert gauge.aimed == len(here & (moves_of(SECURE) | moves_of(PRACTISED) | moves_of(AIM)))
    assert len({(gauge.string, gauge.semitones) for gauge in FOUND.gauges}) == len(FOUND.gauges)
