"""A practice log outside its file: all that it holds as values, as JSON and as CSV."""

import csv
import io
from collections.abc import Iterator
from datetime import date as Date  # noqa: N812
from datetime import datetime
from typing import Annotated, Final, Literal

import msgspec

from bookgen.errors import BookgenError, Finding

MEND: Final = "mend the file, or export it anew"
MOST_FINDINGS: Final = 20
LARGEST_CELL: Final = 30_000
"""Letters; spreadsheets cut a cell at 32,767 (from memory), so longer plans take more rows."""

Text = Annotated[str, msgspec.Meta(pattern=r"\A[^\x00]+\Z")]
Seed = Annotated[int, msgspec.Meta(ge=-(2**63), le=2**63 - 1)]
Number = Annotated[int, msgspec.Meta(ge=1, le=2**53)]
Instant = Annotated[datetime, msgspec.Meta(tz=True)]


class Row(msgspec.Struct, forbid_unknown_fields=True, frozen=True):
    """A row of a copy in which every field is known."""


class DayRow(Row, frozen=True, kw_only=True):
    """A printed day; `plan` is its plan document, letter by letter."""

    player: Text
    date: Date
    printed: Instant
    instrument: Text
    size: Text
    seed: Seed
    plan: Text


class DrillRow(Row, frozen=True, kw_only=True):
    """A printed drill; date and instant of printing tell its day."""

    player: Text
    number: Number
    date: Date
    printed: Instant
    key: Text
    kind: Text


class EntryRow(Row, frozen=True, kw_only=True):
    """A result, or that the one entered at `undoes` is taken back."""

    player: Text
    number: Number
    entered: Instant
    result: Literal["secure", "not yet"] | None = None
    date: Date | None = None
    undoes: Instant | None = None


class LogCopy(Row, frozen=True, kw_only=True):
    """A whole practice log."""

    format: Literal["bookgen-practice-log"] = "bookgen-practice-log"
    version: Literal[1] = 1
    days: tuple[DayRow, ...]
    drills: tuple[DrillRow, ...]
    entries: tuple[EntryRow, ...]


class PlanRow(Row, frozen=True, kw_only=True):
    """In CSV: a part of a day's plan document."""

    player: Text
    date: Date
    printed: Instant
    part: Number
    plan: Text


class CsvDay(Row, frozen=True, kw_only=True):
    """In CSV: a day without its plan, which follows in rows of its own."""

    player: Text
    date: Date
    printed: Instant
    instrument: Text
    size: Text
    seed: Seed


CSV_KINDS: Final = {"day": CsvDay, "plan": PlanRow, "drill": DrillRow, "entry": EntryRow}
COLUMNS: Final = (
    *("row", "player", "date", "number", "key", "kind", "result"),
    *("entered", "undoes", "printed", "instrument", "size", "seed", "part", "plan"),
)


def as_json(copied: LogCopy) -> bytes:
    """The copy as JSON text, two spaces a level."""
    return msgspec.json.format(msgspec.json.encode(copied), indent=2) + b"\n"


def from_json(text: bytes, file: str) -> LogCopy:
    """Read a copy's JSON.

    file: the name under which the user knows it.

    Raises:
        BookgenError: the text is no copied.
    """
    try:
        return msgspec.json.decode(text, type=LogCopy)
    except msgspec.ValidationError as error:
        problem, _, path = str(error).partition(" - at ")
        where = path.strip("`").removeprefix("$").removeprefix(".")
        raise BookgenError(Finding(f"{file}, {where}" if where else file, problem, MEND)) from error
    except (msgspec.DecodeError, UnicodeDecodeError, RecursionError) as error:
        raise BookgenError(Finding(file, f"no JSON ({error})", MEND)) from error


def as_csv(copied: LogCopy) -> bytes:
    """The copy as CSV text: a header, then a row for each thing that the log holds."""
    stream = io.StringIO(newline="")
    writer = csv.DictWriter(stream, COLUMNS)
    writer.writeheader()
    for kind, row in csv_rows(copied):
        cells = msgspec.to_builtins(row)
        writer.writerow(
            {"row": kind, **{key: cells[key] for key in cells if cells[key] is not None}}
        )
    return stream.getvalue().encode()


