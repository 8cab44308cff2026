"""The pages of a passage: its music, its hard spots, and the drills that lead there."""

from collections.abc import Iterator
from pathlib import Path

from bookgen.binder.books.passage import PassageBook, bind_passage, passage_book
from bookgen.errors import told
from bookgen.model.instrument import Instrument
from bookgen.notation.engraved import Engraving
from bookgen.notation.engraver import Running, start, start_excerpts, start_passage
from bookgen.notation.lilypond import Workshop, find_lilypond
from bookgen.plan.passage import Passage
from bookgen.tasks.books import clefs_of
from bookgen.tasks.busy import Busy
from bookgen.tasks.engraving import (
    LEAST_SECONDS,
    SECONDS_A_DRILL,
    Sources,
    bars_style,
    style_of,
)
from bookgen.tasks.leftovers import working_folder
from bookgen.tasks.look import Look
from bookgen.tasks.pages import bound

NOTHING = Engraving((), ())


def pages_of(
    passage: Passage, instrument: Instrument, wanted: Look, busy: Busy
) -> tuple[bytes, Sources]:
    """Engrave the passage with its drills and excerpts at the same time, and bind the pages.

    Raises:
        BookgenError: LilyPond is missing, or something does not fit its page.
        EngravingError: LilyPond did not do what we meant it to do.
    """
    desk = wanted.desk(instrument, passage.size)
    book = bound(lambda: passage_book(passage, desk), wanted)
    bars = len(passage.phrase.bars)
    doing = told("engraving {number} bars and the way there …", number=bars)
    with busy(doing), working_folder() as folder:
        running = dict(started(book, instrument, wanted, folder))
        try:
            seconds = LEAST_SECONDS + SECONDS_A_DRILL * (len(book.scores) + bars)
            made = {name: one.finish(seconds) for name, one in running.items()}
        finally:
            for one in running.values():
                one.stop()
    drills, excerpts = made.get("drills", NOTHING), made.get("excerpts", NOTHING)
    pages = bound(lambda: bind_passage(book, drills, made["passage"], excerpts), wanted)
    sources = [source for one in running.values() for source in one.sources]
    return pages, Sources(lambda: sources, style_of(wanted))


def started(
    book: PassageBook, instrument: Instrument, wanted: Look, folder: Path
) -> Iterator[tuple[str, Running]]:
    """LilyPond at work on the passage, on its drills and on its excerpts.

    Each has a folder of its own: none may lay out its fonts while another one reads them.

    Raises:
        BookgenError: LilyPond is missing.
    """
    style, lilypond, passage = style_of(wanted), find_lilypond(), book.passage
    shops = {name: Workshop(lilypond, folder / name) for name in ("passage", "drills", "excerpts")}
    for shop in shops.values():
        shop.folder.mkdir()
    own = bars_style(wanted)
    yield (
        "passage",
        start_passage(passage, instrument.reading, own, book.desk.sheet.column, shops["passage"]),
    )
    if passage.plan is not None and book.scores:
        clefs = clefs_of(passage.plan, book.scores, instrument)
        yield "drills", start(book.scores, instrument, style, shops["drills"], clefs=clefs)
    if book.excerpts:
        yield "excerpts", start_excerpts(book.excerpts, instrument.reading, own, shops["excerpts"])
