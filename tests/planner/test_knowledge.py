"""What a player knows, from records and from days that are already planned."""

from dataclasses import replace

import pytest
from kit.knowing import LOW, day, knowing, record, short, shorts

from bookgen.model.move import moves_of
from bookgen.plan.document import Role
from bookgen.plan.record import Printed, Record, Result
from bookgen.planner.knowledge import Knowledge, openings_in
from bookgen.planner.progress import hand_of

S, N = Result.SECURE, Result.NOT_YET
ONE, OTHER, HIGH = shorts("12W2 4321 1 | 23H4 4321 1 | 12W2 4321 1 high")


def read(*records: Record) -> Knowledge:
    """What is known on the morning of today."""
    knowledge = knowing()
    knowledge.read(records, day(0))
    return knowledge


def test_the_last_result_counts() -> None:
    known = read(record(1, ONE, (-3, N), (-2, S)))
    assert list(known.secure) == [ONE]
    assert known.secured == {ONE: day(-2)}
    assert known.failed == {}

    later = read(record(1, ONE, (-3, N), (-2, S), (-1, N)))
    assert list(later.secure) == []
    assert later.failed == {ONE: day(-1)}


def test_two_results_of_one_day_count_in_their_order() -> None:
    assert read(record(1, ONE, (-1, S), (-1, N))).failed == {ONE: day(-1)}
    assert read(record(1, ONE, (-1, N), (-1, S))).failed == {}


def test_on_a_day_with_any_result_the_rest_was_printed_but_not_played() -> None:
    known = read(record(7, ONE, (-1, None)), record(8, OTHER, (-1, N)))

    assert known.met == {OTHER}
    assert known.covered == moves_of(OTHER)
    assert set(known.printed) == {ONE, OTHER}


def test_a_day_of_which_nothing_is_said_counts_as_secure_by_hope_alone() -> None:
    known = read(record(7, ONE, (-2, N), (-1, None)), record(8, OTHER, (-1, None)))

    assert known.presumed == set(known.secure) == {ONE, OTHER}
    assert known.failed == {}
    assert known.secured == {ONE: day(-1), OTHER: day(-1)}


@pytest.mark.parametrize(("told", "heard"), [(-2, True), (-1, True), (0, False), (1, False)])
def test_a_result_belongs_to_the_last_page_before_it(told: int, *, heard: bool) -> None:
    page = record(8, OTHER, (-2, None))
    other = record(7, ONE, (-2, S, told), (0, None))

    assert (OTHER in read(page, other).met) is not heard


def test_results_count_up_to_the_day_and_pages_before_it() -> None:
    known = read(
        record(1, ONE, (-1, S, 0)), record(2, OTHER, (-1, S, 1)), record(3, HIGH, (0, None))
    )

    assert list(known.secure) == [ONE]
    assert list(known.printed) == [ONE, OTHER]


def test_what_was_printed_last_stands_last() -> None:
    known = read(record(1, ONE, (-3, None), (-1, None)), record(2, OTHER, (-2, S)))
    assert list(known.printed) == [OTHER, ONE]

    known.stand(OTHER)
    assert list(known.printed) == [ONE, OTHER]


def test_what_was_met_brings_its_moves_and_its_hand() -> None:
    known = read(record(1, ONE, (-2, N)), record(2, OTHER, (-1, S)))

    assert known.met == {ONE, OTHER}
    assert known.covered == moves_of(ONE) | moves_of(OTHER)
    assert not known.is_new_hand(HIGH)
    assert known.is_new_hand(short("12W3 4321 1"))
    assert known.is_new_hand(short("12H2 4321 1"))
    assert hand_of(HIGH) == hand_of(ONE)


def test_another_instrument_tells_nothing() -> None:
    viola = replace(ONE, instrument="viola")
    known = read(record(1, viola, (-2, S), (-1, None), role=Role.START))

    assert known.met == set()
    assert known.covered == set()
    assert known.secure == {}
    assert known.printed == {}
    assert known.openings == []


def test_an_earlier_day_of_the_plan_counts_as_secure_and_is_only_presumed() -> None:
    known = read(record(1, ONE, (-2, S)), record(2, OTHER, (-1, N)))
    for drill in (ONE, OTHER, HIGH):
        known.presume(drill, day(0))

    assert set(known.secure) == {ONE, OTHER, HIGH}
    assert known.presumed == {OTHER, HIGH}
    assert known.failed == {}

    known.take(OTHER, S, day(1))
    assert known.presumed == {HIGH}, "a result says it now"


@pytest.mark.parametrize(("since", "late"), [(0, 0.0), (1, 1.0), (2, 2.0)])
def test_a_drill_is_due_the_day_after_its_first_result(since: int, late: float) -> None:
    assert read(record(1, ONE, (-since, S))).lateness(ONE, day(0)) == late


def test_a_review_comes_when_its_span_has_run() -> None:
    known = read(record(1, ONE, (-3, S), (-2, S)))  # then due after two days

    assert known.lateness(ONE, day(-1)) == 0.5
    assert known.lateness(ONE, day(0)) == 1.0
    assert known.lateness(ONE, day(2)) == 2.0


def test_what_has_no_result_is_due_at_once() -> None:
    assert knowing(ONE).lateness(ONE, day(0)) == 1.0


@pytest.mark.parametrize(
    ("secure", "passed"),
    [
        ("12W2 432 2", True),  # the next stage
        ("12W2 4321 1", True),  # on more strings
        ("12W2 432 3", False),  # two stages on
        ("12W2 321 1", False),  # other strings, as many
        ("12W2 432 1 high", False),
        ("12W2 4321 2", False),
    ],
)
def test_what_a_secure_drill_holds_already_is_passed(secure: str, *, passed: bool) -> None:
    assert knowing(short(secure), area=LOW).passed(short("12W2 432 1")) is passed


def test_the_first_drill_of_each_page_is_its_opening() -> None:
    cold = Printed(day(-2), Role.COLD)
    records = [
        Record(3, OTHER, (cold,)),
        Record(2, HIGH, (replace(cold, order=1),)),
        record(1, ONE, (-3, None), role=Role.START),
        record(4, short("12W3 4321 1"), (-1, None)),  # a page of which only this is kept
        record(5, short("12W3 4321 1 high"), (0, None), role=Role.START),
    ]

    assert openings_in(records, day(0)) == [ONE, OTHER]
