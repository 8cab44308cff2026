"""Pages of what the log says: every player's figures and none lost overleaf, a player's map."""

from dataclasses import replace
from datetime import date, timedelta
from io import BytesIO

import pypdfium2
import pytest
from kit.faring import DAY, a_standing

from bookgen.binder.books.coverage import CellStanding, bind_player_coverage, bind_roster
from bookgen.binder.page.canvas import Face
from bookgen.binder.page.desk import Desk, desk_of
from bookgen.binder.parts.standings import faces_of
from bookgen.plan.document import Coverage, Gauge
from bookgen.readers.instrument import read_instrument
from bookgen.readers.layout import read_layout
from bookgen.words.roster import Standing
from bookgen.words.speech import ENGLISH

INES = a_standing()
JO = a_standing(
    "Jo", secure=0, practised=0, new=80, printed_to=None, logged=None, gained=0, leads_to=None
)


def desk(layout: str = "ordinary", paper: str = "a4") -> Desk:
    studio = "Harbour Lane Strings"
    violin = read_instrument("violin")
    return desk_of(violin, "4/4", read_layout(layout), paper, ENGLISH, studio)


def pages(pdf: bytes) -> list[str]:
    document = pypdfium2.PdfDocument(BytesIO(pdf))
    return [" ".join(page.get_textpage().get_text_range().split()) for page in document]


def test_each_player_has_a_line() -> None:
    (page,) = pages(bind_roster([INES, JO], DAY, desk()))
    line = "Ines 120 of 460 5 Dec 30 Nov 12 2\u20133 whole, 1st pos., string by string"
    assert line in page
    assert "Jo 0 of 80 never never 0" in page
    assert page.startswith("Coverage on 3 Dec 2026")
    assert "Lesson" not in page, "nobody has told of one"


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_a_teacher_of_thirty_has_one_page_under_the_days_of_the_lessons(paper: str) -> None:
    week = [a_standing(f"No {at}", lesson=DAY + timedelta(at // 6)) for at in range(30)]
    (page,) = pages(bind_roster(week, DAY, desk(paper=paper)))
    assert page.count("Lesson: ") == 5
    assert page.index("Lesson: Thu 3 Dec No 0") < page.index("Lesson: Fri 4 Dec No 6")


def test_a_large_roster_goes_on_overleaf_under_the_same_heads() -> None:
    found = pages(bind_roster([INES] * 110, DAY, desk()))
    assert len(found) == 3
    assert sum(page.count("Ines") for page in found) == 110
    assert all("newly secure" in page for page in found)


@pytest.mark.parametrize(
    ("layout", "paper"),
    [("large-print", "half-letter"), ("large-print", "a4"), ("ordinary", "a5")],
)
def test_a_table_that_has_no_room_is_told_in_lines(layout: str, paper: str) -> None:
    found = pages(bind_roster([INES, JO], DAY, desk(layout, paper)))
    page = " ".join(found)
    assert "Ines 120 of 460 moves secure; newly secure: 12 printed to: 5 Dec;" in page
    assert "Jo 0 of 80 moves secure; newly secure: 0 printed to: never; logged: never" in page


def test_no_player_has_no_line() -> None:
    (page,) = pages(bind_roster([], DAY, desk()))
    assert "newly secure" in page


@pytest.mark.parametrize(
    ("player", "bold"),
    [
        (INES, []),
        (JO, ["printed to", "logged"]),
        (replace(INES, printed_to=DAY - timedelta(13), logged=DAY - timedelta(14)), ["logged"]),
        (replace(INES, still_since=date(2026, 11, 20)), ["newly secure"]),
        (replace(JO, away=date(2026, 12, 13)), []),
    ],
)
def test_bold_is_what_asks_for_the_teacher(player: Standing, bold: list[str]) -> None:
    columns = ("", "", "", "printed to", "logged", "newly secure", "")
    named = zip(columns, faces_of(player), strict=True)
    assert [column for column, face in named if column and face is Face.BOLD] == bold


def test_who_stands_still_and_who_is_away_is_told() -> None:
    still = a_standing(still_since=date(2026, 11, 20), away=date(2026, 12, 13))
    (page,) = pages(bind_roster([still], DAY, desk()))
    assert "0 since 20 Nov away to 13 Dec; 2\u20133 whole" in page


def test_a_players_page_has_the_map_and_a_line_for_each_hand() -> None:
    gauges = tuple(
        Gauge(string=string, semitones=place, secure=2, practised=1, new=3, aimed=2)
        for string in range(1, 5)
        for place in range(1, 9)
    )
    coverage = Coverage(secure=64, practised=32, new=96, aimed=64, gauges=gauges)
    cells = [
        CellStanding("1st", (1, 2), 30, 2, 4, date(2026, 11, 3)),
        CellStanding("2nd", (3, 4), 0, 0, 8, None),
    ]
    (page,) = pages(bind_player_coverage(coverage, cells, "Ines", DAY, desk()))
    assert "Ines \u00b7 Violin 4/4" in page
    assert "Of 192 moves 64 are secure, 32 practised" in page
    assert "1st 1\u20132 30 2 4 3 Nov" in page
    assert "2nd 3\u20134 0 0 8 never" in page
