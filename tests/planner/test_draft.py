"""Which drills a day gets, and what it keeps to."""

from random import Random

import pytest
from kit.knowing import LOW, day, knowing, pool_of, short, shorts

from bookgen.model.drill import Drill
from bookgen.model.move import moves_of
from bookgen.plan.document import Character, Role
from bookgen.plan.record import Result
from bookgen.planner.area import Area
from bookgen.planner.draft import Draft
from bookgen.planner.frontier import Frontier
from bookgen.planner.knowledge import Knowledge, hand_of
from bookgen.planner.outline import Outline, Pick

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
    return Draft(Frontier(knowledge, Random(0)), START, outline)


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


def test_of_those_that_bring_nine_tenths_of_the_most_moves_the_easiest_comes() -> None:
    knowledge = knowing(START)
    offers = [drill for drill in draft(knowledge).frontier.best_fresh(99) if drill.stage == 1]
    offers = [drill for drill in offers if len(moves_of(drill)) == 11]
    offers = [drill for drill in offers if knowledge.is_new_hand(drill)]
    easiest, second, *_ = sorted(offers, key=knowledge.graph.difficulty)
    knowledge.covered |= set(sorted(moves_of(easiest))[:2]) | set(sorted(moves_of(second))[:1])
    day_ = draft(knowledge, new=2.0)
    day_.begin()
    day_.renew()

    assert len(offers) > 3
    assert of(Role.NEW, day_.picks) == [second], "ten of eleven moves are enough, nine are not"


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


def test_ladders_take_two_fifths_of_a_day_at_most() -> None:
    knowledge = knowing(*WAYS)
    for drill in shorts("12W2 4321 2 | 12W2 4321 2 mirror | 12W2 4321 2 high | 12W2 432 2"):
        knowledge.take(drill, Result.NOT_YET, day(-1))
    day_ = draft(knowledge)
    items = day_.fill()

    minutes = [item.minutes for item in items if item.role is Role.STEP_BACK]
    assert 0.0 < sum(minutes) <= 4.0
    assert len(minutes) == 2


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


def test_variants_have_their_share_even_where_many_reviews_are_due() -> None:
    items = draft(knowing(*HANDS, *WAYS[1:]), new=0.0).fill()

    assert len(of(Role.OTHER_WAY, items)) == 2, "a bridge, and what a fifth of the day has room for"
    assert len(of(Role.AGAIN, items)) == 2, "which are all due"


def test_two_stages_a_day_come_last() -> None:
    day_ = draft(knowing(START))
    day_.begin()
    second, hard = short("12W2 4321 2"), short("34H8 4321 1 high mirror")

    assert day_.effort(second) < day_.effort(hard)
    assert day_.step(second) > day_.step(hard)


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
    frontier = Frontier(knowledge, Random(0))
    outline = Outline(day(0), ORDINARY, 10.0, 4.0, 1)
    first = [item.drill for item in Draft(frontier, START, outline).fill()]
    banned = frozenset(first[1:])
    again = [item.drill for item in Draft(frontier, START, outline, banned).fill()]

    assert not banned & set(again)
    assert again[0] == first[0]


def far(*hands: str) -> Knowledge:
    """Someone who has met all moves of the area but those of some hands."""
    unmet = {hand_of(short(f"{hand} 4321 1")) for hand in hands}
    knowledge = knowing(START)
    for drill in pool_of(LOW):
        if hand_of(drill) not in unmet:
            knowledge.covered |= moves_of(drill)
    return knowledge


def test_a_bridge_leads_to_new_drills_where_there_are_no_others() -> None:
    knowledge = far("34W6")  # two links away: over the pair 2 and 3, or over two places
    beyond = {drill for drill in pool_of(LOW) if hand_of(drill) == hand_of(short("34W6 4321 1"))}
    day_ = draft(knowledge)
    day_.begin()
    day_.bridge()

    (bridge,) = of(Role.OTHER_WAY, day_.picks)
    assert bridge in {other for drill in beyond for _, other in knowledge.graph.neighbours(drill)}
    assert bridge not in beyond
    assert of(Role.OTHER_WAY, draft(knowledge).fill())[0] == bridge, "before other variants"


def test_no_bridge_is_needed_where_such_new_drills_are_to_be_had() -> None:
    day_ = draft(far("34W6", "12H2"))
    day_.begin()
    day_.bridge()

    assert day_.frontier.best_bridge() is not None
    assert of(Role.OTHER_WAY, day_.picks) == []


@pytest.mark.parametrize(("minutes", "narrow"), [(16.0, False), (17.5, False), (18.0, True)])
def test_a_day_that_falls_short_is_eked_out_on_fewer_strings(
    minutes: float, *, narrow: bool
) -> None:
    day_ = draft(knowing(*WAYS), minutes, new=0.0)
    day_.begin()
    day_.take_all(Role.AGAIN, day_.due)
    assert day_.reach() == 16.0, "four drills of two minutes, twice as long each"

    day_.eke_out()
    more = of(Role.OTHER_WAY, day_.picks)
    assert bool(more) is narrow
    assert all(len(drill.strings) == 3 for drill in more)
    assert day_.reach() >= 0.9 * minutes
