"""One page for the teacher: every player's figures, and none lost overleaf."""

from datetime import date
from io import BytesIO

import pypdfium2

from bookgen.binder.books.coverage import (
    CellStanding,
    bind_player_coverage,
    bind_studio_coverage,
)
from bookgen.binder.page.desk import Desk, desk_of
from bookgen.binder.parts.standings import PlayerStanding
from bookgen.plan.document import Coverage, Gauge
from bookgen.readers.instrument import read_instrument
from bookgen.readers.layout import read_layout
from bookgen.words.speech import ENGLISH

DAY = date(2026, 12, 3)
INES = PlayerStanding("Ines", "Violin 4/4", 120, 40, 300, date(2026, 11, 30))
JO = PlayerStanding("Jo", "Violin 1/2", 0, 0, 80, None)


def desk(layout: str = "ordinary", paper: str = "a4") -> Desk:
    studio = "Harbour Lane Strings"
    violin = read_instrument("violin")
    return desk_of(violin, "4/4", read_layout(layout), paper, ENGLISH, studio)


def pages(pdf: bytes) -> list[str]:
    document = pypdfium2.PdfDocument(BytesIO(pdf))
    return [" ".join(page.get_textpage().get_text_range().split()) for page in document]


def test_each_player_has_a_line_with_figures_and_the_last_day() -> None:
    (page,) = pages(bind_studio_coverage([INES, JO], DAY, desk()))
    assert "Ines Violin 4/4 120 40 300 30 Nov" in page
    assert "Jo Violin 1/2 0 0 80 never" in page
    assert page.startswith("Coverage on 3 Dec 2026")


def test_a_large_studio_goes_on_overleaf_under_the_same_heads() -> None:
    found = pages(bind_studio_coverage([INES] * 60, DAY, desk()))
    assert len(found) == 3
    assert sum(page.count("Ines") for page in found) == 60
    assert all("last played" in page for page in found)


def test_figures_that_leave_no_room_for_the_bars_are_told_in_lines() -> None:
    found = pages(bind_studio_coverage([INES, JO], DAY, desk("large-print", "half-letter")))
    page = " ".join(found)
    assert "Ines · Violin 4/4 120 secure, 40 practised, 300 new; last played 30 Nov" in page
    assert "Jo · Violin 1/2 0 secure, 0 practised, 80 new; never played" in page


def test_no_player_has_no_line() -> None:
    (page,) = pages(bind_studio_coverage([], DAY, desk()))
    assert "last played" in page


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
    assert "Ines · Violin 4/4" in page
    assert "Of 192 moves 64 are secure, 32 practised" in page
    assert "1st 1\u20132 30 2 4 3 Nov" in page
    assert "2nd 3\u20134 0 0 8 never" in page
