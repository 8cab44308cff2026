"""A log taken into another one: nothing is lost, nothing doubled, nothing changed."""

from datetime import UTC, datetime, timedelta

import msgspec
import pytest
from hypothesis import given, settings
from log_copies import log_copies
from printed import EVENING, empty_log, kept, sheet

from bookgen.errors import BookgenError
from bookgen.plan.record import Result
from bookgen.studio.log_copy import DayRow, DrillRow, EntryRow, LogCopy
from bookgen.studio.practice_log import Counts, PracticeLog


def rows(copied: LogCopy) -> set[DayRow | DrillRow | EntryRow]:
    return {*copied.days, *copied.drills, *copied.entries}


@given(log_copies())
@settings(max_examples=40)
def test_an_empty_log_takes_in_everything_once(copied: LogCopy) -> None:
    with empty_log() as log:
        new = log.restore(copied, "copy")
        assert new == Counts(len(copied.days), len(copied.drills), len(copied.entries))
        assert rows(log.export()) == rows(copied)
        assert log.restore(copied, "copy") == Counts(0, 0, 0)
        assert rows(log.export()) == rows(copied)
        assert log.faults() == []


@given(log_copies())
@settings(max_examples=30)
def test_two_copies_of_one_log_meet_in_any_order(copied: LogCopy) -> None:
    old = msgspec.structs.replace(copied, entries=copied.entries[:3])
    for first, second in ((old, copied), (copied, old)):
        with empty_log() as log:
            log.restore(first, "one")
            log.restore(second, "two")
            assert rows(log.export()) == rows(copied)


def two_logs(log: PracticeLog, other: PracticeLog) -> None:
    """One print on two machines; each enters something else."""
    kept(log, sheet(3))
    other.restore(log.export(), "copy")
    log.enter("Ines", [1, 2], Result.SECURE, None, EVENING)
    other.enter("Ines", [2, 3], Result.NOT_YET, None, EVENING + timedelta(hours=1))


def test_of_two_machines_the_later_result_is_valid() -> None:
    with empty_log() as log, empty_log() as other:
        two_logs(log, other)
        assert log.restore(other.export(), "other") == Counts(0, 0, 2)
        other.restore(log.export(), "log")

        expected = [Result.SECURE, Result.NOT_YET, Result.NOT_YET]
        assert [record.result for record in log.records("Ines")] == expected
        assert log.export() == other.export()


def refused(log: PracticeLog, copied: LogCopy) -> list[str]:
    before = log.export()
    with pytest.raises(BookgenError) as stopped:
        log.restore(copied, "copy.json")
    assert log.export() == before, "all or nothing"
    return str(stopped.value).splitlines()


def test_a_number_that_is_another_drill_here_is_refused() -> None:
    with empty_log() as log, empty_log() as other:
        kept(log, sheet(2), EVENING)
        kept(other, sheet(2, seed=5), EVENING + timedelta(1))

        apart = "keep the two logs apart, or import this one into an empty folder."
        assert refused(log, other.export()) == [
            f"copy.json: Ines, No. {number} is another one in the log; {apart}" for number in (1, 2)
        ]


def with_rows(copied: LogCopy, **rows: object) -> LogCopy:
    return msgspec.convert(
        {
            **msgspec.to_builtins(copied),
            **{key: msgspec.to_builtins(rows[key]) for key in rows},
        },
        LogCopy,
    )


LATE = datetime(2026, 12, 9, tzinfo=UTC)


@pytest.mark.parametrize(
    ("entry", "told"),
    [
        (
            EntryRow(player="Ines", number=9, entered=LATE, result="secure", date=EVENING.date()),
            "Ines, No. 9, entered 2026-12-09T00:00:00.000000+00:00, was never printed",
        ),
        (
            EntryRow(player="Ines", number=1, entered=LATE),
            "is neither a result with its day nor takes one back",
        ),
        (EntryRow(player="Ines", number=1, entered=LATE, result="secure"), "is neither a result"),
        (EntryRow(player="Ines", number=1, entered=LATE, undoes=LATE), "is neither a result"),
        (EntryRow(player="Ines", number=1, entered=LATE, undoes=EVENING), "is neither a result"),
        (
            EntryRow(
                player="Ines",
                number=1,
                entered=LATE,
                result="secure",
                date=EVENING.date(),
                undoes=EVENING,
            ),
            "is neither a result",
        ),
    ],
)
def test_an_entry_that_cannot_be_is_refused(entry: EntryRow, told: str) -> None:
    with empty_log() as log:
        kept(log, sheet(1))
        (line,) = refused(log, with_rows(log.export(), entries=(entry,)))
        assert told in line


def test_nothing_is_taken_back_before_it_was_entered() -> None:
    early = EntryRow(player="Ines", number=1, entered=EVENING - timedelta(hours=1), undoes=EVENING)
    with empty_log() as log:
        kept(log, sheet(1))
        log.enter("Ines", [1], Result.SECURE, None, EVENING)
        assert "is neither a result" in refused(log, with_rows(log.export(), entries=(early,)))[0]


@given(log_copies())
@settings(max_examples=15)
def test_rows_come_in_any_order(copied: LogCopy) -> None:
    backwards = LogCopy(
        days=copied.days[::-1],
        drills=copied.drills[::-1],
        entries=copied.entries[::-1],
    )
    with empty_log() as log:
        log.restore(backwards, "copy")
        assert rows(log.export()) == rows(copied)


def test_a_drill_without_its_day_is_refused() -> None:
    with empty_log() as log, empty_log() as other:
        kept(other, sheet(1))
        (line,) = refused(log, with_rows(other.export(), days=()))
        assert line.startswith("copy.json: Ines, No. 1 stands on no printed day;")


def test_an_instant_outside_the_calendar_is_told() -> None:
    with empty_log() as log:
        kept(log, sheet(1))
        early = datetime.fromisoformat("0001-01-01T00:00:00+09:00")
        entry = EntryRow(
            player="Ines", number=1, entered=early, result="secure", date=EVENING.date()
        )
        assert (
            "outside the calendar" in refused(log, LogCopy(days=(), drills=(), entries=(entry,)))[0]
        )
