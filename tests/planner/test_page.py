"""Numbers, links and what a drill waits for."""

from dataclasses import dataclass, field, replace
from itertools import pairwise

import pytest
from kit.knowing import day, knowing, record, short, shorts

from bookgen.errors import RefusedError
from bookgen.model.dimension import Dimension
from bookgen.model.drill import Drill
from bookgen.plan.document import Character, Day, Echo, Item, Link, Role, Towards
from bookgen.plan.record import Record, Result
from bookgen.planner.echo import Echoes
from bookgen.planner.knowledge import Knowledge
from bookgen.planner.numbering import Numbering
from bookgen.planner.outline import Outline, Pick
from bookgen.planner.page import day_of

START, MIRROR, HIGH = shorts("12W2 4321 1 | 12W2 4321 1 mirror | 12W2 4321 1 high")
SECOND, THIRD = shorts("12W2 4321 2 | 12W2 4321 3")
FAR = short("34W5 4321 1")
OPENING, NEW, VARIANT, REVIEW = Role.START, Role.NEW, Role.OTHER_WAY, Role.AGAIN


@dataclass
class Past:
    """A player's knowledge, and the numbers and links that their drills have."""

    knowledge: Knowledge
    numbering: Numbering = field(default_factory=lambda: Numbering({}, 5, ()))

    def link(self, drill: Drill) -> Link:
        return self.numbering.links[drill]


def page(past: Past, *drills: tuple[Drill, Role] | Pick, minutes: float = 20.0) -> tuple[Item, ...]:
    """A page of drills that take two minutes each; new numbers begin with 5."""
    return day_with(past, *drills, minutes=minutes).items


def day_with(past: Past, *drills: tuple[Drill, Role] | Pick, minutes: float = 20.0) -> Day:
    picks = [one if isinstance(one, Pick) else Pick(*one, 2.0) for one in drills]
    outline = Outline(day(0), Character.ORDINARY, minutes, 5.0, 1)
    return day_of(picks, outline, past.knowledge, Echoes(), past.numbering)


def said(*drills: Drill) -> Past:
    """A player who is said to know some drills that were never printed."""
    return Past(knowing(*drills))


def printed(*drills: Drill, result: Result | None = Result.SECURE, first: int = 1) -> Past:
    """A player who was given these drills yesterday."""
    records = [record(number, drill, (-1, result)) for number, drill in enumerate(drills, first)]
    return reading(records)


def reading(records: list[Record]) -> Past:
    """A player with a log."""
    knowledge = knowing()
    knowledge.read(records, day(0))
    numbers = {one.drill: one.number for one in records}
    return Past(knowledge, Numbering(numbers, max(5, *numbers.values()) + 1, records))


def presuming(*drills: Drill) -> Past:
    """A player for whom these were planned the day before, as numbers 1, 2 …"""
    knowledge = knowing()
    for drill in drills:
        knowledge.presume(drill, day(-1))
    numbers = {drill: number for number, drill in enumerate(drills, start=1)}
    return Past(knowledge, Numbering(numbers, 5, ()))


def test_new_drills_get_numbers_that_run_on_and_others_keep_theirs() -> None:
    past = printed(MIRROR, first=2)
    found = day_with(past, (START, OPENING), (MIRROR, REVIEW), (HIGH, NEW), minutes=30.0)

    assert [item.number for item in found.items] == [6, 2, 7]
    assert past.numbering.numbers == {START: 6, MIRROR: 2, HIGH: 7}
    assert (found.date, found.minutes, found.character) == (day(0), 30.0, Character.ORDINARY)


def test_what_is_left_of_the_day_goes_to_what_may_take_it() -> None:
    drills = ((START, OPENING), (HIGH, NEW), (MIRROR, VARIANT))

    assert [item.minutes for item in page(said(START), *drills, minutes=7.5)] == [3.5, 2.0, 2.0]
    assert [item.minutes for item in page(said(START), *drills, minutes=60.0)] == [4.0, 2.0, 2.0]


def test_the_very_first_opening_is_linked_to_nothing() -> None:
    past = said(START, SECOND)
    page(past, (START, OPENING))

    assert past.link(START) == Link(to=None, changes=None)


def test_a_later_opening_is_linked_to_what_has_a_number() -> None:
    past = printed(MIRROR, first=2)
    past.knowledge.trust([START, SECOND])
    page(past, (START, OPENING))

    assert (past.link(START).to, past.link(START).changes) == (2, Dimension.RETURN)


