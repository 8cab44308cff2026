"""Pages of passages for the tests of the binder."""

from dataclasses import replace
from datetime import date
from functools import cache
from io import BytesIO

import msgspec
import pypdfium2
from kit.paper import stand_in
from kit.passages import passage
from kit.shorthand import VIOLIN

from bookgen.binder.books.passage import bind_passage, passage_book
from bookgen.binder.page.desk import Desk, desk_of
from bookgen.notation.engraved import Engraving
from bookgen.passage.program import Comes, drill_plan, way_there
from bookgen.plan.passage import Passage
from bookgen.readers.layout import read_layout
from bookgen.readers.spots import read_spots
from bookgen.readers.weights import read_weights
from bookgen.words.speech import ENGLISH

STUDIO = "Harbour Lane Strings"


@cache
def with_ladders(
    title: str = "A hard passage", player: str | None = "Ines", *, all_hands: bool = False
) -> Passage:
    """The ordinary passage with its hard spots and the drills that lead there."""
    one = replace(passage(), title=title)
    comes = Comes((), (), date(2026, 12, 1), read_weights())
    way = way_there(one.best, one.phrase, VIOLIN, comes, read_spots(), all_hands=all_hands)
    plan = drill_plan(way.ladders, VIOLIN, "4/4", comes)
    assert plan is not None
    return replace(
        one,
        spots=way.spots,
        easier=way.easier,
        ladders=way.ladders,
        plan=msgspec.structs.replace(plan, player=player),
    )


@cache
def desk(paper: str = "a4", layout: str = "ordinary", studio: str | None = STUDIO) -> Desk:
    return desk_of(VIOLIN, "4/4", read_layout(layout), paper, ENGLISH, studio)


def bind(one: Passage, at: Desk, music: Engraving) -> bytes:
    """The pages of a passage with that music, and with stand-ins for drills and excerpts."""
    book = passage_book(one, at)
    drills = stand_in(len(book.scores), width_mm=36.0)
    excerpts = stand_in(len(book.excerpts), width_mm=44.0)
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
