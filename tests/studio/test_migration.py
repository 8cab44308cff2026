"""Logs of older bookgens: numbers find their drills, results keep their days, nothing is lost."""

import hashlib
import json
import os
import signal
import sqlite3
import subprocess
import sys
from contextlib import closing
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from kit.planning import request_for
from kit.printed import DRILLS, EVENING, VIOLIN, kept

from bookgen.errors import BookgenError
from bookgen.model.drill import Drill
from bookgen.plan.decoder import decode
from bookgen.plan.document import Role
from bookgen.plan.record import Played, Printed, Result
from bookgen.planner.month import plan_days
from bookgen.studio.copy_csv import as_csv, from_csv
from bookgen.studio.entries import Counts, instant_text
from bookgen.studio.log_copy import as_json, from_json
from bookgen.studio.practice_log import PracticeLog, open_log
from bookgen.studio.schema import MIGRATIONS
from bookgen.studio.store import Cell, Store, opened

TESTS = Path(__file__).parents[1]
LOGS = TESTS / "specimens" / "logs"
TODAY = datetime(2026, 11, 27, 20, tzinfo=UTC)

FRAME = "violin-12-whole-place{}-strings4321-stage{}-low-mirror"
ALL_STRINGS, SECOND_NOTE, HALF = FRAME.format(2, 1), FRAME.format(2, 2), FRAME.format(1, 1)
OLD_DRILLS = {
    **dict.fromkeys((1, 6, 8), ALL_STRINGS),
    **dict.fromkeys((2, 3), SECOND_NOTE),
    **dict.fromkeys((4, 5, 7, 9), HALF),
}
"""What stands on the pages of the specimen's Ines, as its bookgen printed them."""


def old_file(version: int, folder: Path) -> Path:
    """A log that an older bookgen wrote."""
    file = folder / "practice-log.sqlite"
    with closing(sqlite3.connect(file)) as connection:
        text = (LOGS / f"version-{version}.sql").read_text(encoding="utf-8")
        connection.executescript(text)
    return file


@pytest.fixture
def version_2(tmp_path: Path) -> Path:
    """A log of version 2: a booklet, a day printed twice, results, corrections, undos."""
    return old_file(2, tmp_path)


def old_rows(file: Path, question: str) -> list[tuple[Cell, ...]]:
    """What an older log answers."""
    with closing(sqlite3.connect(file)) as connection:
        return list(connection.execute(question))


def test_a_released_step_never_changes() -> None:
    digests = [hashlib.sha256(repr(step).encode()).hexdigest()[:16] for step in MIGRATIONS]

    assert digests[:2] == ["d9153925b5264016", "ffa84d6b17487880"]


def test_every_number_of_version_2_finds_its_drill(version_2: Path) -> None:
    before = old_rows(version_2, "SELECT player, number, key FROM drill")
    with open_log(version_2) as log:
        assert log.version() == 4
        found = [(name, at, log.drill_of(str(name), int(str(at)))) for name, at, _ in before]
        assert found == before
        assert len(found) == 10
        assert {number: log.drill_of("Ines", number) for number in OLD_DRILLS} == OLD_DRILLS


def test_the_lowest_number_of_a_drill_is_its_own(version_2: Path) -> None:
    with open_log(version_2) as log:
        own = {drill.key: number for drill, number in log.numbers("Ines").items()}
        assert (own[ALL_STRINGS], own[SECOND_NOTE], own[HALF]) == (1, 2, 4)
        assert [drill.numbers for drill in log.drills("Ines")] == [
            (1, 6, 8),
            (2, 3),
            (4, 5, 7, 9),
        ]
        assert [record.number for record in log.records("Ines")][:3] == [1, 2, 4]

        named = {number: drill.key for number, drill in log.named("Ines").items()}
        assert named == OLD_DRILLS
        assert log.next_number("Ines") == 10
        known = Drill.parse_key(HALF)
        assert log.reserve("Ines", [known, DRILLS[0]]) == {known: 4, DRILLS[0]: 10}


