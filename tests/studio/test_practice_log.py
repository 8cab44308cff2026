"""The practice log against what it promises, and against a model of it."""

import json
from contextlib import ExitStack
from datetime import date, timedelta

import msgspec
import pytest
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, precondition, rule
from kit.printed import DRILLS, EVENING, START_HERE, TUESDAY, VIOLIN, empty_log, kept, plan_for
from msgspec.structs import replace

from bookgen.errors import BookgenError, RefusedError
from bookgen.model.dimension import Dimension
from bookgen.model.drill import Drill
from bookgen.plan.document import Echo, Item, Link, Plan, Role
from bookgen.plan.entry import entry_of
from bookgen.plan.record import Played, Printed, Record, Result
from bookgen.studio.entries import Counts, Marking
from bookgen.words.speech import ENGLISH

NEXT_DAY = EVENING + timedelta(1)
WEDNESDAY = TUESDAY + timedelta(1)


def lines(stopped: pytest.ExceptionInfo[BookgenError]) -> list[str]:
    return [ENGLISH.line(finding) for finding in stopped.value.findings]


def test_a_drill_has_one_number_for_a_player_for_ever() -> None:
    first, second, third = DRILLS[:3]
    with empty_log() as log:
        assert log.reserve("Ines", [second, first, second]) == {second: 1, first: 2}
        assert log.reserve("Ines", [third, first]) == {third: 3, first: 2}
        assert log.reserve("Jo", [third]) == {third: 1}

        assert log.numbers("Ines") == {second: 1, first: 2, third: 3}
        assert log.drill_of("Ines", 3) == third.key
        assert log.drill_of("Ines", 4) is None


def test_a_reserved_number_is_no_printed_drill_until_its_pages_are_written() -> None:
    with empty_log() as log:
        plan = plan_for(log, DRILLS[:2])
        assert log.numbers("Ines")
        assert log.records("Ines") == ()
        assert log.players() == ()
        with pytest.raises(BookgenError) as stopped:
            log.enter("Ines", [1], Result.SECURE, None, EVENING)
        assert lines(stopped) == ["Ines: No. 1 was never printed for Ines; print a sheet first."]

        log.keep(plan, EVENING)
        assert [record.number for record in log.records("Ines")] == [1, 2]


def test_a_day_is_kept_alone_with_the_drills_that_it_names() -> None:
    linked = Link(to=1, changes=Dimension.STAGE, echo=Echo(interval="P4", number=3))
    with empty_log() as log:
        plan = plan_for(log, DRILLS[:1], DRILLS[2:3], DRILLS[1:2])
        (one, three, two), (first, _, third) = plan.drills, plan.days
        gated = replace(third, items=(Item(number=3, role=Role.NEW, minutes=2.0, only_if=1),))
        two = replace(two, link=linked)
        log.keep(replace(plan, drills=(one, two, three), days=(first, gated)), EVENING)

        day = msgspec.json.decode(log.day("Ines", third.date) or b"", type=Plan)
        assert day.days == (gated,)
        assert [entry.number for entry in day.drills] == [3]
        assert [(earlier.number, earlier.key) for earlier in day.earlier] == [(1, DRILLS[0].key)]
        assert log.day("Ines", first.date - timedelta(1)) is None
        assert log.day("Jo", first.date) is None


def test_every_number_that_a_kept_day_names_can_be_looked_up_in_it() -> None:
    with empty_log() as log:
        plan = plan_for(log, DRILLS[:4])
        one, two, three, four = plan.drills
        link = Link(to=2, changes=Dimension.STAGE, echo=Echo(interval="P4", number=3))
        (day,) = plan.days
        alone = replace(day, items=(Item(number=1, role=Role.NEW, minutes=2.0, only_if=4),))
        whole = replace(plan, drills=(replace(one, link=link), two, three, four), days=(alone,))
        log.keep(whole, EVENING)

        kept_day = msgspec.json.decode(log.day("Ines", day.date) or b"", type=Plan)
        assert [entry.number for entry in kept_day.drills] == [1]
        assert set(kept_day.named) == {1, 2, 3, 4}
        assert kept_day.linked(kept_day.drills[0]) == DRILLS[1]


def test_a_later_print_of_a_day_is_the_day_and_the_older_items_are_still_there() -> None:
    with empty_log() as log:
        kept(log, DRILLS[:2])
        kept(log, DRILLS[1:3], seed=9)

        assert json.loads(log.day("Ines", TUESDAY) or b"")["seed"] == 9
        records = {record.number: record.printed for record in log.records("Ines")}
        assert records == {
            1: (Printed(TUESDAY, Role.START),),
            2: (Printed(TUESDAY, Role.START), Printed(TUESDAY, Role.NEW, 1)),
            3: (Printed(TUESDAY, Role.NEW, 1),),
        }


