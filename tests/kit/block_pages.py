"""Drills as blocks for the tests of the binder, with stand-in music as wide as was asked for."""

from collections.abc import Sequence
from functools import cache

import pikepdf
from kit.drills import plan_of
from kit.paper import PT_PER_MM
from kit.plates import engraving_of
from kit.shorthand import VIOLA, VIOLIN

from bookgen.binder.page.block_measures import Kind
from bookgen.binder.page.desk import Desk, desk_of
from bookgen.binder.page.layout import Layout
from bookgen.binder.parts.block.forms import Music
from bookgen.binder.parts.block.measured import Block
from bookgen.binder.parts.block.words import book_words
from bookgen.binder.parts.drills import Drills, drills_of
from bookgen.notation.drill_score import DrillScore
from bookgen.notation.engraved import Engraving, InkBox
from bookgen.readers.layout import read_layout
from bookgen.words.speech import ENGLISH

MIRROR = "12-whole-place2-strings4321-stage1-low-mirror"
SAME = "12-whole-place2-strings4321-stage1-low-same"
FRAME = "1234-whole.half.whole-place2-strings4321-stage1-low-same"
STAVES = "23-half-place4-strings4321-stage5-low-mirror"
HIGH = "34-whole-place12-strings4321-stage2-high-same"
KEYS = (MIRROR, SAME, FRAME, STAVES, HIGH, "12-half-place1-strings432-stage3-low-same")
HEIGHT_MM = 28.0


@cache
def layout_named(name: str) -> Layout:
    return read_layout(name)


def a_desk(
    paper: str = "a4",
    layout: str | Layout = "ordinary",
    *,
    viola: bool = False,
    size: str = "4/4",
    studio: str | None = None,
) -> Desk:
    chosen = layout_named(layout) if isinstance(layout, str) else layout
    return desk_of(VIOLA if viola else VIOLIN, size, chosen, paper, ENGLISH, studio)


def drills_for(desk: Desk, *keys: str, kind: Kind = "book") -> Drills:
    """Drills by their keys without the instrument, unlinked, settled for a book."""
    plan = plan_of(*(keys or KEYS), instrument=desk.instrument)
    return drills_of(plan.drills, [book_words(one, plan, desk) for one in plan.drills], desk, kind)


def music_for(
    scores: Sequence[DrillScore], *, height_mm: float = HEIGHT_MM, wider_mm: float = 0.0
) -> Engraving:
    """Black boxes: each as wide as its score asks, or wider."""
    left, top = 12.0, 9.0
    book, found = pikepdf.new(), []
    for score in scores:
        width, height = (score.width_mm + wider_mm) * PT_PER_MM, height_mm * PT_PER_MM
        page = book.add_blank_page(page_size=(width + 40, height + 40))
        ink = f"0 0 0 rg {left} {height + 40 - top - height} {width} {height} re f"
        page.contents_add(ink.encode())
        box = InkBox(left, top, left + width, top + height, top + 25, top + 46, 1)
        found.append(box)
    return engraving_of(book, found)


def blocks_of(drills: Drills, **music: float) -> list[Block]:
    """The blocks with stand-in music."""
    engraving = music_for(drills.scores, **music)
    return [
        drills.block(setting, Music(index, drill.box, setting.turns))
        for index, (setting, drill) in enumerate(
            zip(drills.settings, engraving.drills, strict=True)
        )
    ]
