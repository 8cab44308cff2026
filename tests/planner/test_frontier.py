"""What a player could meet next, against asking every drill of the area."""

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from kit.knowing import LOW, SMALL, TODAY, day, knowing, pool_of, short, shorts
from kit.players import gate_of, next_to

from bookgen.model.drill import Drill
from bookgen.plan.record import Result
from bookgen.planner.frontier import SOON, Frontier, tie
from bookgen.planner.knowledge import Knowledge
from bookgen.planner.progress import hand_of

POOL = pool_of(SMALL)
FEW = settings(max_examples=30, deadline=None)
START, SECOND, THIRD = shorts("12W2 4321 1 | 12W2 4321 2 | 12W2 4321 3")
WAYS = shorts("12W2 4321 1 | 12W2 4321 1 mirror | 12W2 4321 1 high | 12W2 4321 1 high mirror")
LOW_FIRST = short("12W1 4321 1")
some = st.lists(st.tuples(st.sampled_from(POOL), st.integers(-9, -1)), min_size=1, max_size=12)


def frontier(knowledge: Knowledge, today: date = TODAY) -> Frontier:
    return Frontier(knowledge, today, "Ines")


def secure_on(knowledge: Knowledge, drill: Drill, *offsets: int) -> None:
    for offset in offsets:
        knowledge.take(drill, Result.SECURE, day(offset))


@FEW
@given(some)
def test_everything_is_ahead_that_is_linked_and_waits_for_nothing(
    played: list[tuple[Drill, int]],
) -> None:
    knowledge = knowing(area=SMALL)
    for drill, offset in sorted(played, key=lambda one: one[1]):
        secure_on(knowledge, drill, offset)
    days = {drill: len({day for other, day in played if other == drill}) for drill, _ in played}
    enough = 1 if knowledge.progress.idle >= 3 else 2
    tops = {hand_of(one): max(o.stage for o in days if hand_of(o) == hand_of(one)) for one in days}
    settled = max(tops.values()) >= 3
    slow = {
        drill
        for drill in POOL
        if drill not in days
        and any(next_to(drill, other) for other in days)
        and (drill.stage == 1 or days.get(gate_of(drill), 0) >= enough)
        and (drill.stage > 1 or settled or hand_of(drill) in tops or drill.place > 1)
    }

    assert set(frontier(knowledge).ahead) == slow


def test_a_stage_waits_for_the_second_day_of_the_one_before() -> None:
    knowledge = knowing(area=LOW)
    secure_on(knowledge, START, -2, -2)
    assert SECOND not in frontier(knowledge).ahead
    secure_on(knowledge, START, -1)
    assert SECOND in frontier(knowledge).ahead
    knowledge.take(START, Result.NOT_YET, day(-1))
    assert SECOND not in frontier(knowledge).ahead
    secure_on(knowledge, START, 0)
    assert SECOND in frontier(knowledge).ahead, "the days before still count"


def test_after_a_rest_one_day_is_enough() -> None:
    knowledge = knowing(START, area=LOW)
    secure_on(knowledge, SECOND, -6)
    for offset in range(-5, -3):
        secure_on(knowledge, START, offset)
    assert (knowledge.progress.idle, THIRD in frontier(knowledge).ahead) == (2, False)
    secure_on(knowledge, START, -3)
    assert (knowledge.progress.idle, THIRD in frontier(knowledge).ahead) == (3, True)


@pytest.mark.parametrize(("since", "opens"), [(6, False), (7, True)])
def test_hope_goes_one_stage_a_week(since: int, *, opens: bool) -> None:
    knowledge = knowing(area=LOW)
    for offset in (-since, -1):
        knowledge.presume(START, day(offset))
    assert (SECOND in frontier(knowledge).ahead) is opens

    secure_on(knowledge, START, 0)
    assert SECOND in frontier(knowledge).ahead, "the log says so"


def test_a_low_first_finger_waits_for_the_ordinary_hand() -> None:
    area = replace(LOW, positions=frozenset({"half", "1st"}))
    known = knowing(START, short("12W2 4321 1 high"), area=area)
    assert hand_of(LOW_FIRST) not in map(hand_of, frontier(known).ahead)
    assert hand_of(short("12H2 4321 1")) in map(hand_of, frontier(known).ahead)

    known.trust([SECOND, THIRD])
    assert hand_of(LOW_FIRST) in map(hand_of, frontier(known).ahead)


def test_an_opposite_that_is_owed_comes_before_all_else() -> None:
    known = knowing(START, area=LOW)
    firsts = [drill for rank, _, drill in frontier(known).ranked if rank < SOON]

    assert firsts
    assert {drill for drill in firsts if not known.progress.is_owed(drill)} == set()
    lead, back = shorts("12W2 4321 1 high | 12W2 4321 1 mirror")
    assert {lead, back} <= set(firsts)
    known.trust([lead, back])
    assert [drill for rank, _, drill in frontier(known).ranked if rank < SOON] == []


def test_the_seed_breaks_ties_the_same_way_on_every_day() -> None:
    known = knowing(*WAYS, area=LOW)
    orders = {tuple(sorted(POOL, key=lambda drill: tie(seed, drill))) for seed in "ABCD"}

    assert len(orders) == 4
    assert frontier(known, day(1)).ranked == frontier(known, day(2)).ranked
