"""A log as JSON and as CSV, there and back; and what is no such file."""

import contextlib
import csv
import io
import json
from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from log_copies import log_copies
from printed import EVENING, empty_log, kept, sheet

from bookgen.errors import BookgenError
from bookgen.plan.record import Result
from bookgen.studio.log_copy import (
    LARGEST_CELL,
    LogCopy,
    as_csv,
    as_json,
    from_csv,
    from_json,
)


def small() -> LogCopy:
    with empty_log() as log:
        kept(log, sheet(2), datetime(2026, 11, 30, 9, tzinfo=UTC))
        log.enter("Ines", [1], Result.SECURE, None, EVENING)
        log.undo("Ines", None, EVENING + timedelta(1))
        return log.export()


@given(log_copies())
@settings(max_examples=40)
def test_json_loses_nothing(copied: LogCopy) -> None:
    assert from_json(as_json(copied), "copy.json") == copied


@given(log_copies())
@settings(max_examples=40)
def test_csv_loses_nothing(copied: LogCopy) -> None:
    assert from_csv(as_csv(copied), "copy.csv") == copied


def test_no_cell_is_longer_than_spreadsheets_take() -> None:
    copied = small()
    (day,) = copied.days
    long_day = type(day)(
        **{field: getattr(day, field) for field in day.__struct_fields__[:-1]}, plan="é\n" * 50_000
    )
    text = as_csv(LogCopy(days=(long_day,), drills=(), entries=())).decode()

    rows = list(csv.reader(io.StringIO(text, newline="")))
    assert max(len(cell) for row in rows for cell in row) <= LARGEST_CELL
    assert from_csv(text.encode(), "copy").days == (long_day,)


def test_rows_may_stand_in_any_order() -> None:
    head, *rows = csv.reader(io.StringIO(as_csv(small()).decode(), newline=""))
    stream = io.StringIO(newline="")
    csv.writer(stream).writerows([head, *rows[::-1]])
    found = from_csv(stream.getvalue().encode(), "copy")

    assert sorted(found.entries, key=lambda entry: entry.entered) == list(small().entries)
    assert found.days == small().days


HEAD = (
    "row,player,date,number,key,kind,result,entered,undoes,printed,instrument,size,seed,part,plan"
)
DAY = "day,Ines,2026-12-01,,,,,,,2026-12-01T08:00:00Z,violin,4/4,0,,"


@pytest.mark.parametrize(
    ("rows", "told"),
    [
        ("row,player\n", "copy.csv: its first line does not name the columns row, player"),
        (f"{HEAD}\nweek{',' * 14}", "copy.csv, line 2: 'week' is no kind of row"),
        (f"{HEAD}\nday,Ines", "copy.csv, line 2: it has not 15 cells"),
        (f"{HEAD}\n{DAY},x", "copy.csv, line 2: it has not 15 cells"),
        (f"{HEAD}\n{DAY}", "copy.csv: the plan of Ines's 2026-12-01 is not complete"),
        (f"{HEAD}\ndrill,Ines,2026-12-01,0{',' * 11}", "copy.csv, line 2: Expected `int` >= 1"),
        (f'{HEAD}\n"day', "copy.csv: no CSV in UTF-8"),
        ("\udcff", "copy.csv: no CSV in UTF-8"),
        ("", "copy.csv: its first line does not name"),
    ],
)
def test_what_is_no_csv_of_a_log_is_told(rows: str, told: str) -> None:
    with pytest.raises(BookgenError) as stopped:
        from_csv(rows.encode("utf-8", "surrogateescape"), "copy.csv")

    assert str(stopped.value).startswith(told)


def test_every_bad_row_is_told() -> None:
    with pytest.raises(BookgenError) as stopped:
        from_csv(f"{HEAD}\nweek{',' * 14}\nyear{',' * 14}".encode(), "copy.csv")
    assert len(stopped.value.findings) == 2


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"format": "bookgen-plan"}, "copy.json, format: Invalid enum value"),
        ({"version": 2}, "copy.json, version: Invalid enum value 2"),
        ({"weeks": []}, "copy.json: Object contains unknown field `weeks`"),
        ({"days": [{"player": ""}]}, "copy.json, days[0].player: "),
        ({"days": 3}, "copy.json, days: Expected `array`"),
    ],
)
def test_what_is_no_json_of_a_log_is_told(change: dict[str, object], told: str) -> None:
    text = json.dumps(json.loads(as_json(small())) | change)
    with pytest.raises(BookgenError) as stopped:
        from_json(text.encode(), "copy.json")

    assert str(stopped.value).startswith(told)


@given(
    st.binary() | st.text().map(str.encode) | st.text().map(lambda text: f"{HEAD}\n{text}".encode())
)
def test_no_bytes_make_the_readers_stumble(content: bytes) -> None:
    for read in (from_csv, from_json):
        with contextlib.suppress(BookgenError):
            read(content, "copy")
