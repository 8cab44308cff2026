"""A roster's results as a spreadsheet saves them."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookgen.errors import BookgenError
from bookgen.plan.record import Result
from bookgen.studio.entries import Marking
from bookgen.tasks.results_file import ResultsFile

ROSTER = ["Ines", "Jo"]


def read(text: str, only: str | None = None) -> ResultsFile:
    file = ResultsFile("r.csv", ROSTER, only)
    file.read(text)
    return file


def told(text: str) -> list[str]:
    return [str(finding) for finding in read(f"player,number,result,date\n{text}").findings]


def test_every_line_is_a_result() -> None:
    file = read("player,number,result,date\nInes,3,secure,2026-12-01\nJo,5-6,Not  Yet,\n")

    assert file.findings == []
    assert file.markings == [
        Marking("Ines", 3, Result.SECURE, date(2026, 12, 1), "r.csv, line 2"),
        Marking("Jo", 5, Result.NOT_YET, None, "r.csv, line 3"),
        Marking("Jo", 6, Result.NOT_YET, None, "r.csv, line 3"),
    ]


@pytest.mark.parametrize(
    "text",
    [
        "Player;Number;Result\r\nInes;3;secure\r\n",
        "result\tplayer\tnumber\nsecure\tInes\t3\n",
        'number,result,player\n\n"3","secure"," Ines "\n,,\n',
        "number,result\n3,secure",
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
        ("Ines,3", "'' is no result; write secure or not yet."),
        ("Ines,3,secure,1.12.2026", "'1.12.2026' is no date; write year-month-day"),
        ("Ines,3,secure,,yes", "it has more cells than columns; mend the line."),
    ],
)
def test_a_bad_line_is_told_with_its_number(line: str, problem: str) -> None:
    (only,) = told(f"Jo,1,secure,\n{line}")
    assert only.startswith(f"r.csv, line 3: {problem}")


def test_everything_that_is_wrong_with_a_line_is_told() -> None:
    assert len(told("Ine,x,perhaps,today")) == 4


@pytest.mark.parametrize(
    "text", ["", "Ines,3,secure", "player,number", "number,result,weather", "number,number,result"]
)
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