def test_a_link_goes_to_the_page_before_all_else() -> None:
    past = printed(SECOND)
    page(past, (MIRROR, OPENING), (START, NEW))

    assert (past.link(START).to, past.link(START).changes) == (6, Dimension.RETURN)


def test_of_two_on_the_page_the_stage_beside_is_linked_and_else_the_last() -> None:
    past = said(START, MIRROR)
    beside = short("12W2 4321 2 mirror")
    page(past, (START, OPENING), (beside, VARIANT), (SECOND, NEW))
    assert (past.link(SECOND).to, past.link(SECOND).changes) == (5, Dimension.STAGE)

    past = said(START, MIRROR)
    other = short("12W2 4321 1 high mirror")
    page(past, (MIRROR, OPENING), (HIGH, NEW), (other, NEW))
    assert (past.link(other).to, past.link(other).changes) == (6, Dimension.RETURN)


def test_a_link_names_a_number_or_the_key_of_what_has_none() -> None:
    for past, to in (
        (printed(START, first=3), 3),
        (presuming(START), 1),
        (said(START), START.key),
    ):
        page(past, (FAR, OPENING), (HIGH, NEW))
        assert past.link(HIGH).to == to


def test_a_link_says_what_the_hand_keeps() -> None:
    past = said(START)
    chain = shorts("12W2 4321 1 high | 23W4 4321 1 high | 23W5 4321 1 high | 23W5 321 1 high")
    page(past, (START, OPENING), *((one, NEW) for one in chain))

    assert [past.link(one).keeps for one in chain] == [
        ("fingers", "place"),
        ("spacing", "finger"),
        ("fingers", "spacing"),
        ("fingers", "place"),
    ]


def test_an_echo_names_where_the_same_was_heard_in_another_hand() -> None:
    past = said(START)
    fingers, higher = shorts("23W4 4321 1 | 12W4 4321 1")
    page(past, (START, OPENING), (fingers, NEW), (SECOND, NEW), (MIRROR, NEW), (higher, NEW))

    assert past.link(fingers).echo is None, "the drill before is such a hand itself"
    assert past.link(higher).echo is None
    narrower = short("12W4 432 1")
    page(past, (higher, OPENING), (narrower, VARIANT))
    assert past.link(narrower).echo is None, "nothing was heard: these echoes are new"
    page(past, (fingers, OPENING), (START, REVIEW), (short("12W2 432 1"), VARIANT))
    assert past.link(short("12W2 432 1")).echo == Echo(interval="P4", number=6)


def test_a_drill_keeps_the_link_it_has() -> None:
    link = Link(to=1, changes=Dimension.LEAD, keeps=("fingers", "place"))
    records = [record(1, START, (-2, Result.SECURE)), record(2, HIGH, (-1, Result.SECURE))]
    past = reading([records[0], replace(records[1], link=link)])
    page(past, (short("12W2 4321 1 high mirror"), OPENING), (HIGH, REVIEW))

    assert past.link(HIGH) == link


def test_a_link_to_a_number_that_is_lost_is_made_anew() -> None:
    link = Link(to=9, changes=Dimension.LEAD, keeps=("fingers", "place"))
    past = reading([replace(record(2, HIGH, (-1, Result.SECURE)), link=link)])
    past.knowledge.trust([START])
    page(past, (START, OPENING), (HIGH, REVIEW))

    assert past.link(HIGH).to == 6


def test_what_was_printed_is_linked_before_what_never_was() -> None:
    past = printed(MIRROR, first=2)
    past.knowledge.trust([short("12W2 321 1"), short("12W2 432 1")])
    page(past, (FAR, OPENING), (START, NEW))

    assert past.link(START).to == 2


def test_what_is_sure_is_linked_before_what_the_plan_only_hopes_for() -> None:
    past = printed(MIRROR, first=2)
    past.knowledge.presume(SECOND, day(-1))
    past.numbering.number(SECOND)
    _, item = page(past, (FAR, OPENING), (START, NEW))

    assert past.link(START).to == 2
    assert item.only_if is None


def test_a_rung_says_where_its_ladder_leads() -> None:
    for rung, towards in ((MIRROR, Towards(number=4)), (HIGH, None)):
        past = printed(START, HIGH, first=3)
        past.knowledge.take(HIGH, Result.NOT_YET, day(-1))
        _, item = page(past, (START, OPENING), Pick(rung, Role.STEP_BACK, 2.0, goal=HIGH))

        assert item.towards == towards


