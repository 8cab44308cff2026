"""The passage to which a chapter leads: its bars, its hands, its hard spots with their drills."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from bookgen.binder.page.canvas import Face
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.piece import Piece
from bookgen.binder.page.prose import Look, heading
from bookgen.binder.parts.bars import Bars
from bookgen.binder.parts.passage_front import front_pieces, printable
from bookgen.binder.parts.passage_spots import spot_pieces
from bookgen.model.drill import Drill
from bookgen.notation.engraved import Engraving
from bookgen.plan.document import DrillEntry, Plan
from bookgen.words.passage import headings
from bookgen.words.passage_ladders import link_words, same_hand

if TYPE_CHECKING:
    from bookgen.model.spacing import Frame

ABOVE_MM: Final = 5.0
BELOW_MM: Final = 1.0
"""White around the name of a part of the chapter."""


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
    for piece in spot_pieces(passage, labels, spots, desk, column):
        yield replace(piece, marks=(), running="")


def links_in(plan: Plan, desk: Desk) -> dict[int, str]:
    """What drills are like that lead to a passage and are like no other but for one thing.

    The nearest earlier one of the same hand is named, where there is one.
    """
    book = plan.binding.supplement if plan.binding else None
    led = {one for each in (book.chapters if book else ()) if each.piece for one in each.numbers}
    found: dict[int, str] = {}
    hands: dict[tuple[Frame, int], DrillEntry] = {}
    for entry in plan.drills:
        drill = entry.drill
        before = hands.get((drill.frame, drill.place))
        hands[drill.frame, drill.place] = entry
        if entry.number not in led or entry.link.to is not None:
            continue
        found[entry.number] = (
            same_hand(str(before.number), before.drill, drill, desk.speech)
            if before
            else link_words(entry.link, drill, None, {}, desk.speech)
        )
    return found


def music_of(bars: Sequence[Bars]) -> list[Engraving]:
    """What is engraved of passages: of each its lines, then its hard spots."""
    return [music for one in bars for music in (one.lines, one.spots)]


def starts(bars: Sequence[Bars], drills: int) -> list[int]:
    """Which of all that is engraved the first line of each passage is; drills stand before."""
    found = [drills]
    for one in bars:
        found.append(found[-1] + len(one.lines.drills) + len(one.spots.drills))
    return found[:-1]
