"""What the tables refuse, whoever writes."""

import sqlite3
from collections.abc import Iterator

import pytest
from kit.printed import DRILLS, EVENING, empty_log, kept

from bookgen.plan.record import Result
from bookgen.studio.entries import instant_text

INSTANT = instant_text(EVENING)


@pytest.fixture
def connection() -> Iterator[sqlite3.Connection]:
    """A log with two drills, the first of which has a result."""
    with empty_log() as log:
        kept(log, DRILLS[:2])
        log.enter("Ines", [1], Result.SECURE, None, EVENING)
        yield log.store.connection


@pytest.mark.parametrize("table", ["day", "drill", "item", "entry"])
@pytest.mark.parametrize("words", ["DELETE FROM {}", "UPDATE {} SET player = 'Jo'"])
def test_nothing_is_ever_changed_or_forgotten(
    connection: sqlite3.Connection, table: str, words: str
) -> None:
    with pytest.raises(sqlite3.IntegrityError, match="forgets nothing"):
        connection.execute(words.format(table))


def test_a_link_is_written_once(connection: sqlite3.Connection) -> None:
    connection.execute("INSERT INTO drill VALUES ('Ines', 3, 'key', NULL)")
    with pytest.raises(sqlite3.IntegrityError, match="forgets nothing"):
        connection.execute("UPDATE drill SET link = '{}', key = 'other' WHERE number = 3")
    connection.execute("UPDATE drill SET link = '{}' WHERE number = 3")
    with pytest.raises(sqlite3.IntegrityError, match="forgets nothing"):
        connection.execute("UPDATE drill SET link = '[]' WHERE number = 3")


ENTRY = "INSERT INTO entry (player, number, entered, result, date, replaces, undoes) VALUES "
NIGHT = "2026-12-02T00:00:00.000000+00:00"


@pytest.mark.parametrize(
    "values",
    [
        f"('Ines', 2, '{NIGHT}', 'perhaps', '2026-12-01', 'day', NULL)",
        f"('Ines', 2, '{NIGHT}', 'secure', 'today', 'day', NULL)",
        f"('Ines', 2, '{NIGHT}', 'secure', 'now', 'day', NULL)",
        f"('Ines', 2, '{NIGHT}', 'secure', '2026-13-45', 'day', NULL)",
        f"('Ines', 2, '{NIGHT}', 'secure', '2026-02-30', 'day', NULL)",
        f"('Ines', 2, '{NIGHT}', 'secure', '2026-12-01', NULL, NULL)",
        f"('Ines', 2, '{NIGHT}', 'secure', '2026-12-01', 'week', NULL)",
        f"('Ines', 2, '{NIGHT}', 'secure', NULL, 'day', NULL)",
        f"('Ines', 2, '{NIGHT}', NULL, NULL, NULL, NULL)",
        "('Ines', 2, 'noon', 'secure', '2026-12-01', 'day', NULL)",
        f"('Ines', 9, '{NIGHT}', 'secure', '2026-12-01', 'day', NULL)",
        f"('Jo', 1, '{NIGHT}', 'secure', '2026-12-01', 'day', NULL)",
        f"('Ines', 1, '{INSTANT}', 'secure', '2026-12-01', 'day', NULL)",
        f"('Ines', 2, '{NIGHT}', NULL, NULL, NULL, '{INSTANT}')",
        f"('Ines', 1, '{NIGHT}', 'secure', '2026-12-01', 'day', '{INSTANT}')",
        f"('Ines', 1, '2026-11-02T00:00:00.000000+00:00', NULL, NULL, NULL, '{INSTANT}')",
    ],
)
def test_an_entry_is_a_result_or_takes_one_back(
    connection: sqlite3.Connection, values: str
) -> None:
    with pytest.raises(sqlite3.IntegrityError):
        connection.execute(ENTRY + values)


def test_what_takes_back_is_not_taken_back_itself(connection: sqlite3.Connection) -> None:
    connection.execute(f"{ENTRY}('Ines', 1, '{NIGHT}', NULL, NULL, NULL, '{INSTANT}')")

    with pytest.raises(sqlite3.IntegrityError, match="only a result can be taken back"):
        connection.execute(
            f"{ENTRY}('Ines', 1, '{NIGHT.replace('-02T', '-03T')}', NULL, NULL, NULL, '{NIGHT}')"
        )


@pytest.mark.parametrize(("date", "number"), [("2026-12-24", 1), ("2026-12-01", 9)])
def test_an_item_is_a_known_drill_on_a_printed_day(
    connection: sqlite3.Connection, date: str, number: int
) -> None:
    (printed,) = connection.execute("SELECT printed FROM day").fetchone()
    with pytest.raises(sqlite3.IntegrityError, match="FOREIGN KEY"):
        connection.execute(
            "INSERT INTO item VALUES ('Ines', ?, ?, 5, ?, 'new')",
            (date, printed, number),
        )