def csv_rows(copied: LogCopy) -> Iterator[tuple[str, Row]]:
    """The rows of the CSV form, each with its kind."""
    for day in copied.days:
        yield (
            "day",
            CsvDay(
                player=day.player,
                date=day.date,
                printed=day.printed,
                instrument=day.instrument,
                size=day.size,
                seed=day.seed,
            ),
        )
        for part, start in enumerate(range(0, len(day.plan), LARGEST_CELL), start=1):
            text = day.plan[start : start + LARGEST_CELL]
            yield (
                "plan",
                PlanRow(
                    player=day.player, date=day.date, printed=day.printed, part=part, plan=text
                ),
            )
    yield from (("drill", drill) for drill in copied.drills)
    yield from (("entry", entry) for entry in copied.entries)


def from_csv(text: bytes, file: str) -> LogCopy:
    """Read a copy's CSV; its rows may stand in any order.

    file: the name under which the user knows it.

    Raises:
        BookgenError: the text is no copied; every bad row is told.
    """
    rows: dict[str, list[Row]] = {kind: [] for kind in CSV_KINDS}
    findings: list[Finding] = []
    try:
        reader = csv.DictReader(io.StringIO(text.decode("utf-8-sig"), newline=""), strict=True)
        if sorted(reader.fieldnames or ()) != sorted(COLUMNS):
            problem = f"its first line does not name the columns {', '.join(COLUMNS)}"
            raise BookgenError(Finding(file, problem, MEND))
        for cells in reader:
            row = csv_row(cells, f"{file}, line {reader.line_num}", findings)
            if row is not None:
                rows[cells["row"]].append(row)
    except (csv.Error, UnicodeDecodeError) as error:
        raise BookgenError(Finding(file, f"no CSV in UTF-8 ({error})", MEND)) from error
    if findings:
        raise BookgenError(*findings[:MOST_FINDINGS])
    return LogCopy(
        days=tuple(whole_days(rows, file)),
        drills=tuple(row for row in rows["drill"] if isinstance(row, DrillRow)),
        entries=tuple(row for row in rows["entry"] if isinstance(row, EntryRow)),
    )


def csv_row(cells: dict[str, str], place: str, findings: list[Finding]) -> Row | None:
    """One row by its kind; what is wrong with it is added to the findings."""
    if None in cells or None in cells.values():
        findings.append(Finding(place, f"it has not {len(COLUMNS)} cells", MEND))
        return None
    kind = CSV_KINDS.get(cells["row"])
    if kind is None:
        findings.append(Finding(place, f"{cells['row']!r} is no kind of row", MEND))
        return None
    filled = {key: cell for key, cell in cells.items() if key != "row" and cell}
    try:
        row: Row = msgspec.convert(filled, kind, strict=False)
    except msgspec.ValidationError as error:
        findings.append(Finding(place, str(error), MEND))
        return None
    return row


def whole_days(rows: dict[str, list[Row]], file: str) -> Iterator[DayRow]:
    """Days with the parts of their plans put together.

    Raises:
        BookgenError: a day lacks a part of its plan.
    """
    parts: dict[tuple[str, Date, datetime], dict[int, str]] = {}
    for row in rows["plan"]:
        if isinstance(row, PlanRow):
            parts.setdefault((row.player, row.date, row.printed), {})[row.part] = row.plan
    for row in rows["day"]:
        if isinstance(row, CsvDay):
            found = parts.get((row.player, row.date, row.printed), {})
            if sorted(found) != list(range(1, len(found) + 1)) or not found:
                problem = f"the plan of {row.player}'s {row.date} is not complete"
                raise BookgenError(Finding(file, problem, MEND))
            plan = "".join(found[part] for part in sorted(found))
            yield DayRow(**msgspec.structs.asdict(row), plan=plan)
