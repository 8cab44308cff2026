"""A log taken into another one: nothing is lost, nothing doubled, nothing changed."""

from datetime import UTC, datetime, timedelta

import msgspec
import pytest
from hypothesis import given, settings
from kit.log_copies import log_copies
from kit.printed import DRILLS, EVENING, empty_log, kept, plan_for
from msgspec.structs import replace

from bookgen.errors import BookgenError
from bookgen.model.dimension import Dimension
from bookgen.plan.document import Link
from bookgen.plan.record import Played, Result
from bookgen.studio.entries import Counts
from bookgen.studio.log_copy import LogCopy
from bookgen.studio.practice_log import PracticeLog
from bookgen.studio.rows import DrillRow, EntryRow, Row
from bookgen.words.speech import ENGLISH


def rows(copied: LogCopy) -> set[Row]:
    return {*copied.days, *copied.drills, *copied.items, *copied.entries}


@given(log_copies())
@settings(max_examples=40)
def test_an_empty_log_takes_in_everything_once(copied: LogCopy) -> None:
    with empty_log() as log:
        new = log.restore(copied, "copy")
        parts = (copied.days, copied.drills, copied.items, copied.entries)
        assert new == Counts(*map(len, parts))
        assert rows(log.export()) == rows(copied)
        assert log.restore(copied, "copy") == Counts(0, 0, 0, 0)
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
    kept(log, DRILLS[:3])
    other.restore(log.export(), "copy")
    log.enter("Ines", [1, 2], Result.SECURE, None, EVENING)
    other.enter("Ines", [2, 3], Result.NOT_YET, None, EVENING + timedelta(hours=1))


def test_of_two_machines_the_later_result_is_valid() -> None:
    with empty_log() as log, empty_log() as other:
        two_logs(log, other)
        assert log.restore(other.export(), "other") == Counts(0, 0, 0, 2)
        other.restore(log.export(), "log")

        expected = [Result.SECURE, Result.NOT_YET, Result.NOT_YET]
        results = [record.results for record in log.records("Ines")]
        assert results == [(Played(EVENING.date(), result),) for result in expected]
        assert log.export() == other.export()


def refused(log: PracticeLog, copied: LogCopy) -> list[str]:
    before = log.export()
    with pytest.raises(BookgenError) as stopped:
        log.restore(copied, "copy.json")
    assert log.export() == before, "all or nothing"
    return [ENGLISH.line(finding) for finding in stopped.value.findings]


def test_a_number_that_is_another_drill_here_is_refused() -> None:
    with empty_log() as log, empty_log() as other:
        kept(log, DRILLS[:2], printed=EVENING)
        kept(other, DRILLS[2:4], printed=EVENING + timedelta(1))

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
            EntryRow(
                player="Ines",
                number=9,
                entered=LATE,
                result="secure",
                date=EVENING.date(),
                replaces="day",
            ),
            "Ines, No. 9, entered 2026-12-09 00:00:00+00:00, names no drill",
        ),
        (
            EntryRow(player="Ines", number=1, entered=LATE),
            "is neither a result with its day nor takes one back",
        ),
        (EntryRow(player="Ines", number=1, entered=LATE, result="secure"), "is neither a result"),
        (
            EntryRow(player="Ines", number=1, entered=LATE, result="secure", date=EVENING.date()),
            "is neither a result",
        ),
        (EntryRow(player="Ines", number=1, entered=LATE, undoes=LATE), "is neither a result"),
        (EntryRow(player="Ines", number=1, entered=LATE, undoes=EVENING), "is neither a result"),
        (
            EntryRow(
                player="Ines",
                number=1,
                entered=LATE,
                result="secure",
                date=EVENING.date(),
                replaces="day",
                undoes=EVENING,
            ),
            "is neither a result",
        ),
    ],
)
def test_an_entry_that_cannot_be_is_refused(entry: EntryRow, told: str) -> None:
    with empty_log() as log:
        kept(log, DRILLS[:1])
        (line,) = refused(log, with_rows(log.export(), entries=(entry,)))
        assert told in line


