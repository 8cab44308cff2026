"""Numbers, links and conditions, as they stand on the page."""

from itertools import pairwise

import pytest
from planner.knowing import day, knowing, short, shorts

from bookgen.model.dimension import Dimension
from bookgen.model.drill import Drill
from bookgen.plan.document import Character, Day, Kind
from bookgen.plan.record import Record, Result
from bookgen.planner.echo import Echoes
from bookgen.planner.knowledge import Knowledge
from bookgen.planner.outline import Item, Outline
from bookgen.planner.page import day_of

START, MIRROR, HIGH = shorts("12W2 4321 1 | 12W2 4321 1 mirror | 12W2 4321 1 high")
SECOND, THIRD = shorts("12W2 4321 2 | 12W2 4321 3")
OPENING, NEW, VARIANT, REVIEW = Kind.OPENING, Kind.NEW, Kind.VARIANT, Kind.REVIEW


def page(
    knowledge: Knowledge, *drills: tuple[Drill, Kind], minutes: float = 20.0, first: int = 5
) -> Day:
    """A page of drills that take two minutes each; its numbers begin with 5."""
    items = [Item(drill, kind, 2.0) for drill, kind in drills]
    outline = Outline(day(0), Character.ORDINARY, minutes, 5.0, 1)
    return day_of(items, outline, knowledge, Echoes(), first)


def printed(*drills: Drill, result: Result | None = Result.SECURE, first: int = 1) -> Knowledge:
    """A player who was given these drills yesterday."""
    knowledge = knowing()
    knowledge.read(
        [
            Record(number, day(-1), drill, NEW, result, day(-1) if result else None)
            for number, drill in enumerate(drills, start=first)
        ],
        day(0),
    )
    return knowledge


def presuming(*drills: Drill) -> Knowledge:
    """A player for whom these were planned the day before, as numbers 1, 2 …"""
    knowledge = knowing()
    for number, drill in enumerate(drills, start=1):
        knowledge.presume(drill, number, day(-1))
    return knowledge


def test_numbers_run_on_and_the_day_is_what_was_asked_for() -> None:
    found = page(knowing(START), (START, OPENING), (MIRROR, VARIANT), (HIGH, NEW), minutes=30.0)

    assert [entry.number for entry in found.drills] == [5, 6, 7]
    assert [entry.drill for entry in found.drills] == [START, MIRROR, HIGH]
    assert (found.date, found.minutes, found.character) == (day(0), 30.0, Character.ORDINARY)


def test_what_is_left_of_the_day_goes_to_what_may_take_it() -> None:
    drills = ((START, OPENING), (HIGH, NEW), (MIRROR, VARIANT))

    minutes = [entry.minutes for entry in page(knowing(START), *drills, minutes=8.5).drills]
    assert minutes == [3.5, 2.0, 3.0]
    minutes = [entry.minutes for entry in page(knowing(START), *drills, minutes=60.0).drills]
    assert minutes == [4.0, 2.0, 4.0]


def test_the_opening_is_linked_to_nothing() -> None:
    link = page(knowing(START), (START, OPENING)).drills[0].link

    assert (link.to, link.changes) == (None, None)
    assert link.text.startswith("Start here")


def test_a_link_goes_to_the_page_before_all_else() -> None:
    knowledge = printed(SECOND)
    _, entry = page(knowledge, (MIRROR, OPENING), (START, NEW)).drills

    assert (entry.link.to, entry.link.changes) == (5, Dimension.RETURN)
    assert entry.link.text.startswith("As No. 5: ")


def test_of_two_on_the_page_the_stage_beside_is_linked_and_else_the_last() -> None:
    knowledge = knowing(START, MIRROR)
    beside = short("12W2 4321 2 mirror")
    drills = page(knowledge, (START, OPENING), (beside, VARIANT), (SECOND, NEW)).drills
    assert (drills[2].link.to, drills[2].link.changes) == (5, Dimension.STAGE)

    other = short("12W2 4321 1 high mirror")
    drills = page(knowledge, (MIRROR, OPENING), (HIGH, NEW), (other, NEW)).drills
    assert (drills[2].link.to, drills[2].link.changes) == (6, Dimension.RETURN)


def test_a_link_to_another_day_names_its_number_and_day() -> None:
    far = short("34W5 4321 1")
    _, entry = page(printed(START, first=3), (far, OPENING), (HIGH, NEW)).drills
    assert entry.link.to == START.key, "printed before this plan: told by its key"
    assert entry.link.text.startswith("As No. 3 of 6 Dec: ")

    _, entry = page(presuming(START), (far, OPENING), (HIGH, NEW)).drills
    assert entry.link.to == 1, "in this plan"
    assert entry.link.text.startswith("As No. 1 of 6 Dec: ")

    _, entry = page(knowing(START), (far, OPENING), (HIGH, NEW)).drills
    assert entry.link.to == START.key
    assert entry.link.text.startswith("As you know it: ")