def test_nobodys_plan_is_not_kept() -> None:
    with empty_log() as log:
        plan = replace(plan_for(log, DRILLS[:1]), player=None)
        with pytest.raises(RefusedError, match="log-nobody"):
            log.keep(plan, EVENING)


def test_a_plan_that_gives_a_drill_another_number_is_not_kept() -> None:
    with empty_log() as log:
        plan = plan_for(log, DRILLS[:1])
        for number in (1, 7):
            other = replace(plan, drills=(entry_of(DRILLS[1], VIOLIN, number, START_HERE),))
            with pytest.raises(RefusedError, match="log-not-reserved"):
                log.keep(other, EVENING)
        assert log.counts() == Counts(days=0, drills=1, items=0, entries=0)


def test_a_drill_keeps_the_link_of_its_first_page() -> None:
    link = Link(to=1, changes=Dimension.STAGE, keeps=("fingers",))
    with empty_log() as log:
        plan = plan_for(log, DRILLS[:2])
        one, two = plan.drills
        log.keep(replace(plan, drills=(one, replace(two, link=link))), EVENING)
        kept(log, DRILLS[:2], first=WEDNESDAY)

        assert [record.link for record in log.records("Ines")] == [one.link, link]


def test_records_tell_each_printed_drill_with_its_days_and_results() -> None:
    with empty_log() as log:
        kept(log, DRILLS[:2], DRILLS[:1])
        log.enter("Ines", [1, 2], Result.NOT_YET, None, EVENING)
        log.enter("Ines", [1], Result.SECURE, date(2026, 12, 2), NEXT_DAY)

        assert log.records("Ines") == (
            Record(
                1,
                DRILLS[0],
                (Printed(TUESDAY, Role.START), Printed(WEDNESDAY, Role.START)),
                (Played(TUESDAY, Result.NOT_YET), Played(WEDNESDAY, Result.SECURE)),
                START_HERE,
            ),
            Record(
                2,
                DRILLS[1],
                (Printed(TUESDAY, Role.NEW, 1),),
                (Played(TUESDAY, Result.NOT_YET),),
                START_HERE,
            ),
        )


def test_a_result_without_a_day_counts_for_the_last_day_up_to_today() -> None:
    with empty_log() as log:
        kept(log, *([DRILLS[0]] for _ in range(5)))
        now = EVENING + timedelta(3)
        (marking,) = log.enter("Ines", [1], Result.SECURE, None, now)

        assert marking.date == now.date()


def test_a_drill_or_role_of_another_bookgen_is_found_by_its_number_and_can_be_marked() -> None:
    with empty_log() as log:
        kept(log, DRILLS[:1])
        for order in (
            "INSERT INTO drill SELECT player, 2, 'theremin-1', NULL FROM drill",
            "INSERT INTO item SELECT player, date, printed, 1, 2, 'dream' FROM item",
        ):
            log.store.rows(order)
        log.enter("Ines", [2], Result.SECURE, None, EVENING)

        _, foreign = log.drills("Ines")
        assert (foreign.numbers, foreign.key, foreign.drill) == ((2,), "theremin-1", None)
        assert foreign.results == (Played(TUESDAY, Result.SECURE),)
        assert [record.number for record in log.records("Ines")] == [1]
        assert log.numbers("Ines") == {DRILLS[0]: 1}
        assert log.reserve("Ines", DRILLS[1:2]) == {DRILLS[1]: 3}


def test_players_are_those_for_whom_something_was_printed() -> None:
    with empty_log() as log:
        kept(log, DRILLS[:1], player="Mara")
        kept(log, DRILLS[:1], player="Jo")
        plan_for(log, DRILLS[:1], player="Theo")

        assert log.players() == ("Jo", "Mara")


def test_all_results_are_entered_or_none() -> None:
    good, bad = Marking("Ines", 1, Result.SECURE), Marking("Ines", 9, Result.SECURE)
    with empty_log() as log:
        kept(log, DRILLS[:2])
        with pytest.raises(BookgenError):
            log.enter_all([good, bad], EVENING)
        assert log.history("Ines") == ()


def test_what_stands_so_already_is_not_entered_again() -> None:
    with empty_log() as log:
        kept(log, DRILLS[:2])
        new = log.enter("Ines", [1], Result.SECURE, None, EVENING)
        assert new == (Marking("Ines", 1, Result.SECURE, TUESDAY),)

        again = log.enter("Ines", [1, 2], Result.SECURE, None, NEXT_DAY)
        assert [marking.number for marking in again] == [2]
        another_day = log.enter("Ines", [1], Result.SECURE, NEXT_DAY.date(), NEXT_DAY)
        assert len(another_day) == 1


