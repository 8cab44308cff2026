"""The bars of a piece themselves, printed shortly before the day by which they are to be ready."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from bookgen.binder.page.desk import Desk
from bookgen.binder.page.flow import flow
from bookgen.binder.page.frame import Frame
from bookgen.binder.page.leaf import Leaf, leaves_of
from bookgen.binder.page.piece import FULL, Mark, Piece
from bookgen.binder.page.prose import Look, heading
from bookgen.notation.engraved import Engraving
from bookgen.plan.ahead import Deadline
from bookgen.plan.supplement import Piece as BookPiece
from bookgen.words.ahead import how_to_play_the_bars, piece_name
from bookgen.words.speech import Speech

if TYPE_CHECKING:
    from bookgen.plan.passage import Passage

NOTHING: Final = Engraving((), ())

SIGNS: Final = ("frame", "arrow", "changed")
"""Of a passage's pages, those that stand on the bars and their frames."""


@dataclass(frozen=True, slots=True)
class Bars:
    """Bars of a piece with their day, or as a book without days has them.

    lines: their music, as wide as the column; spots: that of their hard spots.
    """

    of: Deadline | BookPiece
    passage: "Passage"
    lines: Engraving
    spots: Engraving = NOTHING

    @property
    def deadline(self) -> Deadline:
        """The piece with its day.

        Raises:
            ValueError: it has none.
        """
        if not isinstance(self.of, Deadline):
            msg = "bars without a day"
            raise ValueError(msg)  # noqa: TRY004  the piece is sound, but not for these pages
        return self.of


def bars_key(bars: Sequence[Bars], speech: Speech) -> Mapping[str, str]:
    """What the signs on these pages mean; nothing where there are no such pages."""
    if not bars:
        return {}
    from bookgen.words.passage import key  # noqa: PLC0415  few plans have bars

    said = key(speech)
    return {sign: words for sign, words in said.items() if sign in SIGNS}


def bars_leaves(bars: Sequence[Bars], first: int, frame: Frame) -> list[Leaf]:
    """The pages of the bars, each piece on pages of its own.

    first: which of the engraving's is the first line of the first piece.

    Raises:
        NoRoomError: a line of music does not fit its page.
    """
    found: list[Leaf] = []
    for one in bars:
        pages = flow([*bars_pieces(one, first, frame.desk)], lambda _: frame.columns(), FULL)
        found += leaves_of(pages, frame.top)
        first += len(one.lines.drills)
    return found


def bars_pieces(bars: Bars, first: int, desk: Desk) -> Iterator[Piece]:
    """Title, day, music and frames."""
    from bookgen.binder.parts.passage.front import (  # noqa: PLC0415  few plans have bars
        front_pieces,
        printable,
    )

    passage, speech = printable(bars.passage, desk), desk.speech
    lines = [*enumerate(bars.lines.drills, start=first)]
    name = piece_name(bars.deadline, passage.title, speech)
    title, *rest = front_pieces(passage, lines, 0, desk)
    yield replace(title, marks=(Mark(name, 0),), running=name)
    said = how_to_play_the_bars(bars.deadline, speech)
    look = Look(desk.layout.text.title_pt)
    yield heading(said, look, desk.sheet.column, desk, desk.layout.passage.music_gap_mm)
    yield from (replace(piece, marks=()) for piece in rest)
