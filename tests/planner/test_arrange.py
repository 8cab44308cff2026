"""The order of a day."""

from dataclasses import replace
from typing import TYPE_CHECKING

from hypothesis import given, settings
from hypothesis import strategies as st
from kit.knowing import SMALL, knowing, pool_of, short, shorts

from bookgen.plan.document import Role
from bookgen.planner.arrange import arranged, ends_in_twins, in_order, near_twins, waiting
from bookgen.planner.knowledge import Knowledge
from bookgen.planner.outline import Pick

if TYPE_CHECKING:
    from bookgen.model.drill import Drill

GRAPH = knowing(area=SMALL).graph
POOL = pool_of(SMALL)
START = short("12W2 4321 1")
OPENING, NEW, VARIANT, REVIEW = Role.START, Role.NEW, Role.OTHER_WAY, Role.AGAIN


def item(text: str, role: Role) -> Pick:
    drill = short(text)
    return Pick(drill, role, GRAPH.minutes(drill))


def order(*items: Pick, knowledge: Knowledge) -> list[Pick]:
    return arranged(items, knowledge)


def keeps_order(picks: list[Pick], knowledge: Knowledge) -> bool:
    return in_order(picks, knowledge, waiting(picks, knowledge))


def test_first_times_and_known_drills_take_turns_and_one_known_ends() -> None:
    known = shorts("12W2 4321 1 | 12W2 4321 1 high | 12H2 4321 1 | 12H2 4321 1 high")
    day = [
        *(Pick(drill, REVIEW, 2.0) for drill in known[1:]),
        item("23W4 4321 1", NEW),
        item("12W2 4321 2", NEW),
    ]
    found = order(Pick(known[0], OPENING, 2.0), *day, knowledge=knowing(*known, area=SMALL))

    assert [one.role.first_time for one in found] == [False, True, False, True, False, False]
    assert found[0].role is OPENING


def test_the_last_known_drill_is_kept_for_the_end() -> None:
    knowledge = knowing(START, short("12W2 4321 1 high"), area=SMALL)
    day = (
        item("12W2 4321 1", OPENING),
        item("12W2 4321 1 high", REVIEW),
        item("12H2 4321 1", NEW),
        item("12W2 4321 1 mirror", VARIANT),
    )

    roles = [one.role for one in order(*day, knowledge=knowledge)]
    assert roles == [OPENING, NEW, VARIANT, REVIEW]


def test_of_several_first_times_a_near_twin_comes_later() -> None:
    day = (
        item("12W2 4321 1", OPENING),
        item("12H2 4321 1", NEW),
        item("12H2 4321 1 high", NEW),
        item("12W2 4321 1 mirror", NEW),
    )

    found = order(*day, knowledge=knowing(START, area=SMALL))
    assert [one.drill for one in found] == [day[index].drill for index in (0, 1, 3, 2)]


def test_ladders_come_right_after_the_opening() -> None:
    knowledge = knowing(START, short("12W2 4321 1 high"), area=SMALL)
    day = [
        item("12H2 4321 1", NEW),
        item("12W2 4321 1 high", REVIEW),
        item("12W2 4321 1 mirror", Role.STEP_BACK),
    ]

    found = order(Pick(START, OPENING, 2.0), *day, knowledge=knowledge)
    assert [one.role for one in found[:2]] == [OPENING, Role.STEP_BACK]


def test_all_items_of_a_test_stand_first_as_they_are() -> None:
    drills = shorts("12W2 4321 1 | 23W4 4321 1 | 34W5 4321 1 | 12H2 4321 1")
    tests = [Pick(drill, Role.COLD, 1.0) for drill in drills]
    more = item("12W2 4321 1 high", NEW)

    assert order(*tests, more, knowledge=knowing(*drills, area=SMALL)) == [*tests, more]


