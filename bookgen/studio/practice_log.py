"""The practice log: what was printed for whom, and what became of it."""

import sqlite3
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace
from datetime import date as Date  # noqa: N812
from datetime import datetime
from pathlib import Path
from typing import Final

from bookgen.errors import BookgenError, Finding
from bookgen.model.instrument import Instrument
from bookgen.plan.document import Kind, Plan
from bookgen.plan.encoder import encode
from bookgen.plan.record import Record, Result
from bookgen.studio.entries import Entered, Marking, NumbersTakenError, PrintedDrill, instant_text
from bookgen.studio.ledger import (
    entries_made,
    printed_drills,
    valid_results,
    write_days,
    write_results,
    write_undo,
)
from bookgen.studio.log_copy import LogCopy
from bookgen.studio.marking import Roster, resolved
from bookgen.studio.merge import copy_of, merged
from bookgen.studio.store import number, opened, transaction

LOG_NAME: Final = "practice-log.sqlite"
"""The log's file beside studio.toml."""


@contextmanager
def open_log(path: Path, *, make: bool = True) -> Iterator["PracticeLog"]:
    """Open the practice log; where there is none, make it.

    make: False leaves the disk as it is: where there is no file, the log is an empty one.

    Raises:
        BookgenError: the file is no practice log, is damaged, was made by a newer bookgen,
            cannot be written, or another command holds it for too long.
    """
    with opened(path, make=make) as connection:
        yield PracticeLog(connection)


@dataclass(frozen=True, slots=True)
class Counts:
    """How much a log holds: printed days, printed drills, entries."""

    days: int
    drills: int
    entries: int


