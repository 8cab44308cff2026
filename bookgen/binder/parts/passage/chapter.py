"""The passage to which a chapter leads: its bars, its hands, its hard spots with their drills."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Final

from bookgen.binder.page.canvas import Face
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.piece import Piece
from bookgen.binder.page.prose import Look, heading
from bookgen.binder.parts.passage.bars import Bars
from bookgen.binder.parts.passage.front import front_pieces, printable
from bookgen.binder.parts.passage.spots import spot_pieces
from bookgen.model.drill import Drill
from bookgen.notation.engraved import Engraving
from bookgen.words.passage import headings

ABOVE_MM: Final = 5.0
BELOW_MM: Final = 1.0
"""White around the name of a part of the chapter."""

SPOT_DEPTH: Final = 2
"""Of a spot's head, below that of its chapter and that of the spots."""


def passage_pieces(
    bars: Bars, numbers: Mapping[Drill, int], first: int, desk: Desk
) -> Iterator[Piece]:
    """The bars over the whole width, then the hard spots with the numbers of their drills.

    numbers: of all drills of the book; first: which of the engraving's the first line is.

    Raises:
        NoRoomError: a line of music or a chart has no room.
    """
    passage, column = printable(bars.passage, desk), desk.sheet.column
    lines = [*enumerate(bars.lines.drills, start=first)]
    spots = [*enumerate(bars.spots.drills, start=first + len(lines))]
    said, look = headings(desk.speech), Look(desk.layout.text.heading_pt, Face.BOLD, above=ABOVE_MM)
    drills = {drill for ladder in passage.ladders for drill in ladder.drills}
    for place, piece in enumerate(front_pieces(passage, lines, len(drills), desk)):
        yield replace(piece, marks=(), running="", above=piece.above if place else ABOVE_MM)
    labels = [
        [str(numbers[drill]) for drill in ladder.drills if drill in numbers]
        for ladder in passage.ladders
        if ladder.spot
    ]
    if spots:
        yield heading(said["spots"], look, column, desk, BELOW_MM)
    for piece in spot_pieces(passage, labels, spots, desk, column, SPOT_DEPTH):
        yield replace(piece, marks=(), running="")


def music_of(bars: Sequence[Bars]) -> list[Engraving]:
    """What is engraved of passages: of each its lines, then its hard spots."""
    return [music for one in bars for music in (one.lines, one.spots)]


def starts(bars: Sequence[Bars], drills: int) -> list[int]:
    """Which of all that is engraved the first line of each passage is; drills stand before."""
    found = [drills]
    for one in bars:
        found.append(found[-1] + len(one.lines.drills) + len(one.spots.drills))
    return found[:-1]
