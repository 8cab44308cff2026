"""The log's file: other files, older and newer ones, and two commands at once."""

import os
import signal
import sqlite3
import subprocess
import sys
from collections.abc import Iterator
from contextlib import closing
from datetime import timedelta
from pathlib import Path

import pytest
from printed import EVENING, days, kept, sheet, writes

from bookgen.errors import BookgenError
from bookgen.plan.record import Result
from bookgen.studio import store
from bookgen.studio.entries import instant_text
from bookgen.studio.log_copy import LogCopy
from bookgen.studio.practice_log import Counts, PracticeLog, open_log
from bookgen.studio.schema import MIGRATIONS
from bookgen.studio.store import opened, rising

TESTS = Path(__file__).parents[1]
VERSION_1 = TESTS / "specimens" / "logs" / "version-1.sql"


@pytest.fixture
def file(tmp_path: Path) -> Path:
    """Where the log goes."""
    return tmp_path / "practice-log.sqlite"


@pytest.fixture
def old_file(file: Path) -> Path:
    """A log that version 1 of the schema wrote."""
    with closing(sqlite3.connect(file)) as connection:
        connection.executescript(VERSION_1.read_text(encoding="utf-8"))
    return file


def refused(file: Path) -> str:
    with pytest.raises(BookgenError) as stopped, open_log(file):
        pass
    return str(stopped.value)


def test_an_old_log_is_brought_up_and_nothing_in_it_is_lost(old_file: Path) -> None:
    with open_log(old_file) as log:
        assert log.version() == len(MIGRATIONS) == 2
        assert log.counts() == Counts(days=1, drills=2, entries=2)
        assert [record.result for record in log.records("Ines")] == [Result.NOT_YET, None]
        assert log.day("Ines", EVENING.date()) == '{"a": "plan"}'
        assert log.undo("Ines", [1], EVENING)[0].result == Result.NOT_YET
        assert log.records("Ines")[0].result == Result.SECURE
        with pytest.raises(sqlite3.IntegrityError, match="forgets nothing"):
            log.connection.execute("DELETE FROM entry")


def test_a_step_that_fails_leaves_the_old_log_as_it_was(old_file: Path) -> None:
    before = old_file.read_bytes()
    broken = (*MIGRATIONS, ("CREATE TABLE more (x) STRICT",))

    with pytest.raises(BookgenError, match="cannot be used"), opened(old_file, steps=broken):
        pass
    assert old_file.read_bytes() == before


def test_opening_again_changes_nothing(file: Path) -> None:
    with open_log(file) as log:
        kept(log, sheet(1))
    before = file.read_bytes()

    with open_log(file) as log:
        assert log.version() == 2
    assert file.read_bytes() == before


def test_a_newer_log_is_refused_in_one_line(file: Path) -> None:
    with opened(file, steps=(*MIGRATIONS, ())) as connection:
        assert store.number(connection, "PRAGMA user_version") == 3

    problem = "its schema version 3 is a newer bookgen's; this one knows 2"
    assert refused(file) == f"{file}: {problem}; install the newer bookgen."


def test_other_files_are_refused_and_stay_as_they_are(file: Path) -> None:
    file.write_text("This is a shopping list. " * 100, encoding="utf-8")
    assert "no sound practice log" in refused(file)
    assert file.read_text(encoding="utf-8").startswith("This is a shopping list.")

    file.unlink()
    with closing(sqlite3.connect(file)) as connection:
        connection.execute("CREATE TABLE recipes (name TEXT)")
    assert "a database, but no practice log of bookgen" in refused(file)


def test_a_damaged_log_is_told(file: Path) -> None:
    with open_log(file) as log:
        kept(log, days(5, 4))
    content = bytearray(file.read_bytes())
    content[4096:-4096] = bytes(len(content) - 8192)
    file.write_bytes(content)

    with pytest.raises(BookgenError, match="no sound practice log"), open_log(file) as log:
        log.records("Ines")


def test_what_cannot_be_a_file_is_told(tmp_path: Path) -> None:
    assert "cannot be used (unable to open database file)" in refused(tmp_path)
    assert "cannot be used" in refused(tmp_path / "nowhere" / "log.sqlite")


def test_without_a_file_reading_makes_none(file: Path) -> None:
    with open_log(file, make=False) as log:
        assert log.next_number("Ines") == 1
        assert log.counts() == Counts(0, 0, 0)
    assert not file.exists()


