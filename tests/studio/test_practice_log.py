"""The practice log against a plain model of it, and what each of its methods promises."""

from contextlib import ExitStack
from dataclasses import replace
from datetime import date, timedelta

import pytest
from drills import TUESDAY, VIOLIN, plan_of
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, precondition, rule
from printed import EVENING, KEYS, days, empty_log, kept, sheet

from bookgen.errors import BookgenError
from bookgen.model.drill import Drill
from bookgen.plan.document import Kind
from bookgen.plan.encoder import encode
from bookgen.plan.record import Record, Result
from bookgen.studio.entries import Marking, NumbersTakenError
from bookgen.studio.practice_log import Counts

NEXT_DAY = EVENING + timedelta(1)


def test_numbers_run_on_for_each_player_for_ever() -> None:
    with empty_log() as log:
        assert log.next_number("Ines") == 1
        kept(log, days(3, 2))
        kept(log, sheet(1, player="Jo"))

        assert (log.next_number("Ines"), log.next_number("Jo")) == (7, 2)


def test_numbers_that_another_print_took_are_refused_and_nothing_is_kept() -> None:
    with empty_log() as log:
        kept(log, sheet(3))
        with pytest.raises(NumbersTakenError) as stopped:
            kept(log, days(3, 2))

        assert stopped.value.first_free == 4
        assert log.counts() == Counts(days=1, drills=3, entries=0)
        kept(log, sheet(1, stopped.value.first_free))


def test_a_day_is_kept_letter_by_letter_as_it_was_printed() -> None:
    plan = days(3, 2)
    with empty_log() as log:
        kept(log, plan)

        for day in plan.days:
            as_printed = encode(replace(plan, days=(day,)), VIOLIN)
            assert log.day("Ines", day.date) == as_printed
            assert log.day_of("Ines", day.drills[-1].number) == as_printed
        assert log.day("Ines", TUESDAY - timedelta(1)) is None
        assert log.day("Jo", TUESDAY) is None
        assert log.day_of("Ines", 7) is None


def test_a_later_print_of_a_day_is_the_day_and_the_older_numbers_are_still_found() -> None:
    first, second = sheet(2), sheet(2, 3, seed=9)
    with empty_log() as log:
        kept(log, first, EVENING)
        kept(log, second, EVENING)

        assert log.day("Ines", TUESDAY) == encode(second, VIOLIN)
        assert log.day_of("Ines", 2) == encode(first, VIOLIN)
        assert [record.number for record in log.records("Ines")] == [1, 2, 3, 4]


def test_nobodys_plan_is_not_kept() -> None:
    with empty_log() as log, pytest.raises(ValueError, match="without a player"):
        kept(log, plan_of(KEYS[0], player=None))


def test_records_tell_each_printed_drill_and_its_valid_result() -> None:
    with empty_log() as log:
        kept(log, sheet(2))
        log.enter("Ines", [2], Result.SECURE, date(2026, 12, 2), NEXT_DAY)

        first, second = (Drill.parse_key(f"violin-{key}") for key in KEYS[:2])
        assert log.records("Ines") == (
            Record(1, TUESDAY, first, Kind.OPENING),
            Record(2, TUESDAY, second, Kind.NEW, Result.SECURE, date(2026, 12, 2)),
        )


def test_a_drill_of_another_bookgen_is_found_by_its_number_and_can_be_marked() -> None:
    with empty_log() as log:
        kept(log, sheet(1))
        foreign = log.export().drills[0]
        log.connection.execute(
            "INSERT INTO drill (player, number, date, printed, key, kind)"
            " SELECT player, 2, date, printed, 'theremin-1', kind FROM drill"
        )
        log.enter("Ines", [2], Result.SECURE, None, EVENING)

        assert [drill.key for drill in log.printed("Ines")] == [foreign.key, "theremin-1"]
        assert [record.number for record in log.records("Ines")] == [1]
        assert log.results("Ines") == {2: (Result.SECURE, TUESDAY)}