class PracticeLog:
    """An open practice log. Every method that writes does all it was asked to, or nothing."""

    def __init__(self, connection: sqlite3.Connection) -> None:
        """Use the connection of an opened store."""
        self.connection = connection

    def next_number(self, player: str) -> int:
        """The number above all that were ever printed for a player."""
        question = "SELECT coalesce(max(number), 0) + 1 FROM drill WHERE player = ?"
        (found,) = self.connection.execute(question, (player,)).fetchone()
        return int(found)

    def keep(self, plan: Plan, instrument: Instrument, printed: datetime) -> None:
        """Keep every day of a plan as it is printed, and the numbers of its drills.

        printed: with its time zone.

        Raises:
            NumbersTakenError: a number of the plan is not above all that the player has.
            ValueError: the plan is nobody's.
        """
        if plan.player is None:
            msg = "a plan without a player cannot be kept"
            raise ValueError(msg)
        days = [
            (replace(plan, days=(day,)), encode(replace(plan, days=(day,)), instrument))
            for day in plan.days
        ]
        with transaction(self.connection):
            first_free = self.next_number(plan.player)
            if any(drill.number < first_free for day in plan.days for drill in day.drills):
                raise NumbersTakenError(plan.player, first_free)
            write_days(self.connection, plan.player, days, instant_text(printed))

    def day(self, player: str, date: Date) -> str | None:
        """The plan document of a player's day as it was printed last, or None."""
        row = self.connection.execute(
            "SELECT plan FROM day WHERE player = ? AND date = ? ORDER BY printed DESC LIMIT 1",
            (player, date.isoformat()),
        ).fetchone()
        return None if row is None else str(row[0])

    def day_of(self, player: str, number: int) -> str | None:
        """The plan document of the printed day on which a number stands, or None."""
        row = self.connection.execute(
            "SELECT plan FROM drill JOIN day USING (player, date, printed)"
            " WHERE player = ? AND number = ?",
            (player, number),
        ).fetchone()
        return None if row is None else str(row[0])

    def printed(self, player: str) -> tuple[PrintedDrill, ...]:
        """Every drill that was printed for a player, in the order of the numbers."""
        return printed_drills(self.connection, player)

    def results(self, player: str) -> dict[int, tuple[Result, Date]]:
        """The valid result of every number of a player that has one, and its day."""
        return valid_results(self.connection, player)

    def records(self, player: str) -> tuple[Record, ...]:
        """Every printed drill with its valid result, in the order of the numbers.

        A drill that this bookgen does not know is left out; `printed` has it.
        """
        results = self.results(player)
        known = ((entry, entry.drill) for entry in self.printed(player))
        return tuple(
            Record(
                entry.number,
                entry.date,
                drill,
                Kind(entry.kind),
                *results.get(entry.number, (None, None)),
            )
            for entry, drill in known
            if drill is not None
        )

    def players(self) -> tuple[str, ...]:
        """Everyone for whom something was printed, by name."""
        rows = self.connection.execute("SELECT DISTINCT player FROM day ORDER BY player")
        return tuple(str(player) for (player,) in rows)

    def enter(
        self,
        player: str,
        numbers: Sequence[int],
        result: Result,
        date: Date | None,
        entered: datetime,
    ) -> tuple[Marking, ...]:
        """Enter one result for several numbers of a player; see `enter_all`.

        Raises:
            BookgenError: a number was never printed, or the day cannot be.
        """
        markings = [Marking(player, number, result, date) for number in numbers]
        return self.enter_all(markings, entered)

    def enter_all(self, markings: Sequence[Marking], entered: datetime) -> tuple[Marking, ...]:
        """Enter results, all or none; what already stands so is not entered again.

        entered: now, in the time zone of the studio: results of days to come are refused.
        Returns the markings that were new, each with its day.

        Raises:
            BookgenError: a number was never printed, stands twice, or the day lies before the
                page or after today; everything that is wrong is told.
        """
        with transaction(self.connection):
            good = self.checked(markings, entered)
            valid = {name: self.results(name) for name in {marking.player for marking in good}}
            new = tuple(
                marking
                for marking in good
                if valid[marking.player].get(marking.number) != (marking.result, marking.date)
            )
            write_results(self.connection, new, instant_text(entered))
        return new

    def checked(self, markings: Sequence[Marking], entered: datetime) -> tuple[Marking, ...]:
        """Results with their days, as `enter_all` would enter them.

        Raises:
            BookgenError: as `enter_all` does.
        """
        players = {marking.player for marking in markings}
        printed = {name: {drill.number: drill for drill in self.printed(name)} for name in players}
        return resolved(markings, Roster(printed), entered)

    def undo(
        self, player: str | None, numbers: Sequence[int] | None, entered: datetime
    ) -> tuple[Entered, ...]:
        """Take results back; they stay in the history, and what was valid before is so again.

        player: None takes back the last call's results for everyone; only without numbers.
        numbers: those whose last result is taken back; None takes back the last call's.
        Returns the results that were taken back.

        Raises:
            BookgenError: there is nothing to take back, or a number has no result.
        """
        with transaction(self.connection):
            standing = [
                entry
                for entry in self.history(player)
                if entry.result is not None and not entry.taken_back
            ]
            if numbers is None:
                last = max((entry.entered for entry in standing), default=None)
                chosen = [entry for entry in standing if entry.entered == last]
            else:
                latest = {entry.number: entry for entry in standing}
                chosen = [latest[number] for number in sorted(set(numbers)) if number in latest]
                refuse_without_result(player, sorted(set(numbers) - latest.keys()))
            if not chosen:
                raise BookgenError(Finding("--undo", "there is no result", "enter one first"))
            write_undo(self.connection, chosen, instant_text(entered))
        return tuple(replace(entry, taken_back=True) for entry in chosen)

    def history(self, player: str | None) -> tuple[Entered, ...]:
        """Every entry for a player, or for everyone, in the order in which they were made."""
        return entries_made(self.connection, player)

    def export(self) -> LogCopy:
        """Everything that the log holds, as values that can be written to a file."""
        return copy_of(self.connection)

    def restore(self, copied: LogCopy, file: str) -> Counts:
        """Take in everything of a copy that the log does not hold yet. Returns what was new.

        file: the name under which the user knows it.

        Raises:
            BookgenError: the copy is at odds with the log or with itself.
        """
        with transaction(self.connection):
            return Counts(*merged(self.connection, copied, file))

    def counts(self) -> Counts:
        """How much the log holds."""
        tables = ("day", "drill", "entry")
        return Counts(
            *(number(self.connection, f"SELECT count(*) FROM {table}") for table in tables)  # noqa: S608
        )

    def version(self) -> int:
        """The version of the file's schema."""
        return number(self.connection, "PRAGMA user_version")

    def faults(self) -> list[str]:
        """What SQLite finds wrong with the file; nothing in a sound one."""
        rows = self.connection.execute("PRAGMA integrity_check").fetchall()
        told = [str(line) for (line,) in rows if line != "ok"]
        lost = self.connection.execute("PRAGMA foreign_key_check").fetchall()
        return [*told, *(f"a {table} without what it belongs to" for table, *_ in lost)]


def refuse_without_result(player: str | None, numbers: Sequence[int]) -> None:
    """Refuse to take back what was never entered.

    Raises:
        BookgenError: there are such numbers.
    """
    mend = "leave them out; `bookgen log --show` lists what was entered"
    findings = [Finding(f"{player}, No. {each}", "it has no result", mend) for each in numbers]
    if findings:
        raise BookgenError(*findings)
