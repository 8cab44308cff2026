"""How a day begins, with the dimensions read from the notes."""

from itertools import product

from hypothesis import given
from hypothesis import strategies as st
from kit.knowing import LOW, SMALL, day, knowing, pool_of, short, shorts
from kit.reading import Reading, differing, reading
from kit.shorthand import VIOLIN

from bookgen.model.drill import Drill
from bookgen.model.music import play
from bookgen.plan.record import Result
from bookgen.planner.knowledge import Knowledge
from bookgen.planner.opening import CHOICE, WEEK, Past, beginnings, cold_items, known, openings
from bookgen.planner.progress import hand_of

POOL = pool_of(LOW)
START = short("12W2 4321 1")
KNOWN = shorts("12W2 4321 1 | 12W2 4321 1 high | 23H4 432 1 mirror | 34W5 321 1 | 12W2 4321 2")


def heard(drill: Drill) -> Reading:
    return reading(play(drill, VIOLIN))


def seen(*secure: Drill, openings: list[Drill]) -> Knowledge:
    """A player who knows some drills, and what opened the last days."""
    knowledge = knowing(*secure)
    knowledge.openings = openings
    return knowledge


@given(st.lists(st.sampled_from(POOL), max_size=9), st.sampled_from(POOL))
def test_the_rank_is_that_of_the_notes(past: list[Drill], drill: Drill) -> None:
    last = [heard(one) for one in past[-6:]]
    changes = [differing(one, heard(drill)) for one in last]
    varied = {name for one, other in product(last, last) for name in differing(one, other)}
    hands = [(one.pair, one.spacing, one.place) for one in last]
    mine = (heard(drill).pair, heard(drill).spacing, heard(drill).place)

    assert Past.of(past).rank(drill) == (
        drill in past[-WEEK:],
        hands[-1:] == [mine],
        -len({name for change in changes for name in change} - varied),
        -min(map(len, changes), default=0),
    )


def test_another_hand_than_yesterdays_opens() -> None:
    found = openings(seen(*KNOWN, openings=[KNOWN[1]]), START, day(0), 2.0)

    assert [drill.frame == START.frame for drill in found] == [False, False, True, True]
    assert KNOWN[1] not in found


@given(
    st.lists(st.sampled_from(POOL), max_size=8, unique=True),
    st.lists(st.sampled_from(POOL), max_size=8),
    st.sampled_from([1.0, 1.5, 2.0]),
)
def test_an_opening_is_secure_short_and_not_yesterdays(
    secure: list[Drill], past: list[Drill], most: float
) -> None:
    knowledge = seen(*secure, openings=past)
    graph = knowledge.graph
    found = openings(knowledge, START, day(0), most)
    ready = [one for one in secure if graph.gate(one) in {None, *secure}]
    free = [one for one in ready if one not in past[-1:]]

    assert found == sorted(found, key=Past.of(past).rank)
    assert not set(found) & set(past[-1:])
    assert set(found) <= set(free) if free else not set(found) & set(secure)
    lengths = [graph.minutes(one) for one in free]
    assert not free or max(map(graph.minutes, found)) <= max(most, min(lengths))


def test_of_many_those_come_into_question_whose_review_is_due_most() -> None:
    knowledge = knowing()
    many = [drill for drill in pool_of(LOW) if drill.stage == 1][: CHOICE + 10]
    for number, drill in enumerate(many):
        knowledge.take(drill, Result.SECURE, day(-number // 10))

    by_day = sorted(many, key=lambda drill: knowledge.secured[drill])
    assert known(knowledge, day(0)) == by_day[:CHOICE]


def test_what_lies_outside_the_area_opens_no_day_and_no_test() -> None:
    outside = shorts("12W9 4321 1 | 12H9 4321 1 | 23W9 4321 1 | 34H9 4321 1")
    knowledge = knowing(*outside, START)

    assert openings(knowledge, START, day(0), 2.0) == [START]
    assert cold_items(knowledge, day(0), 4) == []


def test_who_knows_nothing_begins_with_the_start_and_its_like() -> None:
    found = list(beginnings(knowing(), START))

    assert found[0] == START
    assert len(found) == len(set(found)) == 3 * 4  # strings, leads, ways back
    assert {(drill.frame, drill.place, drill.stage) for drill in found} == {
        (START.frame, START.place, 1)
    }
    efforts = [knowing().graph.difficulty(drill) for drill in found[1:]]
    assert efforts == sorted(efforts)


def test_who_knows_nothing_does_not_begin_as_yesterday() -> None:
    found = openings(seen(openings=[START]), START, day(0), 2.0)

    assert START not in found
    assert len(found) == 3 * 4 - 1


def test_a_beginning_that_was_not_yet_secure_is_left_out_unless_all_were() -> None:
    knowledge = knowing()
    every = list(beginnings(knowledge, START))
    for drill in every[:-1]:
        knowledge.take(drill, Result.NOT_YET, day(-1))

    assert list(beginnings(knowledge, START)) == every[-1:]
    knowledge.take(every[-1], Result.NOT_YET, day(-1))
    assert list(beginnings(knowledge, START)) == every


def test_a_cold_test_asks_for_hands_that_differ() -> None:
    hands = shorts("12W2 4321 1 | 23H4 432 1 | 34W5 321 1 | 12H2 4321 1")
    same = shorts("12W2 4321 1 high | 12W2 4321 1 mirror")

    found = cold_items(knowing(*same, *hands), day(0), 4)
    assert len({(drill.frame, drill.place) for drill in found}) == 4
    assert len(cold_items(knowing(*same, *hands[:3]), day(0), 4)) == 4, "else a hand comes twice"


def test_no_cold_test_where_too_few_are_secure() -> None:
    assert cold_items(knowing(*KNOWN[:3]), day(0), 4) == []
    passed, following = shorts("12W2 4321 1 | 12W2 4321 2")
    assert cold_items(knowing(passed, following), day(0), 2) == []


def test_a_cold_test_begins_unlike_yesterday_and_takes_what_has_rested_longest() -> None:
    drills = shorts("12W2 4321 1 | 23H4 4321 1 | 34W5 4321 1 | 12H2 4321 1 | 23W4 4321 1")
    knowledge = knowing()
    for rest, drill in reversed(list(enumerate(drills))):
        knowledge.take(drill, Result.SECURE, day(-5 + rest))
    knowledge.openings = [drills[0]]
    first, *others = cold_items(knowledge, day(0), 4)

    assert first != drills[0]
    assert others == [drill for drill in drills if drill != first][:3]


def test_a_hand_of_four_drills_never_opens_twice_running_with_its_tests() -> None:
    four = [one for one in pool_of(SMALL) if hand_of(one) == hand_of(START) and one.stage == 1]
    assert len(four) == 4
    for yesterday in four:
        knowledge = knowing(*four, area=SMALL)
        knowledge.openings = [*four, yesterday]
        assert cold_items(knowledge, day(0), 4)[0] != yesterday
