"""The log's file: other files, damaged ones, newer ones, and two commands at once."""

import os
import signal
import sqlite3
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import closing
from datetime import timedelta
from pathlib import Path

import pytest
from kit.printed import DRILLS, EVENING, empty_log, kept, writes

from bookgen.errors import BookgenError
from bookgen.plan.record import Result
from bookgen.studio import store
from bookgen.studio.entries import Counts, instant_text
from bookgen.studio.log_copy import LogCopy
from bookgen.studio.practice_log import PracticeLog, open_log
from bookgen.studio.schema import APPLICATION, MIGRATIONS
from bookgen.studio.store import opened
from bookgen.words.speech import ENGLISH

TESTS = Path(__file__).parents[1]
LONGEST_WAIT_SECONDS = 60
"""When a process that should have ended hangs; a busy machine may need seconds."""
RESCUE = "move it away and put a copy of it in its place, or import an export."


@pytest.fixture
def file(tmp_path: Path) -> Path:
    """Where the log goes."""
    return tmp_path / "practice-log.sqlite"


@pytest.fixture
def log_file(file: Path) -> Path:
    """A log with two drills and a result."""
    with open_log(file) as log:
        kept(log, DRILLS[:2])
        log.enter("Ines", [1], Result.SECURE, None, EVENING)
    return file


def refused(file: Path) -> str:
    """The one line in which a file is refused by whoever opens it or reads all of it."""
    with pytest.raises(BookgenError) as stopped:
        read_all(file)
    (finding,) = stopped.value.findings
    return ENGLISH.line(finding)


def read_all(file: Path) -> None:
    """Read everything in a log."""
    with open_log(file) as log:
        log.records("Ines")
        log.export()


def tamper(file: Path, *orders: str) -> None:
    """Write into a file what bookgen never does."""
    with closing(sqlite3.connect(file, isolation_level=None)) as connection:
        for order in orders:
            connection.execute(order)


def test_opening_again_changes_nothing(log_file: Path) -> None:
    before = log_file.read_bytes()
    with open_log(log_file) as log:
        assert log.version() == len(MIGRATIONS) == 4
        assert log.faults() == []
    assert log_file.read_bytes() == before


def test_a_newer_log_is_refused_in_one_line(file: Path) -> None:
    with opened(file, steps=(*MIGRATIONS, ())) as newer:
        assert newer.number("PRAGMA user_version") == 5

    problem = "its schema version 5 is a newer bookgen's; this one knows 4"
    assert refused(file) == f"{file}: {problem}; install the newer bookgen."


def test_other_files_are_refused_and_stay_as_they_are(file: Path) -> None:
    file.write_text("This is a shopping list. " * 100, encoding="utf-8")
    assert "no sound practice log" in refused(file)
    assert file.read_text(encoding="utf-8").startswith("This is a shopping list.")

    file.unlink()
    tamper(file, "CREATE TABLE recipes (name TEXT)")
    assert "a database, but no practice log of bookgen" in refused(file)


def test_a_damaged_log_is_told(file: Path) -> None:
    with open_log(file) as log:
        kept(log, *([drill] for drill in DRILLS[:20]))
    content = bytearray(file.read_bytes())
    content[4096:-4096] = bytes(len(content) - 8192)
    file.write_bytes(content)

    told = refused(file)
    assert told.startswith(f"{file}: no sound practice log: ")
    assert told.endswith(RESCUE)


ENDLESS = (
    "WITH RECURSIVE more(x) AS (VALUES (1) UNION ALL SELECT x + 1 FROM more) SELECT x FROM more"
)
LOOSE = "UPDATE sqlite_schema SET sql = replace(sql, 'date GLOB', '1 OR date GLOB')"