def test_results_keep_their_days_and_are_read_for_each_drill(version_2: Path) -> None:
    valid = old_rows(version_2, "SELECT player, number, result, date FROM valid")
    with open_log(version_2) as log:
        found = {record.drill.key: record for record in log.records("Ines")}
        assert found[ALL_STRINGS].results == (
            Played(date(2026, 11, 17), Result.SECURE),
            Played(date(2026, 11, 22), Result.NOT_YET),
        ), "Nos. 6 and 8 were both marked for the 22nd; the last one stands"
        assert found[SECOND_NOTE].results == (
            Played(date(2026, 11, 17), Result.SECURE),
            Played(date(2026, 11, 21), Result.SECURE),
        ), "what No. 3 had on the 18th was corrected, and on the 20th taken back"
        assert found[HALF].results == (Played(date(2026, 11, 18), Result.NOT_YET),)
        assert len(valid) == 7
        for player, number, result, day in valid:
            if number != 6:
                (drill,) = (one for one in log.drills(str(player)) if number in one.numbers)
                played = [(str(one.date), one.result) for one in drill.results]
                assert (day, result) in played


def test_days_and_roles_are_those_that_were_printed(version_2: Path) -> None:
    documents = old_rows(version_2, "SELECT player, date, plan FROM day ORDER BY printed")
    with open_log(version_2) as log:
        found = {record.number: record.printed for record in log.records("Ines")}
        assert found[2] == (
            Printed(date(2026, 11, 17), Role.NEW, 1),
            Printed(date(2026, 11, 18), Role.START),
        )
        last = {(player, day): text for player, day, text in documents}
        assert len(documents) == 6
        assert len(last) == 5
        for (player, day), text in last.items():
            assert log.day(str(player), date.fromisoformat(str(day))) == str(text).encode()
        assert [row.plan for row in log.export().days] == [text for *_, text in documents]


def test_nothing_is_lost(version_2: Path) -> None:
    tables = {"day": 6, "drill": 10, "entry": 14}
    before = {table: old_rows(version_2, f"SELECT * FROM {table}") for table in tables}  # noqa: S608
    with open_log(version_2) as log:
        assert {table: len(rows) for table, rows in before.items()} == tables
        assert log.counts() == Counts(days=6, drills=10, items=10, entries=14)
        assert log.faults() == []
        told = {
            (
                entry.player,
                entry.number,
                instant_text(entry.entered),
                entry.result,
                str(entry.date) if entry.date else None,
                instant_text(entry.undoes) if entry.undoes else None,
            )
            for entry in log.history(None)
        }
        assert told == set(before["entry"])


def test_an_old_number_is_marked_and_taken_back_as_its_drill(version_2: Path) -> None:
    with open_log(version_2) as log:
        (marking,) = log.enter("Ines", [6], Result.NOT_YET, None, TODAY)
        assert (marking.number, marking.date) == (6, date(2026, 11, 20)), "the day of its page"
        assert Played(date(2026, 11, 20), Result.NOT_YET) in log.records("Ines")[0].results
        assert log.enter("Ines", [1], Result.NOT_YET, date(2026, 11, 20), TODAY) == ()

        (taken,) = log.undo("Ines", [1], TODAY)
        assert taken.number == 6
        (taken,) = log.undo("Ines", [1], TODAY)
        assert (taken.number, taken.date) == (8, date(2026, 11, 22))
        assert log.records("Ines")[0].results[-1] == Played(date(2026, 11, 22), Result.SECURE)
        (taken,) = log.undo("Ines", [8], TODAY)
        assert (taken.number, taken.date) == (6, date(2026, 11, 22))
        assert log.records("Ines")[0].results[-1] == Played(date(2026, 11, 20), Result.SECURE), (
            "the result that was corrected is valid again"
        )


def test_printing_goes_on_in_an_old_log(version_2: Path) -> None:
    known = Drill.parse_key(ALL_STRINGS)
    with open_log(version_2) as log:
        kept(log, [known, DRILLS[0]])
        record = log.records("Ines")[0]
        assert record.number == 1
        assert record.printed[-1] == Printed(date(2026, 12, 1), Role.START)
        assert record.link is not None
        assert log.faults() == []


