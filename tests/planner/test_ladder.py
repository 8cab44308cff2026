"""The way back to what was not yet secure, against a plain search step by step."""

from hypothesis import given
from hypothesis import strategies as st
from kit.knowing import SMALL, day, knowing, pool_of, short, shorts
from kit.players import next_to

from bookgen.model.drill import Drill
from bookgen.plan.record import Result
from bookgen.planner.knowledge import Knowledge
from bookgen.planner.ladder import LONGEST, easier_neighbours, nearest, next_rung, rungs

POOL = pool_of(SMALL)
GRAPH = knowing(area=SMALL).graph
some = st.sets(st.sampled_from(POOL), max_size=40)
HARD = short("12W2 4321 2 high mirror")
NEAR = shorts("12W2 4321 1 high mirror | 12W2 4321 2 mirror")
"""Easier than the hard one: the stage before, and the low lead."""


def result(knowledge: Knowledge, drill: Drill, offset: int, found: Result) -> None:
    knowledge.take(drill, found, day(offset))


def any_fits(_: Drill) -> bool:
    return True


def layers(drill: Drill) -> list[set[Drill]]:
    """Rungs by their steps down from a drill; all of them are easier than it."""
    limit = GRAPH.difficulty(drill)
    easier = {other for other in POOL if GRAPH.difficulty(other) < limit}
    found, left = [{drill}], easier
    while found[-1]:
        found.append({other for other in left if any(next_to(one, other) for one in found[-1])})
        left = left - found[-1]
    return found[1:]


@given(st.sampled_from(POOL), some, some, some)
def test_the_rung_is_as_near_as_any(
    drill: Drill, failed: set[Drill], secure: set[Drill], fitting: set[Drill]
) -> None:
    knowledge = knowing(*(one for one in POOL if one in secure - failed), area=SMALL)
    knowledge.failed.update((one, day(-1)) for one in failed)
    rung = nearest(
        knowledge, drill, easier_neighbours(knowledge, drill), lambda one: one in fitting
    )

    offers = [layer & fitting - failed for layer in layers(drill)[:LONGEST]]
    here: set[Drill] = next((layer for layer in offers if layer), set())
    assert (rung in here) if here else rung is None
    assert rung not in secure or here <= secure


@given(st.sampled_from(POOL))
def test_the_hardest_of_the_easier_neighbours_comes_first(drill: Drill) -> None:
    found = easier_neighbours(knowing(area=SMALL), drill)
    efforts = [GRAPH.difficulty(other) for other in found]

    assert set(found) == next(iter(layers(drill)), set())
    assert efforts == sorted(efforts, reverse=True)


def test_what_is_as_hard_is_no_rung() -> None:
    plain, mirrored = shorts("34W5 4321 1 | 34W5 4321 1 mirror")

    assert GRAPH.difficulty(plain) == GRAPH.difficulty(mirrored)
    assert mirrored not in easier_neighbours(knowing(area=SMALL), plain)


def test_no_step_down_leads_to_what_is_as_hard() -> None:
    knowledge = knowing(area=SMALL)
    for drill in POOL:
        alike = {one for one in POOL if GRAPH.difficulty(one) == GRAPH.difficulty(drill)}
        near = easier_neighbours(knowledge, drill)
        assert nearest(knowledge, drill, near, alike.__contains__) is None


def test_a_drill_comes_again_once_an_easier_neighbour_was_secure_on_a_later_day() -> None:
    for offset, back in ((-3, False), (-2, False), (-1, True)):
        knowledge = knowing(area=SMALL)
        result(knowledge, HARD, -2, Result.NOT_YET)
        result(knowledge, NEAR[0], offset, Result.SECURE)
        assert (next_rung(knowledge, HARD, day(-2), any_fits) == HARD) is back


def test_a_drill_waits_while_the_rung_below_waits() -> None:
    for offset, waits in ((-3, False), (-2, False), (-1, True)):
        knowledge = knowing(area=SMALL)
        result(knowledge, HARD, -2, Result.NOT_YET)
        result(knowledge, NEAR[0], offset, Result.NOT_YET)
        assert (next_rung(knowledge, HARD, day(-2), any_fits) is None) is waits


def test_a_rung_not_met_comes_before_one_that_is_secure() -> None:
    first, *_ = easier_neighbours(knowing(area=SMALL), HARD)
    knowledge = knowing(first, area=SMALL)
    result(knowledge, HARD, -2, Result.NOT_YET)

    assert next_rung(knowing(area=SMALL), HARD, day(-2), any_fits) == first
    assert next_rung(knowledge, HARD, day(-2), any_fits) not in {None, HARD, first}


def test_the_easiest_of_all_comes_again_itself() -> None:
    easiest = min(POOL, key=GRAPH.difficulty)
    knowledge = knowing(area=SMALL)
    result(knowledge, easiest, -1, Result.NOT_YET)

    assert [rung for rung, _ in rungs(knowledge, any_fits)] == [easiest]
    assert list(rungs(knowledge, lambda _: False)) == []


def test_the_longest_waiting_comes_first_and_what_lies_outside_not_at_all() -> None:
    one, other = shorts("23W4 4321 1 high | 34W5 4321 1 high")
    knowledge = knowing(area=SMALL)
    for drill, offset in ((one, -1), (other, -3), (short("12W9 4321 1"), -5)):
        result(knowledge, drill, offset, Result.NOT_YET)

    easiest = [next_rung(knowledge, drill, day(-9), any_fits) for drill in (other, one)]
    assert [rung for rung, _ in rungs(knowledge, any_fits)] == easiest
    assert len(set(easiest)) == 2


def test_the_one_on_which_most_hangs_comes_before_the_longest_waiting() -> None:
    one, other = shorts("23W4 4321 1 high | 34W5 4321 1 high")
    knowledge = knowing(area=SMALL)
    for drill, offset in ((one, -1), (other, -3)):
        result(knowledge, drill, offset, Result.NOT_YET)

    goals = [goal for _, goal in rungs(knowledge, any_fits, lambda drill: (drill != one,))]
    assert goals == [one, other]


def test_where_the_rung_below_waits_the_way_leads_on_down_to_it() -> None:
    below = NEAR[0]
    lower = easier_neighbours(knowing(area=SMALL), below)[0]
    knowledge = knowing(area=SMALL)
    result(knowledge, HARD, -3, Result.NOT_YET)
    result(knowledge, below, -2, Result.NOT_YET)
    found = dict(rungs(knowledge, any_fits, lambda drill: (drill != HARD,)))
    assert found == {lower: below}, "the same rung serves both"

    result(knowledge, lower, -1, Result.SECURE)
    assert next(rungs(knowledge, any_fits, lambda drill: (drill != HARD,))) == (below, HARD)


def test_no_rung_is_climbed_twice() -> None:
    knowledge = knowing(area=SMALL)
    result(knowledge, HARD, -3, Result.NOT_YET)
    two_down = {
        other
        for one in easier_neighbours(knowledge, HARD)
        for other in easier_neighbours(knowledge, one)
        if other not in easier_neighbours(knowledge, HARD)
    }

    def fits(drill: Drill) -> bool:
        return drill in two_down or drill == HARD

    rung = next_rung(knowledge, HARD, day(-3), fits)
    assert rung in two_down
    assert rung is not None
    result(knowledge, rung, -2, Result.SECURE)
    assert next_rung(knowledge, HARD, day(-3), fits) in {HARD, *two_down} - {rung}