@pytest.mark.parametrize(
    ("orders", "name"),
    [
        (["CREATE VIEW planted AS SELECT 1"], "planted"),
        ([f"CREATE VIEW planted AS {ENDLESS}"], "planted"),
        (["DROP VIEW valid", f"CREATE VIEW valid AS {ENDLESS}"], "valid"),
        (["DROP VIEW standing"], "standing"),
        (
            ["CREATE TRIGGER spy AFTER INSERT ON entry BEGIN UPDATE drill SET link = 'x'; END"],
            "spy",
        ),
        (["DROP TRIGGER entry_delete_refused"], "entry_delete_refused"),
        (["CREATE TABLE recipes (name TEXT)"], "recipes"),
        (["CREATE INDEX fast ON day (seed)"], "fast"),
        (["CREATE VIRTUAL TABLE words USING fts5(word)"], "words"),
        (["ALTER TABLE day ADD COLUMN weather TEXT"], "day"),
        (["PRAGMA writable_schema = ON", LOOSE], "day"),
        (["PRAGMA user_version = 2"], "valid"),
        (["PRAGMA user_version = 0"], "valid"),
        (["PRAGMA user_version = -1"], "valid"),
    ],
)
def test_a_schema_that_is_not_ours_is_told_as_a_damaged_file(
    log_file: Path, orders: list[str], name: str
) -> None:
    tamper(log_file, *orders)
    before = log_file.read_bytes()

    told = refused(log_file)
    assert told.startswith(f"{log_file}: no sound practice log: tables, triggers or views that")
    assert f"'{name}'" in told
    assert told.endswith(RESCUE)
    assert log_file.read_bytes() == before


def test_an_empty_file_that_says_it_is_a_log_is_told(file: Path) -> None:
    tamper(file, f"PRAGMA application_id = {APPLICATION}")

    assert "no sound practice log" in refused(file)


def test_what_sqlite_notes_for_itself_is_no_damage(log_file: Path) -> None:
    tamper(log_file, "ANALYZE")

    with open_log(log_file) as log:
        assert log.faults() == []
        assert log.records("Ines")


ODD_DAYS = [
    *("'2026-13-45', printed", "'2026-02-30', printed", "'0000-01-01', printed"),
    *("date, printed || 'x'", "date, substr(printed || date, 11)"),
]
ODD_ROWS = [
    "INTO item SELECT player, '2026-13-45', printed, 0, 1, 'new' FROM day",
    "INTO drill VALUES ('Ines', 9, 'key', '{\"to\": {}}')",
    "INTO drill VALUES ('Ines', 9, 'key', 'no JSON')",
    "INTO drill SELECT 'Ines', 9, 'key', replace(hex(zeroblob(100000)), '0', '[')",
    "INTO drill VALUES ('Ines', 9, CAST(x'ff' AS TEXT), NULL)",
    "INTO drill VALUES ('Ines', -9, 'key', NULL)",
    "INTO drill VALUES ('Ines', 9007199254740993, 'key', NULL)",
    "INTO drill VALUES (char(0), 9, 'key', NULL)",
    "INTO entry VALUES ('Ines', 1, '2026-12-41', 'secure', '2026-12-01', 'day', NULL)",
    "INTO entry SELECT player, 1, '2' || entered, 'perhaps', date, 'day', NULL FROM entry",
]


@pytest.mark.parametrize(
    "row",
    [
        *(f"INTO day SELECT player, {cells}, 'v', '4/4', 0, 'x' FROM day" for cells in ODD_DAYS),  # noqa: S608
        *ODD_ROWS,
    ],
)
def test_a_row_that_cannot_be_is_told_as_a_damaged_file(log_file: Path, row: str) -> None:
    tamper(log_file, "PRAGMA ignore_check_constraints = ON", f"INSERT {row}")

    line = refused(log_file)
    assert line.startswith(f"{log_file}: no sound practice log: what stands in it cannot be (")
    assert line.endswith(RESCUE)
    with open_log(log_file) as log:
        assert log.faults()


def test_a_row_that_belongs_to_nothing_is_a_fault(log_file: Path) -> None:
    tamper(log_file, "INSERT INTO item VALUES ('Jo', '2026-12-01', 'x', 0, 7, 'new')")

    with open_log(log_file) as log:
        faults = [ENGLISH.line(fault) for fault in log.faults()]
    assert "row 3 of its table item belongs to nothing" in faults


