"""The book as which a plan is bound: which music it needs, and what is made of it."""

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from bookgen.binder.page.desk import Desk
from bookgen.binder.parts.passage.bars import Bars
from bookgen.model.instrument import Instrument
from bookgen.model.music import play
from bookgen.notation.clef import clef_of
from bookgen.notation.drill_score import DrillScore
from bookgen.notation.engraved import Engraving
from bookgen.plan.ahead import Deadline
from bookgen.plan.document import Plan
from bookgen.plan.music import music_of
from bookgen.plan.passage import Passage
from bookgen.plan.supplement import Piece
from bookgen.tasks.busy import Busy
from bookgen.tasks.engraving import Engraver, Music, Sources, engraving
from bookgen.tasks.look import Look
from bookgen.tasks.pages import bound

if TYPE_CHECKING:
    from bookgen.model.drill import Drill

Binder = tuple[
    Callable[[Plan, Desk], Sequence[DrillScore]],
    Callable[[Plan, Engraving, Desk, Sequence[Bars]], bytes],
]
"""What finds out which drills a book needs, and what binds it."""


@dataclass(frozen=True, slots=True)
class Pages:
    """A book that has been made, and the LilyPond text of its music."""

    pages: bytes
    sources: Sources


@dataclass(frozen=True, slots=True)
class Book:
    """A book whose music is still to be engraved.

    bars: of pieces. bind: makes the PDF of the music.
    """

    look: Look
    instrument: Instrument
    scores: Sequence[DrillScore]
    clefs: Sequence[str]
    bars: Sequence[Passage]
    bind: Callable[[Music], bytes]

    @contextmanager
    def engraving(self, *, split: bool = True) -> Iterator[Engraver]:
        """Have LilyPond work meanwhile on what is not kept of the music.

        split: much music goes to two processes.

        Raises:
            BookgenError: LilyPond is missing.
        """
        with engraving(
            self.scores, self.clefs, self.instrument, self.look, self.bars, split=split
        ) as engraver:
            yield engraver

    def bound(self, music: Music) -> bytes:
        """The pages with their music.

        Raises:
            BookgenError: something does not fit its page.
        """
        return bound(lambda: self.bind(music), self.look)

    def made(self, busy: Busy) -> Pages:
        """Engrave and bind.

        Raises:
            BookgenError: LilyPond is missing, or something does not fit its page.
            EngravingError: LilyPond did not do what we meant it to do.
        """
        with self.engraving() as engraver:
            music, sources = engraver.finish(busy)
        return Pages(self.bound(music), sources)


def book_of(plan: Plan, instrument: Instrument, look: Look) -> Book:
    """The book of a plan: the one that its binding names.

    Raises:
        BookgenError: a chart or a line of music has no room on the paper.
    """
    desk = look.desk(instrument, plan.size)
    scores_of, bind = BINDERS[look.binding.book]()
    scores = bound(lambda: scores_of(plan, desk), look)
    clefs = clefs_of(plan, scores, instrument)
    bars = bars_in(plan, instrument)

    def of_music(music: Music) -> bytes:
        of_pieces = [
            Bars(one, passage, lines, spots)
            for (one, passage), lines, spots in zip(bars, music.bars, music.spots, strict=True)
        ]
        return bind(plan, music.drills, desk, of_pieces)

    return Book(look, instrument, scores, clefs, [passage for _, passage in bars], of_music)


def bars_in(plan: Plan, instrument: Instrument) -> list[tuple[Deadline | Piece, Passage]]:
    """The bars of pieces that are printed with a plan, as its binding has them.

    Raises:
        BookgenError: the binding holds no music of the instrument.
    """
    if plan.binding is None:
        return []
    book = plan.binding.supplement
    deadlines = [one for one in plan.binding.deadlines if one.music]
    pieces = [one.piece for one in (book.chapters if book else ()) if one.piece]
    if not deadlines and not pieces:
        return []
    from bookgen.tasks.pieces import passage_in  # noqa: PLC0415  the solver, where wanted
    from bookgen.tasks.supplement_music import passage_of  # noqa: PLC0415

    return [
        *((one, passage_in(one, instrument, plan.size)) for one in deadlines),
        *((one, passage_of(one, instrument, plan.size)) for one in pieces),
    ]


def of_booklets() -> Binder:
    """Booklets."""
    from bookgen.binder.books.booklet import bind_booklet, scores_of  # noqa: PLC0415  slow

    return scores_of, bind_booklet


def of_sheets() -> Binder:
    """Sheets of days."""
    from bookgen.binder.books.sheet import bind_sheet, scores_of  # noqa: PLC0415  slow to import

    return scores_of, bind_sheet


def of_drills() -> Binder:
    """Drills alone."""
    from bookgen.binder.books.sheet import bind_drill, drill_scores  # noqa: PLC0415  slow

    return drill_scores, lambda plan, music, desk, _: bind_drill(plan, music, desk)


def of_supplements() -> Binder:
    """Books without dates."""
    from bookgen.binder.books.supplement import bind_supplement, scores_of  # noqa: PLC0415  slow

    return scores_of, bind_supplement


BINDERS: Final = {
    "booklet": of_booklets,
    "sheet": of_sheets,
    "drill": of_drills,
    "supplement": of_supplements,
}
"""By the name of a book in a plan's binding; each is loaded when it is wanted."""


def summary_of(plan: Plan, instrument: Instrument, look: Look) -> bytes:
    """The teacher's page of a booklet, which is for paper.

    Raises:
        BookgenError: it has no room on the paper.
    """
    from bookgen.binder.books.booklet import bind_summary  # noqa: PLC0415  slow to import

    desk = replace(look, screen=False).desk(instrument, plan.size)
    return bound(lambda: bind_summary(plan, desk), look)


def clefs_of(plan: Plan, scores: Sequence[DrillScore], instrument: Instrument) -> list[str]:
    """The clefs of the music: each drill keeps that of the one to which it is linked.

    What stands on earlier pages is taken to be in the clef that suits it by itself.
    """
    chosen: dict[Drill, str] = {}
    for entry in plan.drills:
        before, linked = None, plan.linked(entry)
        if linked is not None:
            before = chosen.get(linked) or clef_of(play(linked, instrument), instrument)
        chosen[entry.drill] = clef_of(music_of(entry), instrument, before)
    return [chosen[score.drill] for score in scores]
