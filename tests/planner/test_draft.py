"""Which drills a day gets, and what it keeps to."""

import pytest
from kit.knowing import day, knowing, short, shorts

from bookgen.model.drill import Drill
from bookgen.model.move import moves_of
from bookgen.plan.document import Character, Role
from bookgen.plan.record import Result
from bookgen.planner.area import Area
from bookgen.planner.draft import Draft
from bookgen.planner.frontier import Frontier
from bookgen.planner.knowledge import Knowledge
from bookgen.planner.outline import Outline, Pick
from bookgen.planner.progress import hand_of

START = short("12W2 4321 1")
WAYS = shorts("12W2 4321 1 | 12W2 4321 1 mirror | 12W2 4321 1 high | 12W2 4321 1 high mirror")
"""One hand in all its ways: only its stages and other hands bring moves."""

HANDS = shorts("12W2 4321 1 | 12H2 4321 1 | 23W4 4321 1 | 23H4 4321 1 | 12W3 4321 1")
ORDINARY, LIGHT, TEST = Character.ORDINARY, Character.LIGHT, Character.TEST


def draft(
    knowledge: Knowledge,
    minutes: float = 10.0,
    character: Character = ORDINARY,
    new: float = 4.0,
    hands: int = 1,
) -> Draft:
    """A day for a player, still empty."""
    outline = Outline(day(0), character, minutes, new, hands)
    return Draft(Frontier(knowledge, day(0), "Ines"), START, outline)


def of(role: Role, items: list[Pick]) -> list[Drill]:
    return [item.drill for item in items if item.role is role]


def new_hands(items: list[Pick], knowledge: Knowledge) -> int:
    """Hands past the opening's that the player has not met."""
    hands = {hand_of(item.drill) for item in items if knowledge.is_new_hand(item.drill)}
    return len(hands - {hand_of(items[0].drill)})


def test_a_first_day_opens_with_the_start_and_brings_new_moves() -> None:
    knowledge = knowing()
    items = draft(knowledge, new=5.0).fill()

    assert items[0] == Pick(START, Role.START, 2.0)
    assert of(Role.NEW, items)
    assert of(Role.AGAIN, items) == []
    assert new_hands(items, knowledge) == 1


def test_the_opening_takes_nothing_from_the_minutes_for_new_drills() -> None:
    first = draft(knowing(), new=5.0)
    first.begin()
    assert first.new_left == 5.0

    later = draft(knowing(START), new=5.0)
    later.begin()
    assert later.new_left == 5.0


@pytest.mark.parametrize("hands", [0, 1, 2])
def test_new_drills_lay_so_many_new_hands_and_no_more(hands: int) -> None:
    knowledge = knowing(*WAYS)
    items = draft(knowledge, minutes=30.0, new=5.0, hands=hands).fill()

    assert new_hands(items, knowledge) == hands


@pytest.mark.parametrize("new", [0.0, 2.0, 4.0])
def test_drills_with_new_moves_keep_to_their_minutes(new: float) -> None:
    knowledge = knowing(*WAYS)
    items = draft(knowledge, minutes=30.0, new=new).fill()
    met = set(knowledge.covered)

    spent = 0.0
    for item in items:
        spent += item.minutes if moves_of(item.drill) - met else 0.0
        met |= moves_of(item.drill)
    assert spent == sum(item.minutes for item in items if item.role is Role.NEW)
    assert new - 1.0 < spent <= new


def test_a_light_day_has_only_what_is_known() -> None:
    items = draft(knowing(*WAYS), 20.0, LIGHT, new=0.0).fill()

    assert {item.role for item in items} == {Role.START, Role.AGAIN}
    assert {item.drill for item in items} == set(WAYS), "though there is room for more"


def test_a_light_day_of_someone_who_knows_nothing_has_other_ways_of_its_opening() -> None:
    items = draft(knowing(), 6.0, LIGHT, new=0.0).fill()

    assert of(Role.NEW, items) == []
    assert {hand_of(item.drill) for item in items} == {hand_of(START)}


def test_a_cold_test_of_four_hands_stands_first() -> None:
    items = draft(knowing(*HANDS), character=TEST).fill()

    assert [item.role for item in items[:4]] == [Role.COLD] * 4
    assert [item.minutes for item in items[:4]] == [1.0] * 4
    assert of(Role.START, items) == []
    assert len({hand_of(item.drill) for item in items[:4]}) == 4


def test_a_day_for_a_cold_test_with_too_little_to_ask_is_opened_as_others() -> None:
    items = draft(knowing(*HANDS[:3]), character=TEST).fill()

    assert items[0].role is Role.START
    assert of(Role.COLD, items) == []


def test_a_cold_test_takes_what_the_day_has_room_for() -> None:
    items = draft(knowing(*HANDS), 3.0, TEST).fill()

    assert len(of(Role.COLD, items)) == 3
    assert sum(item.minutes for item in items) == 3.0


