"""The pages of a passage: its music, its hard spots, and the drills that lead there."""

from collections.abc import Iterator
from contextlib import ExitStack, contextmanager, nullcontext

from bookgen.binder.books.passage import PassageBook, bind_passage, passage_book
from bookgen.errors import told
from bookgen.model.instrument import Instrument
from bookgen.notation.engraved import Engraving
from bookgen.notation.lilypond import Workshop, find_lilypond
from bookgen.plan.passage import Passage
from bookgen.tasks.bars import Bars, Stand
from bookgen.tasks.books import clefs_of
from bookgen.tasks.busy import Busy
from bookgen.tasks.engraving import (
    LEAST_SECONDS,
    SECONDS_A_DRILL,
    Sources,
    bars_style,
    engraving,
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

    What is kept of them is not engraved again.

    Raises:
        BookgenError: LilyPond is missing, or something does not fit its page.
        EngravingError: LilyPond did not do what we meant it to do.
    """
    desk = wanted.desk(instrument, passage.size)
    book = bound(lambda: passage_book(passage, desk), wanted)
    plan, scores, bars = book.passage.plan, book.scores, len(passage.phrase.bars)
    clefs = clefs_of(plan, scores, instrument) if plan is not None else []
    with engraving(scores, clefs, instrument, wanted) as engraver:
        with pieces_of(book, instrument, wanted) as pieces:
            doing = told("engraving {number} bars and the way there …", number=bars)
            at_work = any(piece.running for piece in pieces)
            with busy(doing) if at_work else nullcontext():
                seconds = LEAST_SECONDS + SECONDS_A_DRILL * (len(scores) + bars)
                music, *excerpts = [piece.finish(seconds) for piece in pieces]
        drills, texts = engraver.finish(busy)
    pages = bound(
        lambda: bind_passage(book, drills.drills, music, excerpts[0] if excerpts else NOTHING),
        wanted,
    )

    def sources() -> list[str]:
        own = [text for piece in pieces for text in piece.sources]
        return [own[0], *(texts.texts() if scores else ()), *own[1:]]

    return pages, Sources(sources, style_of(wanted))


@contextmanager
def pieces_of(book: PassageBook, instrument: Instrument, wanted: Look) -> Iterator[list[Bars]]:
    """The passage, then its excerpts where it has some: kept, or LilyPond at work on them.

    Raises:
        BookgenError: LilyPond is missing.
    """
    with working_folder() as folder, ExitStack() as at_work:
        shop = Workshop(find_lilypond(), folder)
        stand = Stand(instrument.reading, bars_style(wanted), shop, wanted.cache)
        pieces = [stand.passage(book.passage, book.desk.sheet.column, "passage")]
        at_work.callback(pieces[0].stop)
        if book.excerpts:
            pieces.append(stand.excerpts(book.excerpts, "excerpts"))
            at_work.callback(pieces[-1].stop)
        yield pieces