def test_nothing_is_taken_back_before_it_was_entered() -> None:
    early = EntryRow(player="Ines", number=1, entered=EVENING - timedelta(hours=1), undoes=EVENING)
    with empty_log() as log:
        kept(log, DRILLS[:1])
        log.enter("Ines", [1], Result.SECURE, None, EVENING)
        assert "is neither a result" in refused(log, with_rows(log.export(), entries=(early,)))[0]


@given(log_copies())
@settings(max_examples=15)
def test_rows_come_in_any_order(copied: LogCopy) -> None:
    backwards = LogCopy(
        days=copied.days[::-1],
        drills=copied.drills[::-1],
        items=copied.items[::-1],
        entries=copied.entries[::-1],
    )
    with empty_log() as log:
        log.restore(backwards, "copy")
        assert rows(log.export()) == rows(copied)


def test_an_item_without_its_day_or_drill_is_refused() -> None:
    with empty_log() as log, empty_log() as other:
        kept(other, DRILLS[:1])
        (line,) = refused(log, with_rows(other.export(), days=()))
        assert line.startswith("copy.json: Ines, No. 1, stands on no printed day;")
        (line,) = refused(log, with_rows(other.export(), drills=()))
        assert line.startswith("copy.json: Ines, No. 1, names no drill;")


def test_a_link_that_is_none_is_refused() -> None:
    odd = DrillRow(player="Ines", number=1, key="key", link="on page 3")
    with empty_log() as log:
        (line,) = refused(log, LogCopy(days=(), drills=(odd,), items=(), entries=()))
        assert line.startswith("copy.json: the link of Ines, No. 1, is none (")


def test_of_two_machines_each_keeps_the_link_that_it_printed() -> None:
    ours, theirs = (
        Link(to=None, changes=dimension) for dimension in (Dimension.STAGE, Dimension.PLACE)
    )
    with empty_log() as log, empty_log() as other:
        for each, link, hour in ((log, ours, 0), (other, theirs, 1)):
            plan = plan_for(each, DRILLS[:2])
            drills = tuple(replace(drill, link=link) for drill in plan.drills)
            each.keep(replace(plan, drills=drills), EVENING + timedelta(hours=hour))
        alone = DrillRow(player="Ines", number=3, key=DRILLS[2].key)
        log.restore(LogCopy(days=(), drills=(alone,), items=(), entries=()), "copy")
        linked = replace(alone, link='{"to":2,"changes":"stage"}')
        log.restore(LogCopy(days=(), drills=(linked,), items=(), entries=()), "copy")

        assert log.restore(other.export(), "other").drills == 0
        assert [drill.link for drill in log.drills("Ines")] == [
            ours,
            ours,
            Link(to=2, changes=Dimension.STAGE),
        ]


def test_a_drill_that_two_machines_numbered_has_both_numbers() -> None:
    with empty_log() as log:
        kept(log, DRILLS[:1])
        kept(log, DRILLS[1:2], first=EVENING.date() + timedelta(1))
        late = DrillRow(player="Ines", number=5, key=DRILLS[1].key)
        log.restore(LogCopy(days=(), drills=(late,), items=(), entries=()), "copy")

        assert log.numbers("Ines") == {DRILLS[0]: 1, DRILLS[1]: 2}
        assert log.drill_of("Ines", 5) == DRILLS[1].key
        assert log.reserve("Ines", DRILLS[2:3]) == {DRILLS[2]: 6}


def test_an_instant_outside_the_calendar_is_told() -> None:
    with empty_log() as log:
        kept(log, DRILLS[:1])
        early = datetime.fromisoformat("0001-01-01T00:00:00+09:00")
        entry = EntryRow(
            player="Ines",
            number=1,
            entered=early,
            result="secure",
            date=EVENING.date(),
            replaces="day",
        )
        assert (
            "outside the calendar"
            in refused(log, LogCopy(days=(), drills=(), items=(), entries=(entry,)))[0]
        )
