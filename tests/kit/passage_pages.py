"""Pages of passages for the tests of the binder."""

from dataclasses import replace
from functools import cache
from io import BytesIO

import pypdfium2
from kit.drills import plan_of
from kit.paper import stand_in
from kit.passages import passage
from kit.shorthand import VIOLIN

from bookgen.binder.books.passage import bind_passage, passage_book
from bookgen.binder.page.desk import Desk, desk_of
from bookgen.notation.engraved import Engraving
from bookgen.plan.passage import Ladder, Passage
from bookgen.plan.passage_excerpt import excerpts_of
from bookgen.readers.layout import read_layout
from bookgen.words.speech import ENGLISH

STUDIO = "Harbour Lane Strings"
KEYS = (
    "12-whole-place2-strings4321-stage1-low-same",
    "12-half-place2-strings4321-stage1-low-same",
    "23-whole-place4-strings21-stage3-low-same",
)


@cache
def with_ladders(title: str = "A hard passage") -> Passage:
    """The ordinary passage with ladders to its first two groups, and a third that has none."""
    one = replace(passage(), title=title)
    plan = plan_of(*KEYS, player=None)
    drills = [entry.drill for entry in plan.drills]
    first, second, third, *_ = (group.letter for group in one.best.groups)
    ladders = (
        Ladder(first, (drills[0], drills[1]), ()),
        Ladder(second, (drills[2],), (drills[0],)),
        Ladder(third, (), ()),
    )
    return replace(one, ladders=ladders, plan=plan)


@cache
def desk(paper: str = "a4", layout: str = "ordinary", studio: str | None = STUDIO) -> Desk:
    return desk_of(VIOLIN, "4/4", read_layout(layout), paper, ENGLISH, studio)


def bind(one: Passage, at: Desk, music: Engraving) -> bytes:
    """The pages of a passage with that music, and with stand-ins for drills and excerpts."""
    book = passage_book(one, at)
    drills = stand_in(len(book.scores), width_mm=55.0)
    excerpts = stand_in(len(excerpts_of(one)), width_mm=book.width - 1.0)
    return bind_passage(book, drills, music, excerpts)


def bound(
    one: Passage | None = None, paper: str = "a4", lines: int = 4, layout: str = "ordinary"
) -> bytes:
    """The pages of a passage with stand-in music, each line 30 mm high."""
    at = desk(paper, layout)
    music = stand_in(lines, width_mm=at.sheet.column - 0.5, height_mm=30.0)
    return bind(one or with_ladders(), at, music)


def words(pdf: bytes) -> list[str]:
    """The words of each page, with single spaces."""
    document = pypdfium2.PdfDocument(BytesIO(pdf))
    return [" ".join(page.get_textpage().get_text_range().split()) for page in document]
