"""A roster's results as a spreadsheet saves them."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookgen.errors import BookgenError, Message
from bookgen.plan.record import Result
from bookgen.readers.day import Calendar
from bookgen.studio.entries import Marking
from bookgen.tasks.results_file import ResultsFile

ROSTER = ["Ines", "Jo"]
TODAY = date(2026, 12, 24)


def read(text: str, only: str | None = None, locale: str | None = None) -> ResultsFile:
    file = ResultsFile("r.csv", ROSTER, only, Calendar.of(locale, TODAY))
    file.read(text)
    return file


def at(line: int) -> Message:
    return read("number,result\n", "Ines").line_name(line)


def told(text: str) -> list[str]:
    return [str(finding) for finding in read(f"player,number,result,date\n{text}").findings]


def test_every_line_is_a_result() -> None:
    file = read("player,number,result,date\nInes,3,secure,2026-12-01\nJo,5-6,Not  Yet,\n")

    assert file.findings == []
    assert file.markings == [
        Marking("Ines", 3, Result.SECURE, date(2026, 12, 1), at(2)),
        Marking("Jo", 5, Result.NOT_YET, None, at(3)),
        Marking("Jo", 6, Result.NOT_YET, None, at(3)),
    ]


@pytest.mark.parametrize(
    "text",
    [
        "Player;Number;Result\r\nInes;3;secure\r\n",
        "result\tplayer\tnumber\nsecure\tInes\t3\n",
        'number,result,player\n\n"3","secure"," ines "\n,,\n',
        "number,result\n3,secure",
        "sep=;\nPupil;weather;No.;Result\nInes;rain;No. 3;Yes\n",
        "Lessons in December\n\nname|number|result\nInes|#3|✓",
        "player,number,secure,not yet\nInes,3,x,\n",
        "player,number,secure,not yet\nInes,3,TRUE,FALSE\n",
    ],
)
def test_spreadsheets_differ_and_are_read_all_the_same(text: str) -> None:
    (marking,) = read(text, only="Ines").markings
    assert (marking.player, marking.number, marking.result) == ("Ines", 3, Result.SECURE)


@pytest.mark.parametrize(
    ("line", "problem"),
    [
        ("Ine,3,secure,", "no player 'Ine'; perhaps 'Ines'."),
        (",3,secure,", "it names no player; name one of Ines, Jo."),
        ("Ines,x,secure,", "'x' is no number of a drill or range of them; write e.g. 3 or 5-8."),
        ("Ines,,secure,", "'' is no number of a drill or range of them; write e.g. 3 or 5-8."),
        ("Ines,3,perhaps,", "'perhaps' is no result; write secure or not yet."),
        ("Ines,3,secure,31.11.2026", "'31.11.2026' is no date; write year-month-day"),
        ("Ines,3,secure,3/4/2026", "'3/4/2026' can be 2026-03-04 or 2026-04-03; write year-"),
        ("Ines,5-Aug,secure,", "'5-Aug' is a date, no number of a drill; make the column one of"),
        ("Ines,3,secure,,yes", "it has more cells than columns; mend the line."),
    ],
)
def test_a_bad_line_is_told_with_its_number(line: str, problem: str) -> None:
    (only,) = told(f"Jo,1,secure,\n{line}")
    assert only.startswith(f"r.csv, line 3: {problem}")


@pytest.mark.parametrize(
    ("locale", "days", "expected"),
    [
        (None, "2026-12-01 2026/12/1 1.12.2026 01.12.26 1.12. 1-Dec-2026", [1] * 6),
        ("de_DE", "1.12.2026 1/12/2026", [1, 1]),
        ("en_GB", "01/12/2026 1-12-26", [1, 1]),
        ("en_US", "12/1/2026 12/1/26 12/1", [1, 1, 1]),
        (None, "3/12/2026 25/11/2026", [3, -5]),
        ("en_US", "3/12/2026 25/11/2026 24/12/2026", [3, -5, 24]),
        ("C", "13/12/2026", [13]),
    ],
)
def test_days_are_written_as_the_locale_does(
    locale: str | None, days: str, expected: list[int]
) -> None:
    """The orders are those of CLDR; where only one can be, the table itself says which."""
    lines = [f"{n},x,{day}" for n, day in enumerate(days.split(), start=1)]
    file = read("\n".join(["number,result,date", *lines]), "Ines", locale)

    assert file.findings == []
    before = date(2026, 11, 30)
    assert [mark.date and (mark.date - before).days for mark in file.markings] == expected


@pytest.mark.parametrize(
    ("locale", "text"),
    [
        ("de_DE", "Di, 1. Dezember 2026"),
        ("fr_FR", "1 déc. 2026"),
        ("es_ES", "1 dic 2026"),
        ("it_IT", "mar 1 dic 2026"),
        ("nl_NL", "1 december"),
        ("en_US", "Dec 1"),
        ("de_DE", "2026-12-01 00:00:00"),
    ],
)
def test_months_may_be_words(locale: str, text: str) -> None:
    (mark,) = read(f"number\tresult\tdate\n3\tx\t{text}", "Ines", locale).markings
    assert mark.date == date(2026, 12, 1)


def test_a_day_without_its_year_is_the_last_one_that_has_come() -> None:
    file = read("number,result,date\n1,x,24.12.\n2,x,25.12.\n3,x,29.2.", "Ines")
    assert [str(mark.date) for mark in file.markings] == ["2026-12-24", "2025-12-25", "2024-02-29"]


def test_lines_without_a_result_are_left_out_and_counted() -> None:
    file = read("player,number,result\nInes,3\nJo,4,-\nJo,5,x\nNobody,,\n")
    assert (len(file.markings), file.left_out, file.findings) == (1, [2, 3, 5], [])


def test_of_two_boxes_one_is_ticked() -> None:
    text = "player,number,secure,not yet\nInes,1,x,\nInes,2,,x\nInes,3,,\nInes,4,x,x"
    file = read(text)
    assert [mark.result for mark in file.markings] == [Result.SECURE, Result.NOT_YET]
    (both,) = file.findings
    assert str(both) == "r.csv, line 5: it is called secure and not yet; keep one of them."


def test_a_column_stands_there_once() -> None:
    with pytest.raises(BookgenError, match="line 1: two columns are called 'number'"):
        read("number,No.,result\n1,2,x")


def test_everything_that_is_wrong_with_a_line_is_told() -> None:
    assert len(told("Ine,x,perhaps,today")) == 4


@pytest.mark.parametrize("text", ["", "Ines,3,secure", "player,number", "number;weather"])
def test_the_first_line_names_the_columns(text: str) -> None:
    with pytest.raises(BookgenError, match=r"r\.csv, line 1: its first line does not name"):
        read(text)


def test_findings_come_in_the_order_of_the_lines() -> None:
    file = read("player,number,result\nJo,x,secure\nInes,3,perhaps\n")
    assert file.in_order(file.findings[::-1]) == file.findings


def test_what_is_no_csv_is_told() -> None:
    with pytest.raises(BookgenError, match=r"r\.csv: no CSV"):
        read('number,result\n"3,secure')


@given(st.text() | st.text("number,result\n\"'3;").map(lambda text: f"number,result\n{text}"))
def test_no_text_makes_the_reader_stumble(text: str) -> None:
    try:
        read(text)
    except BookgenError as error:
        places = [str(finding.place) for finding in error.findings]
        assert all(place.startswith("r.csv") for place in places)