def test_players_are_those_for_whom_something_was_printed() -> None:
    with empty_log() as log:
        kept(log, sheet(1, player="Mara"))
        kept(log, sheet(1, player="Jo"))

        assert log.players() == ("Jo", "Mara")


def test_all_results_are_entered_or_none() -> None:
    good, bad = Marking("Ines", 1, Result.SECURE), Marking("Ines", 9, Result.SECURE)
    with empty_log() as log:
        kept(log, sheet(2))
        with pytest.raises(BookgenError):
            log.enter_all([good, bad], EVENING)
        assert log.history("Ines") == ()


def test_what_stands_so_already_is_not_entered_again() -> None:
    with empty_log() as log:
        kept(log, sheet(2))
        new = log.enter("Ines", [1], Result.SECURE, None, EVENING)
        assert new == (Marking("Ines", 1, Result.SECURE, TUESDAY),)

        again = log.enter("Ines", [1, 2], Result.SECURE, None, NEXT_DAY)
        assert [marking.number for marking in again] == [2]
        another_day = log.enter("Ines", [1], Result.SECURE, NEXT_DAY.date(), NEXT_DAY)
        assert len(another_day) == 1


def test_the_last_call_is_taken_back_for_all_its_players() -> None:
    with empty_log() as log:
        for player in ("Ines", "Jo"):
            kept(log, sheet(2, player=player))
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
        assert log.results("Ines") == log.results("Jo") == {1: (Result.NOT_YET, TUESDAY)}
        assert [entry.player for entry in log.undo("Ines", None, NEXT_DAY)] == ["Ines"]
        assert log.results("Jo")


def test_there_must_be_something_to_take_back() -> None:
    with empty_log() as log:
        kept(log, sheet(2))
        with pytest.raises(BookgenError, match="there is no result; enter one first"):
            log.undo("Ines", None, EVENING)
        log.enter("Ines", [1], Result.SECURE, None, EVENING)
        with pytest.raises(BookgenError, match=r"Ines, No\. 2: it has no result"):
            log.undo("Ines", [1, 2], EVENING)
        assert log.results("Ines"), "all or none"


Stack = list[tuple[int, Result]]


class LogAgainstModel(RuleBasedStateMachine):
    """Results entered and taken back, in the log and in a dict of stacks."""

    def __init__(self) -> None:
        super().__init__()
        self.stack = ExitStack()
        self.log = self.stack.enter_context(empty_log())
        self.model: dict[int, Stack] = {}
        self.calls = 0
        self.entries = 0

    def teardown(self) -> None:
        """Close the log."""
        self.stack.close()

    @rule(count=st.integers(1, 3))
    def print_a_sheet(self, count: int) -> None:
        first = self.log.next_number("Ines")
        kept(self.log, sheet(count, first))
        self.model |= {first + at: [] for at in range(count)}

    @precondition(lambda self: self.model)
    @rule(data=st.data(), result=st.sampled_from(Result))
    def enter(self, data: st.DataObject, result: Result) -> None:
        numbers = data.draw(st.sets(st.sampled_from(sorted(self.model)), min_size=1))
        self.log.enter("Ines", sorted(numbers), result, None, EVENING)
        self.calls += 1
        for number in numbers:
            stack = self.model[number]
            if not stack or stack[-1][1] != result:
                stack.append((self.calls, result))
                self.entries += 1

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
    def the_same_results_are_valid(self) -> None:
        expected = {number: stack[-1][1] if stack else None for number, stack in self.model.items()}
        assert {record.number: record.result for record in self.log.records("Ines")} == expected

    @invariant()
    def nothing_is_forgotten(self) -> None:
        history = self.log.history("Ines")
        assert len(history) == self.entries
        standing = [entry for entry in history if entry.result and not entry.taken_back]
        assert len(standing) == sum(map(len, self.model.values()))


TestLogAgainstModel = LogAgainstModel.TestCase
TestLogAgainstModel.settings = settings(max_examples=25, stateful_step_count=15, deadline=None)