def test_version_1_goes_the_same_way(tmp_path: Path) -> None:
    with open_log(old_file(1, tmp_path)) as log:
        assert log.version() == 4
        assert log.counts() == Counts(days=1, drills=2, items=2, entries=2)
        first, second = log.records("Ines")
        assert first.results == (Played(date(2026, 12, 1), Result.NOT_YET),)
        assert second.printed == (Printed(date(2026, 12, 1), Role.NEW, 1),)
        assert second.results == ()
        assert log.day("Ines", EVENING.date()) == b'{"a": "plan"}'
        assert log.undo("Ines", [1], EVENING)[0].result == Result.NOT_YET
        assert log.records("Ines")[0].results == (Played(date(2026, 12, 1), Result.SECURE),)
        with pytest.raises(sqlite3.IntegrityError, match="forgets nothing"):
            log.store.rows("DELETE FROM entry")


def test_a_copy_of_version_1_becomes_the_log_that_its_file_became(tmp_path: Path) -> None:
    copies = [
        from_json((LOGS / "copy-version-1.json").read_bytes(), "copy"),
        from_csv((LOGS / "copy-version-1.csv").read_bytes(), "copy"),
    ]
    with open_log(old_file(1, tmp_path)) as log:
        assert copies == [log.export()] * 2
    for at, copied in enumerate(copies):
        with open_log(tmp_path / f"{at}.sqlite") as log:
            log.restore(copied, "copy")
            assert log.export() == copied


def test_what_was_brought_up_goes_through_copies_of_today(version_2: Path, tmp_path: Path) -> None:
    with open_log(version_2) as log, open_log(tmp_path / "new.sqlite") as new:
        copied = log.export()
        assert from_json(as_json(copied), "copy") == from_csv(as_csv(copied), "copy") == copied
        new.restore(copied, "copy")
        assert new.records("Ines") == log.records("Ines")
        assert new.history(None) == log.history(None)


def test_a_step_that_fails_leaves_the_old_log_as_it_was(version_2: Path) -> None:
    before = version_2.read_bytes()
    broken = (*MIGRATIONS, ("CREATE TABLE more (x) STRICT",))

    with pytest.raises(BookgenError, match="log-unusable"), opened(version_2, steps=broken):
        pass
    assert version_2.read_bytes() == before


@pytest.mark.parametrize(
    "orders",
    [
        ["UPDATE entry SET date = '2026-13-45' WHERE number = 2 AND result IS NOT NULL"],
        ["DELETE FROM drill WHERE number = 2"],
        ["DELETE FROM day"],
    ],
)
def test_an_old_log_with_rows_that_cannot_be_stays_and_is_told(
    version_2: Path, orders: list[str]
) -> None:
    with closing(sqlite3.connect(version_2, isolation_level=None)) as connection:
        triggers = connection.execute("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'")
        for name, _ in (written := triggers.fetchall()):
            connection.execute(f"DROP TRIGGER {name}")
        for order in orders:
            connection.execute(order)
        for _, sql in written:
            connection.execute(sql)
    before = version_2.read_bytes()

    with pytest.raises(BookgenError, match="log-damaged"), open_log(version_2):
        pass
    assert version_2.read_bytes() == before


IS_KILLED = """
import os, signal, sys
from pathlib import Path
from bookgen.studio import store

left = int(sys.argv[2])
made = store.Store.__init__

def begin(self, connection):
    made(self, connection)
    connection.execute("PRAGMA cache_size = 2")
    connection.set_progress_handler(strike, 20)

def strike():
    global left
    left -= 1
    if left == 0:
        os.kill(os.getpid(), signal.SIGKILL)

store.schema_of(store.MIGRATIONS[:2])
store.Store.__init__ = begin
with store.opened(Path(sys.argv[1])):
    pass
print(int(sys.argv[2]) - left)
"""
"""A command that is killed while it brings a log up; its cache is so small that pages of the
change lie on the disk before the change is done."""


def brought_up(file: Path, point: int) -> subprocess.CompletedProcess[bytes]:
    """Bring a log up in a command that is killed at a point."""
    words = [sys.executable, "-c", IS_KILLED, str(file), str(point)]
    environment = {**os.environ, "PYTHONPATH": str(TESTS)}  # noqa: TID251
    return subprocess.run(words, env=environment, capture_output=True, check=False)  # noqa: S603


