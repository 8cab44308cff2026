"""What the tables refuse, whoever writes."""

import sqlite3
from collections.abc import Iterator

import pytest
from printed import EVENING, empty_log, kept, sheet

from bookgen.plan.record import Result
from bookgen.studio.entries import instant_text

INSTANT = instant_text(EVENING)


@pytest.fixture
def connection() -> Iterator[sqlite3.Connection]:
    """A log with two drills, the first of which has a result."""
    with empty_log() as log:
        kept(log, sheet(2))
        log.enter("Ines", [1], Result.SECURE, None, EVENING)
        yield log.connection


@pytest.mark.parametrize("table", ["day", "drill", "entry"])
@pytest.mark.parametrize("words", ["DELETE FROM {}", "UPDATE {} SET player = 'Jo'"])
def test_nothing_is_ever_changed_or_forgotten(
    connection: sqlite3.Connection, table: str, words: str
) -> None:
    with pytest.raises(sqlite3.IntegrityError, match="forgets nothing"):
        connection.execute(words.format(table))


ENTRY = "INSERT INTO entry (player, number, entered, result, date, undoes) VALUES "


@pytest.mark.parametrize(
    "values",
    [
        "('Ines', 2, '2026-12-02T00:00:00.000000+00:00', 'perhaps', '2026-12-01', NULL)",
        "('Ines', 2, '2026-12-02T00:00:00.000000+00:00', 'secure', 'today', NULL)",
        "('Ines', 2, '2026-12-02T00:00:00.000000+00:00', 'secure', NULL, NULL)",
        "('Ines', 2, '2026-12-02T00:00:00.000000+00:00', NULL, NULL, NULL)",
        "('Ines', 2, 'noon', 'secure', '2026-12-01', NULL)",
        "('Ines', 9, '2026-12-02T00:00:00.000000+00:00', 'secure', '2026-12-01', NULL)",
        "('Jo', 1, '2026-12-02T00:00:00.000000+00:00', 'secure', '2026-12-01', NULL)",
        f"('Ines', 1, '{INSTANT}', 'secure', '2026-12-01', NULL)",
        f"('Ines', 2, '2026-12-02T00:00:00.000000+00:00', NULL, NULL, '{INSTANT}')",
        f"('Ines', 1, '2026-12-02T00:00:00.000000+00:00', 'secure', '2026-12-01', '{INSTANT}')",
        f"('Ines', 1, '2026-11-02T00:00:00.000000+00:00', NULL, NULL, '{INSTANT}')",
    ],
)
def test_an_entry_is_a_result_or_takes_one_back(
    connection: sqlite3.Connection, values: str
) -> None:
    with pytest.raises(sqlite3.IntegrityError):
        connection.execute(ENTRY + values)


def test_what_takes_back_is_not_taken_back_itself(connection: sqlite3.Connection) -> None:
    undo = "2026-12-02T00:00:00.000000+00:00"
    connection.execute(f"{ENTRY}('Ines', 1, '{undo}', NULL, NULL, '{INSTANT}')")

    with pytest.raises(sqlite3.IntegrityError, match="only a result can be taken back"):
        connection.execute(
            f"{ENTRY}('Ines', 1, '2026-12-03T00:00:00.000000+00:00', NULL, NULL, '{undo}')"
        )


def test_a_drill_stands_on_a_printed_day(connection: sqlite3.Connection) -> None:
    with pytest.raises(sqlite3.IntegrityError, match="FOREIGN KEY"):
        connection.execute(
            "INSERT INTO drill (player, number, date, printed, key, kind)"
            " VALUES ('Ines', 3, '2026-12-24', ?, 'key', 'new')",
            (INSTANT,),
        )