def test_the_last_call_is_taken_back_for_all_its_players() -> None:
    with empty_log() as log:
        for player in ("Ines", "Jo"):
            kept(log, DRILLS[:2], player=player)
            log.enter(player, [1], Result.NOT_YET, None, EVENING)
        both = [
            Marking(player, number, Result.SECURE) for player in ("Jo", "Ines") for number in (1, 2)
        ]
        log.enter_all(both, NEXT_DAY)

        taken = log.undo(None, None, NEXT_DAY)
        assert [(entry.player, entry.number) for entry in taken] == [
            ("Ines", 1),
            ("Ines", 2),
            ("Jo", 1),
            ("Jo", 2),
        ]
        for player in ("Ines", "Jo"):
            first, second = log.records(player)
            assert first.results == (Played(TUESDAY, Result.NOT_YET),)
            assert second.results == ()
        assert [entry.player for entry in log.undo("Ines", None, NEXT_DAY)] == ["Ines"]
        assert log.records("Jo")[0].results


def test_there_must_be_something_to_take_back() -> None:
    with empty_log() as log:
        kept(log, DRILLS[:2])
        with pytest.raises(BookgenError) as stopped:
            log.undo("Ines", None, EVENING)
        assert lines(stopped) == ["--undo: there is no result; enter one first."]

        log.enter("Ines", [1], Result.SECURE, None, EVENING)
        with pytest.raises(BookgenError) as stopped:
            log.undo("Ines", [1, 2], EVENING)
        assert lines(stopped)[0].startswith("Ines, No. 2: it has no result; leave it out")
        assert log.records("Ines")[0].results, "all or none"


Entry = tuple[int, date, Result]
"""A result with its call and its day."""

DAYS = [TUESDAY + timedelta(at) for at in range(3)]


class LogAgainstModel(RuleBasedStateMachine):
    """Results entered and taken back, in the log and in a dict of stacks."""

    def __init__(self) -> None:
        super().__init__()
        self.stack = ExitStack()
        self.log = self.stack.enter_context(empty_log())
        self.model: dict[int, list[Entry]] = {}
        self.drills: dict[Drill, int] = {}
        self.calls = 0
        self.entries = 0

    def teardown(self) -> None:
        """Close the log."""
        self.stack.close()

    @rule(drills=st.sets(st.sampled_from(DRILLS[:6]), min_size=1, max_size=3))
    def print_a_sheet(self, drills: set[Drill]) -> None:
        ordered = sorted(drills, key=lambda drill: drill.key)
        kept(self.log, ordered)
        for drill in ordered:
            number = self.drills.setdefault(drill, len(self.drills) + 1)
            self.model.setdefault(number, [])

    @precondition(lambda self: self.model)
    @rule(data=st.data(), result=st.sampled_from(Result), day=st.sampled_from(DAYS))
    def enter(self, data: st.DataObject, result: Result, day: date) -> None:
        numbers = data.draw(st.sets(st.sampled_from(sorted(self.model)), min_size=1))
        self.log.enter("Ines", sorted(numbers), result, day, EVENING + timedelta(2))
        self.calls += 1
        for number in numbers:
            if self.valid(number).get(day) != result:
                self.model[number].append((self.calls, day, result))
                self.entries += 1

    def valid(self, number: int) -> dict[date, Result]:
        """The last result of each day."""
        return {day: result for _, day, result in self.model[number]}

    @precondition(lambda self: any(self.model.values()))
    @rule(data=st.data())
    def take_back_numbers(self, data: st.DataObject) -> None:
        marked = sorted(number for number, stack in self.model.items() if stack)
        numbers = data.draw(st.sets(st.sampled_from(marked), min_size=1))
        self.log.undo("Ines", sorted(numbers), EVENING)
        self.pop(numbers)

    @precondition(lambda self: any(self.model.values()))
    @rule()
    def take_back_the_last_call(self) -> None:
        last = max(stack[-1][0] for stack in self.model.values() if stack)
        self.log.undo("Ines", None, EVENING)
        self.pop({number for number, stack in self.model.items() if stack and stack[-1][0] == last})

    def pop(self, numbers: set[int]) -> None:
        for number in numbers:
            self.model[number].pop()
            self.entries += 1

    @invariant()
    def every_drill_has_its_number(self) -> None:
        assert self.log.numbers("Ines") == self.drills

    @invariant()
    def the_same_results_are_valid(self) -> None:
        found = {
            record.number: {played.date: played.result for played in record.results}
            for record in self.log.records("Ines")
        }
        assert found == {number: self.valid(number) for number in self.model}

    @invariant()
    def nothing_is_forgotten(self) -> None:
        history = self.log.history("Ines")
        assert len(history) == self.entries
        standing = [entry for entry in history if entry.result and not entry.taken_back]
        assert len(standing) == sum(map(len, self.model.values()))
        valid = [entry for entry in history if entry.valid]
        assert len(valid) == sum(len(self.valid(number)) for number in self.model)


TestLogAgainstModel = LogAgainstModel.TestCase
TestLogAgainstModel.settings = settings(max_examples=25, stateful_step_count=15, deadline=None)