def test_a_question_without_end_is_ended(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(store, "LONGEST_SECONDS", 0.2)

    with empty_log() as log:
        with pytest.raises(store.DamagedError, match="log-endless"):
            log.store.rows(f"SELECT count(*) FROM ({ENDLESS})")  # noqa: S608
        assert log.store.number("SELECT 1") == 1, "the next question has its own time"


ASKS = """
import signal, sys
from pathlib import Path
from bookgen.studio.practice_log import open_log

signal.signal(signal.SIGTERM, signal.default_int_handler)
with open_log(Path(sys.argv[1])) as log:
    try:
        print("waiting", flush=True)
        with log.store.transaction():
            log.store.rows("INSERT INTO drill VALUES ('Jo', 1, 'key', NULL)")
            print("asking", flush=True)
            log.store.rows(sys.argv[2])
    except KeyboardInterrupt:
        print("ended", flush=True)
"""
"""A command that ends as the command line's do when it is told to."""


def test_a_question_ends_when_the_process_is_told_to(log_file: Path) -> None:
    command = start(ASKS, str(log_file), f"SELECT count(*) FROM ({ENDLESS})")  # noqa: S608
    assert [told_by(command), told_by(command)] == ["waiting", "asking"]
    time.sleep(0.2)
    command.terminate()

    assert command.communicate(timeout=LONGEST_WAIT_SECONDS)[0] == b"ended\n"
    assert command.returncode == 0
    with open_log(log_file) as log:
        assert log.drill_of("Ines", 1) == DRILLS[0].key
        assert log.drill_of("Jo", 1) is None, "what was not done is undone"


def test_waiting_for_another_command_ends_when_the_process_is_told_to(log_file: Path) -> None:
    with opened(log_file) as other, other.transaction():
        command = start(ASKS, str(log_file), "SELECT 1")
        assert told_by(command) == "waiting"
        time.sleep(0.2)
        command.terminate()
        assert command.communicate(timeout=LONGEST_WAIT_SECONDS)[0] == b"ended\n"


def told_by(command: subprocess.Popen[bytes]) -> str:
    """The next line that a command prints."""
    assert command.stdout is not None
    return command.stdout.readline().decode().strip()


def test_what_cannot_be_a_file_is_told(tmp_path: Path) -> None:
    assert "cannot be used (unable to open database file)" in refused(tmp_path)
    assert "cannot be used" in refused(tmp_path / "nowhere" / "log.sqlite")


def test_without_a_file_reading_makes_none(file: Path) -> None:
    with open_log(file, make=False) as log:
        assert log.records("Ines") == ()
        assert log.counts() == Counts(0, 0, 0, 0)
    assert not file.exists()


def test_a_lock_becomes_a_finding(log_file: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(store, "PATIENCE_SECONDS", 0.01)

    with (
        opened(log_file) as other,
        other.transaction(),
        pytest.raises(BookgenError) as stopped,
        open_log(log_file) as log,
    ):
        kept(log, DRILLS[:1])
    told = [ENGLISH.line(finding) for finding in stopped.value.findings]
    wait = "wait for that one, then try again."
    assert told == [f"{log_file}: another command holds it; {wait}"]


def test_instants_rise_also_where_the_clock_was_set_back(log_file: Path) -> None:
    with open_log(log_file) as log:
        rising = log.store.rising
        assert rising("entry", "entered", EVENING) > EVENING
        assert rising("entry", "entered", EVENING - timedelta(days=300)) > EVENING
        late = EVENING + timedelta(days=1)
        assert rising("entry", "entered", late) == late
        assert len(instant_text(rising("day", "printed", EVENING))) == 32


PRINTS_MANY = """
import sys
from pathlib import Path
from kit.printed import DRILLS, EVENING, kept
from bookgen.plan.record import Result
from bookgen.studio.practice_log import open_log

seed = int(sys.argv[2])
for start in range(40):
    with open_log(Path(sys.argv[1])) as log:
        own = (DRILLS[::2] + DRILLS[1::2])[:: 1 if seed == 1 else -1]
        kept(log, own[start % 38 : start % 38 + 3], seed=seed)
        number = log.numbers("Ines")[own[start % 38]]
        log.enter("Ines", [number], Result.SECURE, None, EVENING)
"""


def test_two_commands_at_once_never_give_one_number_to_two_drills(file: Path) -> None:
    commands = [start(PRINTS_MANY, str(file), seed) for seed in ("1", "2")]
    assert [ended(command) for command in commands] == [0, 0]

    with open_log(file) as log:
        numbers = log.numbers("Ines")
        assert sorted(numbers.values()) == list(range(1, len(DRILLS) + 1))
        assert set(numbers) == set(DRILLS)
        days = log.export().days
        assert len({day.printed for day in days}) == 80
        assert sorted(day.seed for day in days) == [1] * 40 + [2] * 40
        assert log.faults() == []


def start(script: str, *words: str) -> subprocess.Popen[bytes]:
    """Run a script as a command of its own."""
    environment = {**os.environ, "PYTHONPATH": str(TESTS)}  # noqa: TID251
    return subprocess.Popen(  # noqa: S603
        [sys.executable, "-c", script, *words],
        env=environment,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
    )


def ended(command: subprocess.Popen[bytes]) -> int:
    """Wait for a command and return its exit code."""
    command.communicate()
    return command.returncode


STRIDE = 50
IS_KILLED = """
import os, signal, sys
from pathlib import Path
from kit.printed import writes
from bookgen.studio.practice_log import open_log

left = int(sys.argv[2])

def strike():
    global left
    left -= 1
    if left == 0:
        os.kill(os.getpid(), signal.SIGKILL)

with open_log(Path(sys.argv[1])) as log:
    log.store.rows("PRAGMA cache_size = 2")
    log.store.connection.set_progress_handler(strike, int(sys.argv[3]))
    for write in writes(log):
        write()
"""
"""A command that is killed after some steps of SQLite's machine; its cache is so small that
pages of a change lie on the disk before the change is done."""


@pytest.fixture
def states(tmp_path: Path) -> list[LogCopy]:
    """What the log holds before the first and after each of its changes."""
    with open_log(tmp_path / "unharmed.sqlite") as log:
        kept(log, DRILLS[:4])
        return [log.export(), *after_each(log)]


def after_each(log: PracticeLog) -> Iterator[LogCopy]:
    """The log after each change."""
    for write in writes(log):
        write()
        yield log.export()


def steps_of_all(file: Path) -> int:
    """How often SQLite's machine can be struck while all changes are made."""
    struck, counted = [], file.with_name("counted.sqlite")
    counted.write_bytes(file.read_bytes())
    with open_log(counted) as log:
        log.store.rows("PRAGMA cache_size = 2")
        log.store.connection.set_progress_handler(lambda: struck.append(1), STRIDE)
        for write in writes(log):
            write()
    return len(struck)


def test_a_kill_at_any_point_leaves_the_old_log_or_the_new(
    file: Path, states: list[LogCopy]
) -> None:
    with open_log(file) as log:
        kept(log, DRILLS[:4])
    whole = file.read_bytes()
    survived, hot = [], 0
    steps = steps_of_all(file)
    for point in range(1, steps, steps // 12):
        file.write_bytes(whole)
        code = ended(start(IS_KILLED, str(file), str(point), str(STRIDE)))
        hot += file.with_name(f"{file.name}-journal").exists()
        with open_log(file) as log:
            assert log.faults() == []
            assert log.export() in states
            survived.append((code, states.index(log.export())))

    assert {code for code, _ in survived} == {-signal.SIGKILL}
    assert len({state for _, state in survived}) >= 3, "the points lie in different changes"
    assert hot >= 3, "some points lie in the middle of a change"