def test_what_was_printed_is_linked_before_what_never_was() -> None:
    knowledge = printed(MIRROR, first=2)
    knowledge.trust([short("12W2 321 1"), short("12W2 432 1")])
    _, entry = page(knowledge, (short("34W5 4321 1"), OPENING), (START, NEW)).drills

    assert entry.link.to == MIRROR.key


def test_what_is_sure_is_linked_before_what_the_plan_only_hopes_for() -> None:
    knowledge = printed(MIRROR, first=2)
    knowledge.presume(SECOND, 4, day(-1))
    far = short("34W5 4321 1")
    _, entry = page(knowledge, (far, OPENING), (START, NEW)).drills

    assert entry.link.to == MIRROR.key
    assert entry.only_if is None


def test_a_drill_that_was_met_says_where() -> None:
    _, entry = page(printed(START, HIGH), (START, OPENING), (HIGH, REVIEW)).drills
    assert entry.link.text.startswith("No. 2 of 6 Dec again. As No. 5: ")
    assert " Here: " in entry.link.text

    _, entry = page(printed(HIGH, result=None), (START, OPENING), (HIGH, NEW)).drills
    assert entry.link.text.startswith("As No. 5: "), "it was not played"
    assert " New: " in entry.link.text


def test_a_rung_says_where_its_ladder_leads() -> None:
    knowledge = printed(START, HIGH, first=3)
    knowledge.take(HIGH, Result.NOT_YET, day(-1))
    outline = Outline(day(0), Character.ORDINARY, 20.0, 5.0, 1)
    opening = Item(START, OPENING, 2.0)
    for rung, words in (
        (MIRROR, "On the way to No. 4. As No. 5: "),
        (HIGH, "No. 4 of 6 Dec again. "),
    ):
        items = [opening, Item(rung, Kind.LADDER, 2.0, goal=HIGH)]
        _, entry = day_of(items, outline, knowledge, Echoes(), 5).drills
        assert entry.link.text.startswith(words)


@pytest.mark.parametrize("kind", [NEW, VARIANT, Kind.LADDER])
def test_a_stage_says_which_drill_must_be_secure_before_it(kind: Kind) -> None:
    for knowledge, only_if in (
        (presuming(SECOND), 1),  # on an earlier day of this plan
        (printed(SECOND), None),  # secure by its result
        (knowing(SECOND), None),
    ):
        _, entry = page(knowledge, (short("12W2 4321 2 mirror"), OPENING), (THIRD, kind)).drills
        assert entry.only_if == only_if


def test_a_stage_hangs_on_the_one_before_it_on_the_same_page() -> None:
    drills = page(knowing(START), (START, OPENING), (SECOND, NEW), (THIRD, VARIANT)).drills

    assert [entry.only_if for entry in drills] == [None, None, 6]
    assert [entry.link.changes for entry in drills[1:]] == [Dimension.STAGE, Dimension.STAGE]


def test_a_first_stage_hangs_on_what_it_is_linked_to_on_an_earlier_day() -> None:
    far = short("34W5 4321 1")
    _, entry = page(presuming(START), (far, OPENING), (HIGH, NEW)).drills
    assert entry.only_if == 1

    _, entry = page(presuming(START), (START, OPENING), (HIGH, NEW)).drills
    assert entry.only_if is None, "it stands on the page"


@pytest.mark.parametrize("kind", [REVIEW, Kind.TEST])
def test_what_is_known_hangs_on_nothing(kind: Kind) -> None:
    _, entry = page(presuming(START, SECOND), (START, OPENING), (SECOND, kind)).drills

    assert entry.only_if is None


def test_a_presumed_drill_that_is_reviewed_keeps_the_number_it_had() -> None:
    knowledge = presuming(START)
    knowledge.presume(START, 4, day(-1))
    _, entry = page(knowledge, (short("34W5 4321 1"), OPENING), (HIGH, NEW)).drills

    assert entry.only_if == 4


def test_links_change_one_thing_only() -> None:
    with pytest.raises(ValueError, match=r"34-whole-place5\S* is linked to nothing"):
        page(knowing(START), (START, OPENING), (short("34W5 4321 1"), NEW))


def test_links_are_those_of_the_drills() -> None:
    chain = shorts("12W2 4321 1 | 12H2 4321 1 | 12H3 4321 1 | 12H3 432 1 | 12H3 432 1 high")
    drills = page(knowing(START), (chain[0], OPENING), *((one, NEW) for one in chain[1:])).drills

    for before, entry in pairwise(drills):
        assert entry.link.to == before.number
        assert before.drill.changes_to(entry.drill) == (entry.link.changes,)
