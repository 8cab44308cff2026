"""Rows read as values, and written from them."""

from datetime import date, timedelta

from printed import EVENING, KEYS, empty_log, kept, sheet

from bookgen.plan.record import Result
from bookgen.studio.entries import Entered, PrintedDrill
from bookgen.studio.ledger import entries_made, printed_drills, valid_results

DAY = date(2026, 12, 1)


def test_what_was_printed_is_read_back() -> None:
    with empty_log() as log:
        kept(log, sheet(2, 7), EVENING)

        assert printed_drills(log.connection, "Ines") == (
            PrintedDrill("Ines", 7, DAY, EVENING, f"violin-{KEYS[0]}", "opening"),
            PrintedDrill("Ines", 8, DAY, EVENING, f"violin-{KEYS[1]}", "new"),
        )
        assert printed_drills(log.connection, "Jo") == ()


def test_results_and_what_became_of_them_are_read_back() -> None:
    later, last = EVENING + timedelta(hours=1), EVENING + timedelta(hours=2)
    with empty_log() as log:
        kept(log, sheet(2))
        log.enter("Ines", [1, 2], Result.NOT_YET, None, EVENING)
        log.enter("Ines", [1], Result.SECURE, None, later)
        log.undo("Ines", [1], last)

        assert valid_results(log.connection, "Ines") == {
            1: (Result.NOT_YET, DAY),
            2: (Result.NOT_YET, DAY),
        }
        assert entries_made(log.connection, "Ines") == (
            Entered("Ines", 1, EVENING, Result.NOT_YET, DAY, None, taken_back=False),
            Entered("Ines", 2, EVENING, Result.NOT_YET, DAY, None, taken_back=False),
            Entered("Ines", 1, later, Result.SECURE, DAY, None, taken_back=True),
            Entered("Ines", 1, last, None, None, later, taken_back=False),
        )
        assert entries_made(log.connection, None) == entries_made(log.connection, "Ines")
        assert entries_made(log.connection, "Jo") == ()
