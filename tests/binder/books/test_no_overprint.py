"""Type that grows until nothing fits is told, and never printed over other type."""

from collections.abc import Callable

import pytest
from kit.books import BOOKS
from kit.ink import Ink, larger, outside, overprints, refused_or_printed
from kit.shorthand import VIOLIN

from bookgen.binder.page.canvas import Face, Style
from bookgen.binder.page.desk import Desk, desk_of
from bookgen.binder.page.paper import PAPERS
from bookgen.binder.page.reportlab_canvas import ReportLabCanvas
from bookgen.readers.layout import read_layout
from bookgen.words.speech import ENGLISH

NAMES = ["Jo", "Mara Wilhelmina von der Marschlande", "W" * 400, "", "אבג דהו", "محمد"]


@pytest.mark.parametrize("book", BOOKS)
@pytest.mark.parametrize("paper", PAPERS)
def test_type_grows_until_it_is_told(book: Callable[[Desk, str], bytes], paper: str) -> None:
    def make(factor: float) -> bytes:
        layout = larger(read_layout("ordinary"), factor)
        return book(desk_of(VIOLIN, "4/4", layout, paper, ENGLISH, "Harbour Lane Strings"), "Ines")

    refused_or_printed(make)


@pytest.mark.parametrize("book", BOOKS)
@pytest.mark.parametrize("name", NAMES)
def test_names_of_all_kinds_stay_in_their_place(
    book: Callable[[Desk, str], bytes], name: str
) -> None:
    desk = desk_of(VIOLIN, "4/4", read_layout("ordinary"), "a5", ENGLISH, name or None)
    pdf = book(desk, name)
    assert overprints(pdf) == []
    assert outside(pdf) == []


def test_words_that_stand_on_others_are_seen() -> None:
    desk = desk_of(VIOLIN, "4/4", read_layout("ordinary"), "a5", ENGLISH)
    canvas = ReportLabCanvas(desk.fonts, 148.0, 210.0)
    style = Style(Face.REGULAR, 12.0)
    canvas.text((20.0, 100.0), "one word", style)
    canvas.text((25.0, 101.0), "another", style)
    canvas.text((140.0, 50.0), "beyond the edge", style)
    pdf = canvas.finish()
    ((page, over, under),) = overprints(pdf)
    assert (page, isinstance(over, Ink), over.over(under)) == (0, True, True)
    assert len(outside(pdf)) == 1
