"""Words that recur on a booklet's pages."""

from dataclasses import replace

from booklets import LAYOUT, a_month, pages, words

from bookgen.binder.book_words import day_words
from bookgen.binder.layout import Template
from bookgen.binder.page_words import PageWords
from bookgen.binder.templates import Words

PLAN = a_month(6)


def test_every_day_has_its_heading() -> None:
    found = pages(PLAN)
    headings = ["".join(text for text, _ in found.day(day_words(day))) for day in PLAN.days]

    assert headings[0] == "Tuesday, 1 December · 10 minutes"
    assert headings[1].endswith("· lighter day")
    assert headings[4].endswith("· cold test")


def test_whose_booklet_it_is() -> None:
    assert pages(PLAN).whose == "Ines · December 2026"
    assert pages(replace(PLAN, player=None)).whose == "December 2026"


def test_what_a_template_leaves_out_is_empty() -> None:
    layout = replace(LAYOUT, templates={"page.j2": Template("page.j2", "<whose>x</whose>")})
    found = PageWords(Words(layout), words(PLAN))

    assert (found.whose, found.pencil, found.own, found.caution) == ("x", "", "", None)
    assert found.day(day_words(PLAN.days[0])) == ()
