"""A practice log and a copy of one: nothing is lost, nothing doubled."""

from collections.abc import Iterator, Sequence
from typing import Final

from bookgen.errors import BookgenError, Finding, Message, why
from bookgen.studio.entries import instant_text
from bookgen.studio.ledger import link_of
from bookgen.studio.log_copy import MEND, LogCopy
from bookgen.studio.rows import (
    DAY,
    DRILL,
    ENTRY,
    ITEM,
    DayRow,
    DrillRow,
    EntryRow,
    ItemRow,
    Row,
    Table,
    cells_of,
)
from bookgen.studio.store import Cell, DamagedError, Store

MOST_FINDINGS: Final = 20


def copy_of(store: Store) -> LogCopy:
    """Everything that a log holds.

    Raises:
        DamagedError: a row holds what no log holds.
    """
    return LogCopy(
        days=DAY.read(store),
        drills=DRILL.read(store),
        items=ITEM.read(store),
        entries=ENTRY.read(store),
    )


def merged(store: Store, copied: LogCopy, file: str) -> tuple[int, int, int, int]:
    """Write inside a transaction what a log does not hold yet of a copy.

    A drill's link that the log holds stays.

    file: the name under which the user knows the copy.
    Returns how many days, drills, items and entries were new.

    Raises:
        BookgenError: the copy says something else than the log, or is not whole.
    """
    merge = Merge(store)
    try:
        days = merge.take_in(DAY, copied.days)
        drills = merge.take_in(DRILL, copied.drills)
        items = merge.take_in(ITEM, copied.items)
        entries = merge.take_in(ENTRY, sorted(copied.entries, key=lambda row: row.entered))
    except ValueError as error:
        raise BookgenError(Finding(file, why(error), MEND)) from error
    if merge.faults:
        raise BookgenError(
            *(Finding(file, problem, mend) for problem, mend in merge.faults[:MOST_FINDINGS])
        )
    DAY.add(store, *days)
    DRILL.add(store, *drills)
    ITEM.add(store, *items)
    ENTRY.add(store, *entries)
    for drill in copied.drills:
        if drill.link is not None and drill not in drills:
            store.rows(
                "UPDATE drill SET link = ? WHERE player = ? AND number = ? AND link IS NULL",
                *(drill.link, drill.player, drill.number),
            )
    return len(days), len(drills), len(items), len(entries)


class Merge:
    """What a log holds and what is taken in, by their keys.

    faults: what cannot be, each with its mend.
    """

    def __init__(self, store: Store) -> None:
        """Begin with what the log holds."""
        self.faults: list[tuple[Message, Message]] = []
        self.held: dict[str, dict[tuple[Cell, ...], tuple[Cell, ...]]] = {
            table.name: {cells[: table.keys]: cells for cells in table.cells(store)}
            for table in (DAY, DRILL, ITEM, ENTRY)
        }

    def take_in[R: Row](self, table: Table[R], rows: Sequence[R]) -> list[R]:
        """The rows that are new."""
        held, new = self.held[table.name], []
        for row in rows:
            cells = cells_of(row)
            before = held.setdefault(cells[: table.keys], cells)
            if before is cells:
                new.append(row)
                self.faults += [(fault, MEND) for fault in self.faults_of(row)]
            elif before[: table.firm] != cells[: table.firm]:
                self.faults.append((named("log-another", row), Message("log-keep-apart")))
        return new

    def faults_of(self, row: Row) -> Iterator[Message]:
        """What a row belongs to and is not there, or what it cannot be."""
        if isinstance(row, DrillRow) and row.link is not None:
            try:
                link_of(row.link)
            except DamagedError as error:
                yield named("log-no-link", row, why=error.what)
        if isinstance(row, ItemRow) and (
            (row.player, str(row.date), instant_text(row.printed)) not in self.held["day"]
        ):
            yield named("log-no-day", row)
        if isinstance(row, ItemRow | EntryRow) and (
            (row.player, row.number) not in self.held["drill"]
        ):
            yield named("log-no-drill", row)
        if isinstance(row, EntryRow) and not self.is_entry(row):
            yield named("log-no-entry", row)

    def is_entry(self, row: EntryRow) -> bool:
        """Whether it is a result with its day, or takes an earlier result back."""
        result = (row.result, row.date, row.replaces)
        if row.undoes is None:
            return None not in result
        if result != (None, None, None) or row.undoes >= row.entered:
            return False
        undone = self.held["entry"].get((row.player, row.number, instant_text(row.undoes)))
        return undone is not None and undone[ENTRY.columns.index("result")] is not None


def named(fault: str, row: Row, **facts: object) -> Message:
    """A fault with its row as a teacher knows it.

    Raises:
        TypeError: the row is none of the log's.
    """
    match row:
        case EntryRow():
            row_facts = {"player": row.player, "number": row.number, "entered": row.entered}
            place = Message("log-entered-place", row_facts)
        case DrillRow() | ItemRow():
            place = Message("log-place", {"player": row.player, "number": row.number})
        case DayRow():
            place = Message("log-day-place", {"player": row.player, "date": row.date})
        case _:
            msg = f"{type(row).__name__} is no row of the log"
            raise TypeError(msg)
    return Message(fault, {"row": place, **facts})
