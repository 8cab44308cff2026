"""Pages in a language nobody speaks: all words have room, and each came out of the catalogue."""

from dataclasses import replace
from pathlib import Path

import pytest
from kit.bench import SECONDS, STYLE, workshop
from kit.books import BOOKS
from kit.ink import outside, overprints
from kit.month_plan import a_month
from kit.pseudo import PSEUDO, cut_off, english, strange
from kit.shorthand import VIOLIN

from bookgen.binder.books.sheet import bind_sheet, scores_of
from bookgen.binder.page.canvas import Face, Style
from bookgen.binder.page.desk import Desk, desk_of
from bookgen.binder.page.paper import PAPERS
from bookgen.binder.page.reportlab_canvas import ReportLabCanvas
from bookgen.notation.engraver import start
from bookgen.readers.layout import layout_names, read_layout
from bookgen.words.marks import marks_of
from bookgen.words.speech import ENGLISH, Speech

STUDIO = "Harbour Lane Strings"
NAMES = ["Ines", STUDIO, "A hard passage", "Violin 4/4", strange("Violin")]
"""What users have typed, which is cut where it has no room; also what they play, in the head."""


def desk(layout: str = "ordinary", paper: str = "a4", speech: Speech = PSEUDO) -> Desk:
    return desk_of(VIOLIN, "4/4", read_layout(layout), paper, speech, STUDIO)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("layout", layout_names())
def test_every_page_has_room_for_words_half_as_long_again(layout: str, paper: str) -> None:
    for book in BOOKS:
        pdf = book(desk(layout, paper), "Ines")
        assert english(pdf, NAMES) == {}, book
        assert cut_off(pdf, NAMES) == [], book
        assert overprints(pdf) == [], book
        assert outside(pdf) == [], book


def test_words_on_staves_come_out_of_the_catalogue(tmp_path: Path) -> None:
    plan, at = a_month(20, days=1), desk()
    style = replace(STYLE, marks=marks_of(PSEUDO))
    running = start(scores_of(plan, at), VIOLIN, style, workshop(tmp_path))
    pdf = bind_sheet(plan, running.finish(SECONDS), at)
    assert english(pdf, NAMES) == {}
    assert strange("P4") in "".join(running.sources)


def test_an_english_page_is_seen() -> None:
    found = english(BOOKS[0](desk(speech=ENGLISH), "Ines"), NAMES)
    assert {"finger", "string", "position"} <= found.keys()


def test_a_word_that_is_cut_is_seen() -> None:
    canvas = ReportLabCanvas(desk().fonts, 148.0, 210.0)
    canvas.text((20.0, 100.0), "ššťřé… Harb… Lane", Style(Face.REGULAR, 12.0))
    assert cut_off(canvas.finish(), NAMES) == ["ššťřé…"]


def test_a_message_is_half_as_long_again_and_keeps_its_gaps() -> None:
    assert strange("<b>by</b> {number}, 1st") == "<b>ßßý</b> {number}, 1ššť"