def test_two_near_twins_do_not_end_a_day() -> None:
    knowledge = knowing(START, area=SMALL)
    day = (
        Pick(START, OPENING, 2.0),
        item("23W2 4321 1", NEW),  # the same notes in other fingers
        item("34W2 4321 1", NEW),
        item("12W2 4321 2", NEW),
    )
    twins = day[1:3]

    assert near_twins(*twins)
    assert ends_in_twins([day[3], *twins])
    assert not ends_in_twins(order(*day, knowledge=knowledge))


def test_a_known_drill_and_a_new_one_are_no_near_twins() -> None:
    one, other = item("12W2 4321 1", REVIEW), item("12W2 4321 1 high", NEW)

    assert not near_twins(one, other)
    assert near_twins(item("12W2 4321 1", VARIANT), other)
    assert not near_twins(item("12H2 4321 1 mirror", NEW), other), "two things differ"


def test_a_stage_waits_for_the_one_before_it() -> None:
    second, first = item("23W4 4321 2", NEW), item("23W4 4321 1", NEW)

    knowledge = knowing(START, area=SMALL)
    assert keeps_order([item("12W2 4321 1", OPENING), first, second], knowledge)
    assert not keeps_order([item("12W2 4321 1", OPENING), second, first], knowledge)
    assert keeps_order([second], knowing(START, first.drill, area=SMALL))


def test_a_variant_waits_for_the_drills_that_bring_its_moves() -> None:
    opening, whole = item("12H2 4321 1", OPENING), item("12W2 4321 1", NEW)
    part = item("12W2 321 1", VARIANT)
    knowledge = knowing(*shorts("12H2 4321 1 | 12H2 321 1"))  # so that it is linked, too

    assert keeps_order([opening, whole, part], knowledge)
    assert not keeps_order([opening, part, whole], knowledge)
    assert keeps_order([opening, replace(part, role=NEW), whole], knowledge)


def test_a_new_drill_whose_moves_come_before_it_is_a_variant_after_all() -> None:
    whole, part = item("12W2 4321 1", NEW), item("12W2 4321 1 high", NEW)
    knowledge = knowing(short("12H2 4321 1"), area=SMALL)
    knowledge.covered |= GRAPH.moves(part.drill) - GRAPH.moves(whole.drill)

    found = order(item("12H2 4321 1", OPENING), whole, part, knowledge=knowledge)
    assert [one.role for one in found] == [OPENING, NEW, VARIANT]


@st.composite
def days(draw: st.DrawFn) -> tuple[list[Pick], Knowledge]:
    """A day as it is chosen: each drill is linked to one before it and follows its gate."""
    known = [START, *shorts("12W2 4321 1 high | 12H2 4321 1")]
    knowledge = knowing(*known, area=SMALL)
    items = [Pick(START, OPENING, 2.0)]
    here: dict[Drill, None] = {START: None}
    covered = set(knowledge.covered)
    for _ in range(draw(st.integers(0, 4))):
        offers = [
            drill
            for drill in POOL
            if drill not in here
            and (GRAPH.gate(drill) is None or GRAPH.gate(drill) in {*here, *known})
            and any(other in here or other in known for _, other in GRAPH.neighbours(drill))
        ]
        drill = draw(st.sampled_from(offers))
        brings = GRAPH.moves(drill) - covered
        role = REVIEW if drill in known else NEW if brings else VARIANT
        items.append(Pick(drill, role, GRAPH.minutes(drill)))
        here[drill] = None
        covered |= brings
    return items, knowledge


@settings(max_examples=60)
@given(days())
def test_near_twins_end_a_day_only_if_no_drill_at_its_end_parts_them(
    day: tuple[list[Pick], Knowledge],
) -> None:
    items, knowledge = day
    found = arranged(items, knowledge)

    assert {one.drill for one in found} == {one.drill for one in items}
    assert len(found) == len(items)
    assert keeps_order(found, knowledge)
    if ends_in_twins(found):
        others = [[one for one in found if one != last] + [last] for last in found[1:]]
        assert all(ends_in_twins(other) for other in others if keeps_order(other, knowledge))
