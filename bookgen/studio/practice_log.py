"""The practice log: which drill has which number, what was printed, and what became of it."""

from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace
from datetime import date as Date  # noqa: N812
from datetime import datetime
from pathlib import Path
from typing import Final

import msgspec

from bookgen.errors import Message, RefusedError, Said
from bookgen.model.drill import Drill
from bookgen.plan.document import Day, Plan
from bookgen.plan.record import Record, Result
from bookgen.studio.day_document import day_document
from bookgen.studio.entries import Counts, Entered, KeptDrill, Marking
from bookgen.studio.ledger import entries_made, kept_drills, printed_days, result_row, undo_row
from bookgen.studio.log_copy import LogCopy
from bookgen.studio.marking import Roster, resolved
from bookgen.studio.merge import copy_of, merged
from bookgen.studio.renaming import under_present_names
from bookgen.studio.rows import DAY, DRILL, ENTRY, ITEM, DayRow, DrillRow, ItemRow
from bookgen.studio.store import DamagedError, Store, opened
from bookgen.studio.undoing import last_call, last_results, standing_results

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
    with opened(path, make=make) as store:
        yield PracticeLog(store)


class PracticeLog:
    """An open practice log. Every method that writes does all it was asked to, or nothing."""

    def __init__(self, store: Store) -> None:
        """Use an opened store."""
        self.store = store

    def drills(self, player: str) -> tuple[KeptDrill, ...]:
        """Every drill that has a number for a player, in the order of the numbers."""
        return kept_drills(self.store, player)

    def records(self, player: str) -> tuple[Record, ...]:
        """Every printed drill with its valid results, in the order of the numbers.

        What this bookgen does not know, a drill or a role, is left out; `drills` has it.
        """
        known = ((kept, kept.drill, printed_days(kept)) for kept in self.drills(player))
        return tuple(
            Record(kept.number, drill, printed, kept.results, kept.link)
            for kept, drill, printed in known
            if drill is not None and printed
        )

    def numbers(self, player: str) -> dict[Drill, int]:
        """The own number of every drill that has one."""
        known = ((kept.drill, kept.number) for kept in self.drills(player))
        return {drill: number for drill, number in known if drill is not None}

    def named(self, player: str) -> dict[int, Drill]:
        """The drill of every number, also of those under which older bookgens printed it."""
        known = ((kept.drill, kept.numbers) for kept in self.drills(player))
        return {number: drill for drill, numbers in known if drill for number in numbers}

    def next_number(self, player: str) -> int:
        """The number above all that a player's drills have."""
        question = "SELECT coalesce(max(number), 0) + 1 FROM drill WHERE player = ?"
        return self.store.number(question, player)

    def reserve(self, player: str, drills: Iterable[Drill]) -> dict[Drill, int]:
        """The numbers of drills; those that have none yet get the next ones, for ever.

        No other drill of the player gets them, also where two commands ask at once.
        """
        wanted = tuple(dict.fromkeys(drills))
        with self.store.transaction():
            held = self.numbers(player)
            new = [drill for drill in wanted if drill not in held]
            for number, drill in enumerate(new, start=self.next_number(player)):
                DRILL.add(self.store, DrillRow(player=player, number=number, key=drill.key))
                held[drill] = number
        return {drill: held[drill] for drill in wanted}

    def keep(self, plan: Plan, printed: datetime) -> None:
        """Keep every day of a plan, now that its pages are written.

        A drill that has no link yet gets the plan's.

        printed: with its time zone.

        Raises:
            RefusedError: the plan is nobody's, or gives a drill another number than the log.
        """
        if plan.player is None:
            raise RefusedError("log-nobody")
        with self.store.transaction():
            self.refuse_other_numbers(plan.player, plan)
            instant = self.store.rising("day", "printed", printed)
            for day in plan.days:
                self.keep_day(plan, plan.player, day, instant)
            for entry in plan.drills:
                self.store.rows(
                    "UPDATE drill SET link = ? WHERE player = ? AND number = ? AND link IS NULL",
                    msgspec.json.encode(entry.link).decode(),
                    plan.player,
                    entry.number,
                )

    def refuse_other_numbers(self, player: str, plan: Plan) -> None:
        """Refuse a plan whose numbers are not those of its drills.

        Raises:
            RefusedError: a number is not reserved for its drill.
        """
        for entry in plan.drills:
            if self.drill_of(player, entry.number) != entry.key:
                raise RefusedError("log-not-reserved", number=entry.number, key=entry.key)

    def keep_day(self, plan: Plan, player: str, day: Day, printed: datetime) -> None:
        """Write one day with its document and its items, inside a transaction."""
        DAY.add(
            self.store,
            DayRow(
                player=player,
                date=day.date,
                printed=printed,
                instrument=plan.instrument,
                size=plan.size,
                seed=plan.seed,
                plan=day_document(plan, day),
            ),
        )
        for turn, item in enumerate(day.items):
            ITEM.add(
                self.store,
                ItemRow(
                    player=player,
                    date=day.date,
                    printed=printed,
                    turn=turn,
                    number=item.number,
                    role=item.role.value,
                ),
            )

    def day(self, player: str, date: Date) -> bytes | None:
        """The plan document of a player's day as it was printed last, or None."""
        rows = self.store.rows(
            "SELECT plan FROM day WHERE player = ? AND date = ? ORDER BY printed DESC LIMIT 1",
            player,
            date.isoformat(),
        )
        return str(rows[0][0]).encode() if rows else None

    def drill_of(self, player: str, number: int) -> str | None:
        """The key of the drill that has a number, or None."""
        question = "SELECT key FROM drill WHERE player = ? AND number = ?"
        rows = self.store.rows(question, player, number)
        return str(rows[0][0]) if rows else None

    def players(self) -> tuple[str, ...]:
        """Everyone for whom something was printed, by name."""
        rows = self.store.rows("SELECT DISTINCT player FROM day ORDER BY player")
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
            BookgenError: a number was never printed, a drill stands twice on a day, or the day
                lies before the drill's first page or after today; everything that is wrong is
                told.
        """
        with self.store.transaction():
            roster = self.roster(markings)
            good = resolved(markings, roster, entered)
            new = tuple(marking for marking in good if not roster.stands_so(marking))
            instant = self.store.rising("entry", "entered", entered)
            ENTRY.add(self.store, *(result_row(marking, instant) for marking in new))
        return new

    def roster(self, markings: Sequence[Marking]) -> Roster:
        """The drills of everyone who is marked."""
        return Roster.of({player: self.drills(player) for player in {m.player for m in markings}})

    def checked(self, markings: Sequence[Marking], entered: datetime) -> tuple[Marking, ...]:
        """Results with their days, as `enter_all` would enter them.

        Raises:
            BookgenError: as `enter_all` does.
        """
        return resolved(markings, self.roster(markings), entered)

    def undo(
        self, player: str | None, numbers: Sequence[int] | None, entered: datetime
    ) -> tuple[Entered, ...]:
        """Take results back; they stay in the history, and what was valid before is so again.

        player: None takes back the last call's results for everyone; only without numbers.
        numbers: those of the drills whose last result is taken back; None takes back the last
            call's.
        Returns the results that were taken back.

        Raises:
            BookgenError: there is nothing to take back, or a number has no result.
        """
        with self.store.transaction():
            standing = standing_results(self.history(player))
            if numbers is None:
                chosen = last_call(standing)
            else:
                chosen = last_results(player or "", numbers, self.drills(player or ""), standing)
            instant = self.store.rising("entry", "entered", entered)
            ENTRY.add(self.store, *(undo_row(entry, instant) for entry in chosen))
        return tuple(replace(entry, taken_back=True, valid=False) for entry in chosen)

    def history(self, player: str | None) -> tuple[Entered, ...]:
        """Every entry for a player, or for everyone, in the order in which they were made."""
        return entries_made(self.store, player)

    def export(self) -> LogCopy:
        """Everything that the log holds, as values that can be written to a file."""
        return copy_of(self.store)

    def restore(self, copied: LogCopy, file: str) -> Counts:
        """Take in everything of a copy that the log does not hold yet. Returns what was new.

        file: the name under which the user knows it.

        Raises:
            BookgenError: the copy is at odds with the log or with itself.
        """
        with self.store.transaction():
            present = under_present_names(self.store, copied)
            return Counts(*merged(self.store, present, file))

    def counts(self) -> Counts:
        """How much the log holds."""
        tables = ("day", "drill", "item", "entry")
        return Counts(
            *(self.store.number(f"SELECT count(*) FROM {table}") for table in tables)  # noqa: S608
        )

    def version(self) -> int:
        """The version of the file's schema."""
        return self.store.number("PRAGMA user_version")

    def faults(self) -> list[Said]:
        """What is wrong with the file's pages and rows; nothing in a sound one.

        A schema that is not ours is told on opening already.
        """
        told: list[Said] = [
            str(line) for (line,) in self.store.rows("PRAGMA integrity_check") if line != "ok"
        ]
        lost = self.store.rows("PRAGMA foreign_key_check")
        try:
            self.export()
            for player in self.players():
                self.drills(player)
        except DamagedError as error:
            told.append(error.what)
        return [*told, *(Message("log-alone", {"table": t, "row": r}) for t, r, *_ in lost)]
