"""A log as JSON and as CSV, there and back; and what is no such file."""

import contextlib
import csv
import io
import json
from collections.abc import Callable
from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from kit.log_copies import log_copies
from kit.printed import DRILLS, EVENING, empty_log, kept

from bookgen.errors import BookgenError
from bookgen.plan.record import Result
from bookgen.studio.copy_csv import COLUMNS, COLUMNS_1, LARGEST_CELL, as_csv, from_csv
from bookgen.studio.log_copy import LogCopy, as_json, from_json
from bookgen.words.speech import ENGLISH

Reader = Callable[[bytes, str], LogCopy]


def small() -> LogCopy:
    with empty_log() as log:
        kept(log, DRILLS[:2], printed=datetime(2026, 11, 30, 9, tzinfo=UTC))
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
    text = as_csv(LogCopy(days=(long_day,), drills=(), items=(), entries=())).decode()

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
    assert sorted(found.items, key=lambda item: item.number) == list(small().items)


HEAD, HEAD_1 = ",".join(COLUMNS), ",".join(COLUMNS_1)
DAY = "day,Ines,2026-12-01,,,,,,,,,,2026-12-01T08:00:00Z,violin,4/4,0,,"


def told(read: Reader, content: bytes) -> list[str]:
    with pytest.raises(BookgenError) as stopped:
        read(content, "copy")
    return [ENGLISH.line(finding) for finding in stopped.value.findings]


@pytest.mark.parametrize(
    ("rows", "line"),
    [
        ("row,player\n", "copy: its first line does not name the columns row, player"),
        (f"{HEAD}\nweek{',' * 17}", "copy, line 2: 'week' is no kind of row"),
        (f"{HEAD_1}\nitem{',' * 14}", "copy, line 2: 'item' is no kind of row"),
        (f"{HEAD}\nday,Ines", "copy, line 2: it has not as many cells as the first line"),
        (f"{HEAD}\n{DAY},x", "copy, line 2: it has not as many cells as the first line"),
        (f"{HEAD}\n{DAY}", "copy: the plan of Ines's 2026-12-01 is not complete"),
        (f"{HEAD}\ndrill,Ines,,,0{',' * 13}", "copy, line 2: Expected `int` >= 1"),
        (f'{HEAD}\n"day', "copy: no CSV in UTF-8"),
        ("\udcff", "copy: no CSV in UTF-8"),
        ("", "copy: its first line does not name"),
    ],
)
def test_what_is_no_csv_of_a_log_is_told(rows: str, line: str) -> None:
    (found,) = told(from_csv, rows.encode("utf-8", "surrogateescape"))

    assert found.startswith(line)
    assert found.endswith("; mend the file, or export it anew.")


def test_every_bad_row_is_told() -> None:
    assert len(told(from_csv, f"{HEAD}\nweek{',' * 17}\nyear{',' * 17}".encode())) == 2


@pytest.mark.parametrize(
    ("change", "line"),
    [
        ({"format": "bookgen-plan"}, "copy, format: Invalid enum value"),
        ({"version": 3}, "copy, version: Invalid enum value 3"),
        ({"version": 1}, "copy, drills[0]: Object contains unknown field `link`"),
        ({"version": "1"}, "copy, version: Expected `int`"),
        ({"weeks": []}, "copy: Object contains unknown field `weeks`"),
        ({"days": [{"player": ""}]}, "copy, days[0].player: "),
        ({"days": 3}, "copy, days: Expected `array`"),
    ],
)
def test_what_is_no_json_of_a_log_is_told(change: dict[str, object], line: str) -> None:
    text = json.dumps(json.loads(as_json(small())) | change)

    assert told(from_json, text.encode())[0].startswith(line)


@given(
    st.binary() | st.text().map(str.encode) | st.text().map(lambda text: f"{HEAD}\n{text}".encode())
)
def test_no_bytes_make_the_readers_stumble(content: bytes) -> None:
    for read in (from_csv, from_json):
        with contextlib.suppress(BookgenError):
            read(content, "copy")