def test_a_step_towards_a_piece_says_so() -> None:
    aim = Towards(title="Minuet", bars=("5", "8"))
    _, item = page(said(START), (START, OPENING), Pick(HIGH, NEW, 2.0, aim=aim))

    assert (item.role, item.towards) == (Role.PASSAGE, aim)


@pytest.mark.parametrize("role", [NEW, VARIANT, Role.STEP_BACK])
def test_a_stage_says_which_drill_must_be_secure_before_it(role: Role) -> None:
    for past, only_if in (
        (presuming(SECOND), 1),  # on an earlier day of this plan
        (printed(SECOND), None),  # secure by its result
        (said(SECOND), None),
    ):
        _, item = page(past, (short("12W2 4321 2 mirror"), OPENING), (THIRD, role))
        assert item.only_if == only_if


def test_a_drill_that_waits_for_its_stage_before_is_linked_to_it() -> None:
    past = presuming(SECOND)
    other = short("12W2 4321 3 mirror")
    past.knowledge.trust([other])
    _, item = page(past, (other, OPENING), (THIRD, NEW))

    assert (past.link(THIRD).to, past.link(THIRD).changes) == (1, Dimension.STAGE)
    assert item.only_if == 1


def test_a_drill_that_comes_again_may_wait_for_another_than_its_link_names() -> None:
    link = Link(to=2, changes=Dimension.RETURN, keeps=("fingers", "place"))
    mirror = short("12W2 4321 3 mirror")
    past = reading(
        [
            record(1, SECOND, (-3, Result.SECURE), (-1, Result.NOT_YET)),
            record(2, mirror, (-3, Result.SECURE)),
            replace(record(3, THIRD, (-2, Result.NOT_YET)), link=link),
        ]
    )
    past.knowledge.presume(SECOND, day(0))
    _, item = page(past, (mirror, OPENING), (THIRD, Role.STEP_BACK))

    assert past.link(THIRD) == link
    assert item.only_if == 1, "the stage before has failed since"


def test_a_stage_hangs_on_the_one_before_it_on_the_same_page() -> None:
    past = said(START)
    items = page(past, (START, OPENING), (SECOND, NEW), (THIRD, VARIANT))

    assert [item.only_if for item in items] == [None, None, 6]
    assert [past.link(one).changes for one in (SECOND, THIRD)] == [Dimension.STAGE] * 2


def test_a_first_stage_hangs_on_what_it_is_linked_to_on_an_earlier_day() -> None:
    _, item = page(presuming(START), (FAR, OPENING), (HIGH, NEW))
    assert item.only_if == 1

    _, item = page(presuming(START), (START, OPENING), (HIGH, NEW))
    assert item.only_if is None, "it stands on the page"


def test_a_first_stage_that_comes_again_waits_for_what_its_link_names() -> None:
    link = Link(to=1, changes=Dimension.LEAD, keeps=("fingers", "place"))
    past = reading(
        [
            record(1, START, (-3, None)),
            record(2, short("12W2 4321 1 high mirror"), (-3, None)),
            replace(record(3, HIGH, (-2, Result.NOT_YET)), link=link),
        ]
    )
    past.knowledge.presume(START, day(-1))
    past.knowledge.presume(short("12W2 4321 1 high mirror"), day(-1))
    _, item = page(past, (FAR, OPENING), (HIGH, Role.STEP_BACK))

    assert item.only_if == 1


@pytest.mark.parametrize("role", [REVIEW, Role.COLD])
def test_what_is_known_hangs_on_nothing(role: Role) -> None:
    _, item = page(presuming(START, SECOND), (START, OPENING), (SECOND, role))

    assert item.only_if is None


def test_links_change_one_thing_only() -> None:
    with pytest.raises(RefusedError, match=r"plan-no-link .*34-whole-place5"):
        page(said(START), (START, OPENING), (FAR, NEW))


def test_links_are_those_of_the_drills() -> None:
    chain = shorts("12W2 4321 1 | 12H2 4321 1 | 12H3 4321 1 | 12H3 432 1 | 12H3 432 1 high")
    past = said(START)
    page(past, (chain[0], OPENING), *((one, NEW) for one in chain[1:]))

    for before, drill in pairwise(chain):
        assert past.link(drill).to == past.numbering.numbers[before]
        assert before.changes_to(drill) == (past.link(drill).changes,)
