"""Pages of passages for the tests of the binder."""

from dataclasses import replace
from functools import cache
from io import BytesIO

import pypdfium2
from drills import plan_of
from paper import stand_in
from passages import passage
from shorthand import VIOLIN

from bookgen.binder.desk import Desk, Options, desk_of
from bookgen.binder.layout import PAPERS
from bookgen.binder.passage_book import bind_passage
from bookgen.binder.passage_drills import planned_drills
from bookgen.binder.passage_text import PassageText, text_of
from bookgen.plan.passage import Ladder, Passage
from bookgen.plan.passage_excerpt import excerpts_of
from bookgen.readers.layout import read_layout

LAYOUT = read_layout("ordinary")
STUDIO = "Harbour Lane Strings"
KEYS = (
    "12-whole-place2-strings4321-stage1-low-same",
    "12-half-place2-strings4321-stage1-low-same",
    "23-whole-place4-strings21-stage3-low-same",
)
WIDEST = {paper: LAYOUT.music_width(paper) - 0.5 for paper in PAPERS}


@cache
def with_ladders(title: str = "A hard passage") -> Passage:
    """The ordinary passage with ladders to its first two groups, and a third that has none."""
    one = replace(passage(), title=title)
    plan = plan_of(*KEYS, player=None)
    drills = [planned.drill for planned in plan.days[0].drills]
    first, second, third, *_ = (group.letter for group in one.best.groups)
    ladders = (
        Ladder(first, (drills[0], drills[1]), ()),
        Ladder(second, (drills[2],), (drills[0],)),
        Ladder(third, (), ()),
    )
    return replace(one, ladders=ladders, plan=plan)


@cache
def desk(paper: str = "a4") -> Desk:
    return desk_of((VIOLIN, "4/4"), LAYOUT, Options(paper=paper, studio=STUDIO))


def text(one: Passage | None = None, paper: str = "a4") -> PassageText:
    return text_of(one or with_ladders(), desk(paper))


def bound(one: Passage | None = None, paper: str = "a4", lines: int = 4) -> bytes:
    """The pages of a passage with stand-in music, each line 30 mm high."""
    chosen = one or with_ladders()
    music = stand_in(lines, width_mm=WIDEST[paper], height_mm=30.0)
    count = len(planned_drills(chosen)) + len(excerpts_of(chosen))
    drills = stand_in(count, width_mm=WIDEST[paper])
    options = Options(paper=paper, studio=STUDIO)
    return bind_passage(chosen, VIOLIN, music, drills, LAYOUT, options)


def words(pdf: bytes) -> list[str]:
    """The words of each page, with single spaces."""
    document = pypdfium2.PdfDocument(BytesIO(pdf))
    return [" ".join(page.get_textpage().get_text_range().split()) for page in document]
