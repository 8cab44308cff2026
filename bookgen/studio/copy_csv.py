"""A whole practice log as CSV: a header, then a row for each thing that the log holds."""

import csv
import io
from collections.abc import Iterator, Mapping, Sequence
from datetime import date as Date  # noqa: N812
from datetime import datetime
from typing import Final

import msgspec

from bookgen.errors import BookgenError, Finding, Message, Said
from bookgen.studio.copy_version_1 import DrillRow1, EntryRow1, LogCopy1, brought_up
from bookgen.studio.log_copy import MEND, LogCopy
from bookgen.studio.rows import (
    DayRow,
    DrillRow,
    EntryRow,
    Instant,
    ItemRow,
    Number,
    Row,
    Seed,
    Text,
)

MOST_FINDINGS: Final = 20
LARGEST_CELL: Final = 30_000
"""Letters; spreadsheets cut a cell at 32,767 (from memory), so longer plans take more rows."""


class PlanRow(Row, frozen=True, kw_only=True):
    """A part of a day's plan document."""

    player: Text
    date: Date
    printed: Instant
    part: Number
    plan: Text


class CsvDay(Row, frozen=True, kw_only=True):
    """A day without its plan, which follows in rows of its own."""

    player: Text
    date: Date
    printed: Instant
    instrument: Text
    size: Text
    seed: Seed


Kinds = Mapping[str, type[Row]]
Cells = dict[str, str]

SHEET_END: Final = ("entered", "undoes", "printed", "instrument", "size", "seed", "part", "plan")
COLUMNS: Final = (
    *("row", "player", "date", "turn", "number", "key", "role", "link", "result", "replaces"),
    *SHEET_END,
)
COLUMNS_1: Final = ("row", "player", "date", "number", "key", "kind", "result", *SHEET_END)
"""Those of version 1."""

KINDS: Final[Kinds] = {
    "day": CsvDay,
    "plan": PlanRow,
    "drill": DrillRow,
    "item": ItemRow,
    "entry": EntryRow,
}
KINDS_1: Final[Kinds] = {"day": CsvDay, "plan": PlanRow, "drill": DrillRow1, "entry": EntryRow1}


def as_csv(copied: LogCopy) -> bytes:
    """The copy as CSV text."""
    stream = io.StringIO(newline="")
    writer = csv.DictWriter(stream, COLUMNS)
    writer.writeheader()
    for kind, row in csv_rows(copied):
        cells = msgspec.to_builtins(row)
        filled = {key: cell for key, cell in cells.items() if cell is not None}
        writer.writerow({"row": kind, **filled})
    return stream.getvalue().encode()


def csv_rows(copied: LogCopy) -> Iterator[tuple[str, Row]]:
    """The rows of the CSV form, each with its kind."""
    for day in copied.days:
        facts = msgspec.structs.asdict(day)
        plan = str(facts.pop("plan"))
        yield "day", CsvDay(**facts)
        for part, start in enumerate(range(0, len(plan), LARGEST_CELL), start=1):
            text = plan[start : start + LARGEST_CELL]
            yield (
                "plan",
                PlanRow(
                    player=day.player, date=day.date, printed=day.printed, part=part, plan=text
                ),
            )
    yield from (("drill", row) for row in copied.drills)
    yield from (("item", row) for row in copied.items)
    yield from (("entry", row) for row in copied.entries)


def is_csv_copy(content: bytes) -> bool:
    """Whether a file's first line is, or was, that of a log's copy."""
    head = content.partition(b"\n")[0].decode("utf-8-sig", errors="replace").strip()
    return {"row", "entered", "undoes"} <= set(head.split(","))


def from_csv(text: bytes, file: str) -> LogCopy:
    """Read a copy's CSV, also that of version 1; its rows may stand in any order.

    file: the name under which the user knows it.

    Raises:
        BookgenError: the text is no copy of a log; every bad row is told.
    """
    findings: list[Finding] = []
    rows: list[Row] = []
    try:
        reader = csv.DictReader(io.StringIO(text.decode("utf-8-sig"), newline=""), strict=True)
        kinds = kinds_of(reader.fieldnames or (), file)
        for cells in reader:
            match csv_row(cells, kinds):
                case Row() as row:
                    rows.append(row)
                case problem:
                    place = Message("log-line", {"file": file, "line": reader.line_num})
                    findings.append(Finding(place, problem, MEND))
    except (csv.Error, UnicodeDecodeError) as error:
        problem = Message("log-copy-no-csv", {"why": str(error)})
        raise BookgenError(Finding(file, problem, MEND)) from error
    if findings:
        raise BookgenError(*findings[:MOST_FINDINGS])
    return copy_of_rows(rows, file)


def kinds_of(header: Sequence[str], file: str) -> Kinds:
    """The kinds of row that follow a first line.

    Raises:
        BookgenError: it does not name the columns.
    """
    for columns, kinds in ((COLUMNS, KINDS), (COLUMNS_1, KINDS_1)):
        if sorted(header) == sorted(columns):
            return kinds
    problem = Message("log-copy-columns", {"columns": ", ".join(COLUMNS)})
    raise BookgenError(Finding(file, problem, MEND))


def csv_row(cells: Cells, kinds: Kinds) -> Row | Said:
    """One row by its kind, or what is wrong with it."""
    if None in cells or None in cells.values():
        return Message("log-copy-cells")
    kind = kinds.get(cells["row"])
    if kind is None:
        return Message("log-copy-kind", {"kind": cells["row"]})
    filled = {key: cell for key, cell in cells.items() if key != "row" and cell}
    try:
        return msgspec.convert(filled, kind, strict=False)
    except msgspec.ValidationError as error:
        return str(error)


def copy_of_rows(rows: Sequence[Row], file: str) -> LogCopy:
    """The log whose rows these are.

    Raises:
        BookgenError: a day lacks a part of its plan.
    """
    days = tuple(whole_days(of(rows, CsvDay), of(rows, PlanRow), file))
    drills, entries = of(rows, DrillRow1), of(rows, EntryRow1)
    if drills or entries:
        return LogCopy(**brought_up(LogCopy1(days=days, drills=drills, entries=entries)))
    return LogCopy(
        days=days,
        drills=of(rows, DrillRow),
        items=of(rows, ItemRow),
        entries=of(rows, EntryRow),
    )


def of[R: Row](rows: Sequence[Row], kind: type[R]) -> tuple[R, ...]:
    """The rows of one kind."""
    return tuple(row for row in rows if isinstance(row, kind))


def whole_days(days: Sequence[CsvDay], plans: Sequence[PlanRow], file: str) -> Iterator[DayRow]:
    """Days with the parts of their plans put together.

    Raises:
        BookgenError: a day lacks a part of its plan.
    """
    parts: dict[tuple[str, Date, datetime], dict[int, str]] = {}
    for row in plans:
        parts.setdefault((row.player, row.date, row.printed), {})[row.part] = row.plan
    for day in days:
        found = parts.get((day.player, day.date, day.printed), {})
        if sorted(found) != list(range(1, len(found) + 1)) or not found:
            problem = Message("log-copy-torn", {"player": day.player, "date": day.date})
            raise BookgenError(Finding(file, problem, MEND))
        plan = "".join(found[part] for part in sorted(found))
        yield DayRow(**msgspec.structs.asdict(day), plan=plan)