def test_a_log_that_is_held_too_long_is_told(file: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with open_log(file):
        pass
    monkeypatch.setattr(store, "PATIENCE_SECONDS", 0.01)

    with open_log(file) as log, opened(file) as other, store.transaction(other):
        with pytest.raises(sqlite3.OperationalError, match="locked"):
            kept(log, sheet(1))
        error = sqlite3.OperationalError("database is locked")
        error.sqlite_errorname = "SQLITE_BUSY"
        assert store.trouble(file, error).problem == "another command holds it"


def test_a_lock_becomes_a_finding(file: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with open_log(file):
        pass
    monkeypatch.setattr(store, "PATIENCE_SECONDS", 0.01)

    waits = pytest.raises(BookgenError, match="another command holds it")
    with opened(file) as other, store.transaction(other), waits, open_log(file) as log:
        kept(log, sheet(1))


def test_instants_rise_also_where_the_clock_was_set_back(file: Path) -> None:
    with open_log(file) as log:
        kept(log, sheet(1))
        log.enter("Ines", [1], Result.SECURE, None, EVENING)
        now = instant_text(EVENING)

        assert rising(log.connection, "entry", "entered", now) > now
        early = instant_text(EVENING - timedelta(days=300))
        assert rising(log.connection, "entry", "entered", early) > now
        late = instant_text(EVENING + timedelta(days=1))
        assert rising(log.connection, "entry", "entered", late) == late


PRINTS_MANY = """
import sys
from pathlib import Path
from printed import EVENING, kept, sheet
from bookgen.plan.record import Result
from bookgen.studio.entries import NumbersTakenError
from bookgen.studio.practice_log import open_log

done = 0
while done < 40:
    with open_log(Path(sys.argv[1])) as log:
        first = log.next_number("Ines")
        try:
            kept(log, sheet(3, first, seed=int(sys.argv[2])))
        except NumbersTakenError:
            continue
        log.enter("Ines", [first], Result.SECURE, None, EVENING)
    done += 1
"""


def test_two_commands_at_once_wait_for_each_other(file: Path) -> None:
    commands = [start(PRINTS_MANY, str(file), seed) for seed in ("1", "2")]
    assert [command.wait() for command in commands] == [0, 0]

    with open_log(file) as log:
        printed = log.printed("Ines")
        assert [drill.number for drill in printed] == list(range(1, 241))
        assert len({drill.printed for drill in printed}) == 80
        assert len(log.history("Ines")) == 80
        assert sorted(day.seed for day in log.export().days) == [1] * 40 + [2] * 40
        assert log.faults() == []


def start(script: str, *words: str) -> subprocess.Popen[bytes]:
    """Run a script as a command of its own."""
    environment = {**os.environ, "PYTHONPATH": str(TESTS)}  # noqa: TID251
    return subprocess.Popen([sys.executable, "-c", script, *words], env=environment)  # noqa: S603


STRIDE = 50
IS_KILLED = """
import os, signal, sys
from pathlib import Path
from printed import writes
from bookgen.studio.practice_log import open_log

left = int(sys.argv[2])

def strike():
    global left
    left -= 1
    if left == 0:
        os.kill(os.getpid(), signal.SIGKILL)

with open_log(Path(sys.argv[1])) as log:
    log.connection.execute("PRAGMA cache_size = 2")
    log.connection.set_progress_handler(strike, int(sys.argv[3]))
    for write in writes(log):
        write()
"""
"""A command that is killed after some steps of SQLite's machine; its cache is so small that
pages of a change lie on the disk before the change is done."""


@pytest.fixture
def states(tmp_path: Path) -> list[LogCopy]:
    """What the log holds before the first and after each of its changes."""
    with open_log(tmp_path / "unharmed.sqlite") as log:
        kept(log, sheet(4))
        return [log.export(), *after_each(log)]


def after_each(log: PracticeLog) -> Iterator[LogCopy]:
    """The log after each change."""
    for write in writes(log):
        write()
        yield log.export()


def steps_of_all(file: Path) -> int:
    """How often SQLite's machine can be struck while all changes are made."""
    struck = []
    with open_log(file.with_name("counted.sqlite")) as log:
        kept(log, sheet(4))
        log.connection.set_progress_handler(lambda: struck.append(1), STRIDE)
        for write in writes(log):
            write()
    return len(struck)


def test_a_kill_at_any_point_leaves_the_old_log_or_the_new(
    file: Path, states: list[LogCopy]
) -> None:
    with open_log(file) as log:
        kept(log, sheet(4))
    whole = file.read_bytes()
    survived, hot = [], 0
    steps = steps_of_all(file)
    for point in range(1, steps, steps // 12):
        file.write_bytes(whole)
        code = start(IS_KILLED, str(file), str(point), str(STRIDE)).wait()
        hot += file.with_name(f"{file.name}-journal").exists()
        with open_log(file) as log:
            assert log.faults() == []
            assert log.export() in states
            survived.append((code, states.index(log.export())))

    assert {code for code, _ in survived} == {-signal.SIGKILL}
    assert len({state for _, state in survived}) >= 3, "the points lie in different changes"
    assert hot >= 3, "some points lie in the middle of a change"