def test_ladders_take_a_quarter_of_a_day_at_most() -> None:
    knowledge = knowing(*WAYS)
    for drill in shorts("12W2 4321 2 | 12W2 4321 2 mirror | 12W2 4321 2 high | 12W2 432 2"):
        knowledge.take(drill, Result.NOT_YET, day(-1))
    day_ = draft(knowledge, 20.0)
    items = day_.fill()

    minutes = [item.minutes for item in items if item.role is Role.STEP_BACK]
    assert 0.0 < sum(minutes) <= 5.0
    assert len(minutes) >= 2


@pytest.mark.parametrize(("hands", "laid"), [(0, 0), (1, 1)])
def test_a_rung_that_lays_a_new_hand_counts_as_one(hands: int, laid: int) -> None:
    failed = short("12H2 4321 1")
    knowledge = knowing(short("12W3 4321 1"))
    knowledge.take(failed, Result.NOT_YET, day(-1))
    items = draft(knowledge, minutes=30.0, new=5.0, hands=hands).fill()

    assert (START in of(Role.STEP_BACK, items)) is bool(laid)
    assert new_hands(items, knowledge) == laid


def test_an_opening_takes_three_tenths_of_a_day_where_a_shorter_one_is_secure() -> None:
    four = Drill.parse_key("violin-1234-whole.half.whole-place2-strings4321-stage1-low-same")
    area = Area((START.frame, four.frame), frozenset({"1st"}), (START.strings,), 1)
    knowledge = knowing(four, START, area=area)
    knowledge.openings = [short("12W2 4321 1 mirror")]  # so that another hand would come

    assert knowledge.graph.minutes(four) == 3.0
    for minutes, opening in ((9.5, START), (10.0, four)):
        day_ = draft(knowledge, minutes)
        day_.begin()
        assert day_.picks[0].drill == opening


def test_a_variant_has_no_stage_before_it_on_the_day() -> None:
    items = draft(knowing(*HANDS), minutes=40.0).fill()
    here = {item.drill for item in items}
    graph = knowing().graph

    assert of(Role.OTHER_WAY, items)
    assert not any(graph.gate(drill) in here for drill in of(Role.OTHER_WAY, items))


def test_reviews_that_are_due_come_first_and_what_is_passed_last() -> None:
    knowledge = knowing()
    passed, after, due, fresh = shorts("12W2 4321 1 | 12W2 4321 2 | 12H2 4321 1 | 23W4 4321 1")
    for drill, offset in ((passed, -9), (after, -2), (due, -5), (fresh, 0)):
        knowledge.take(drill, Result.SECURE, day(offset))
    day_ = draft(knowledge)

    assert day_.due() == [due, after]
    assert day_.rested() == [due, after, fresh, passed]


def test_what_lies_outside_the_area_is_not_reviewed() -> None:
    day_ = draft(knowing(START, short("12W9 4321 1")))

    assert day_.due() == day_.rested() == [START]


def test_a_banned_drill_stays_out() -> None:
    knowledge = knowing(*WAYS)
    frontier = Frontier(knowledge, day(0), "Ines")
    outline = Outline(day(0), ORDINARY, 10.0, 4.0, 1)
    first = [item.drill for item in Draft(frontier, START, outline).fill()]
    banned = frozenset(first[1:])
    again = [item.drill for item in Draft(frontier, START, outline, banned).fill()]

    assert not banned & set(again)
    assert again[0] == first[0]


def test_first_times_take_half_of_a_day_at_most_and_eight_minutes() -> None:
    items = draft(knowing(*HANDS, *WAYS[1:]), minutes=20.0).fill()
    first = [item for item in items if item.role.first_time]

    assert len(items) - len(first) > 4
    assert 6.0 < sum(item.minutes for item in first) <= 8.0


def test_where_nothing_known_is_left_first_times_may_take_more() -> None:
    items = draft(knowing(START), minutes=16.0).fill()

    assert sum(item.minutes for item in items if item.role.first_time) > 8.0


def test_the_next_stage_of_a_hand_comes_even_before_ladders() -> None:
    knowledge = knowing(*WAYS)
    for drill in shorts("12H2 4321 1 | 12W3 4321 1 | 12W2 432 1"):
        knowledge.take(drill, Result.NOT_YET, day(-1))
    _, first, second, *_ = draft(knowledge).fill()

    assert (hand_of(first.drill), first.drill.stage) == (hand_of(START), 2)
    assert second.role is Role.STEP_BACK


def test_what_waits_for_its_second_day_comes_before_other_reviews() -> None:
    knowledge = knowing(*HANDS)
    young = short("12W2 4321 1 mirror")
    knowledge.take(young, Result.SECURE, day(0))
    day_ = draft(knowledge, new=0.0)

    assert list(day_.waiting()) == [young]
    assert young not in day_.due()
    known = [item.drill for item in day_.fill() if item.role is Role.AGAIN]
    assert known[0] == young