def test_a_kill_at_any_point_leaves_version_2_or_the_new_log(version_2: Path) -> None:
    whole = version_2.read_bytes()
    steps = int(brought_up(version_2, 10**6).stdout)
    with open_log(version_2) as log:
        new = log.export()
    hot, versions = 0, []
    for point in range(1, steps + 1, max(1, steps // 12)):
        version_2.write_bytes(whole)
        assert brought_up(version_2, point).returncode == -signal.SIGKILL
        hot += version_2.with_name(f"{version_2.name}-journal").exists()
        versions += old_rows(version_2, "PRAGMA user_version")
        if versions[-1] == (2,):
            assert old_rows(version_2, "SELECT count(*) FROM entry") == [(14,)]
            assert old_rows(version_2, "PRAGMA integrity_check") == [("ok",)]
        with open_log(version_2) as log:
            assert log.export() == new
            assert log.faults() == []

    assert versions.count((2,)) >= 6
    assert hot >= 2, "some points lie in the middle of the change"


OLD_RESULTS = st.lists(
    st.tuples(
        st.integers(1, 4),
        st.sampled_from(["secure", "not yet", "undo"]),
        st.dates(date(2026, 12, 1), date(2026, 12, 3)),
    ),
    max_size=12,
)


@given(OLD_RESULTS, st.lists(st.sampled_from(DRILLS[:2]), min_size=4, max_size=4))
@settings(max_examples=60, deadline=None)
def test_what_was_valid_is_valid_by_drill_and_day(
    results: list[tuple[int, str, date]], drills: list[Drill]
) -> None:
    with opened(Path("nowhere"), make=False, steps=MIGRATIONS[:2]) as store:
        printed = instant_text(EVENING)
        store.rows("INSERT INTO day VALUES ('Ines', '2026-12-01', ?, 'v', '4/4', 0, 'x')", printed)
        for number, drill in enumerate(drills, start=1):
            words = "INSERT INTO drill VALUES ('Ines', ?, '2026-12-01', ?, ?, 'review')"
            store.rows(words, number, printed, drill.key)
        for at, marked in enumerate(results):
            write_old(store, *marked, instant_text(EVENING + timedelta(hours=at)))
        old = store.rows("SELECT number, entered, result, date FROM valid")
        for statement in MIGRATIONS[2]:
            store.rows(statement)
        records = PracticeLog(store).records("Ines")

    expected: dict[tuple[Drill, date], tuple[str, Result]] = {}
    for own, entered, result, day in old:
        where = drills[int(str(own)) - 1], date.fromisoformat(str(day))
        found = str(entered), Result(str(result))
        expected[where] = max(expected.get(where, found), found)
    assert {
        (record.drill, played.date): played.result
        for record in records
        for played in record.results
    } == {where: result for where, (_, result) in expected.items()}


def write_old(store: Store, number: int, result: str, day: date, entered: str) -> None:
    """Enter a result as version 2 did, or take back the valid one."""
    undone = store.rows("SELECT entered FROM valid WHERE number = ?", number)
    if result != "undo":
        words = "INSERT INTO entry VALUES ('Ines', ?, ?, ?, ?, NULL)"
        store.rows(words, number, entered, result, day.isoformat())
    elif undone:
        words = "INSERT INTO entry VALUES ('Ines', ?, ?, NULL, NULL, ?)"
        store.rows(words, number, entered, undone[0][0])


def test_a_plan_of_version_1_stays_readable_as_it_was_written(version_2: Path) -> None:
    with open_log(version_2) as log:
        for row in log.export().days:
            assert json.loads(row.plan)["version"] == 1


def test_a_plan_goes_on_from_an_old_log_and_reads_back(version_2: Path) -> None:
    days = [date(2026, 12, day) for day in (1, 2, 3)]
    with open_log(version_2) as log:
        asked = replace(
            request_for(VIOLIN, minutes=10),
            player="Ines",
            records=log.records("Ines"),
            numbers=log.numbers("Ines"),
            first_number=log.next_number("Ines"),
        )
        plan = plan_days(asked, days)
        numbers = {entry.drill: entry.number for entry in plan.drills}
        assert log.reserve("Ines", numbers) == numbers
        assert min(numbers.values()) < 10 <= max(numbers.values())
        log.keep(plan, EVENING)

        for day in plan.days:
            text = log.day("Ines", day.date) or b""
            found = decode(text, "day", {"violin": VIOLIN}.get, log.named("Ines"))
            assert found.days == (day,)
        old = decode(
            log.day("Ines", date(2026, 11, 20)) or b"",
            "day",
            {"violin": VIOLIN}.get,
            log.named("Ines"),
        )
        assert {item.number for day in old.days for item in day.items} == {1, 4}
