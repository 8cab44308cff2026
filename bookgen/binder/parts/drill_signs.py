"""What stands on a drill's staff and beside it that a page's key tells."""

from collections.abc import Iterator, Mapping
from typing import Final

from bookgen.binder.page.block_measures import Kind
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.signs import Sign
from bookgen.binder.parts.block.words import BlockWords
from bookgen.model.event import Event
from bookgen.model.finger import THUMB
from bookgen.model.instrument import NUMERALS
from bookgen.notation.drill_score import DrillScore, Written
from bookgen.notation.label import Shape, moves, rings
from bookgen.words import drill as words
from bookgen.words.marks import ENGLISH_MARKS

SHAPES: Final[Mapping[Shape, Sign]] = {
    Shape.HALF: Sign.HALF,
    Shape.WHOLE: Sign.WHOLE,
    Shape.WIDER: Sign.WIDER,
    Shape.UP: Sign.SHIFT,
}


ON_STAFF: Final = frozenset({Sign.RING, Sign.RETURN, *SHAPES.values()})
"""Signs that stand on the staff or beside it."""

OFF_STAFF: Final = frozenset(Sign) - ON_STAFF


def signs_of(score: DrillScore, said: BlockWords, desk: Desk, kind: Kind) -> frozenset[str]:
    """The signs of a drill's block, each of which the page's key tells.

    A book tells the intervals at its front, a sheet in its key.
    """
    events = score.events(desk.instrument)
    extended = desk.instrument.extension(score.drill.frame, score.drill.place) is not None
    shapes = {move.shape for move in moves(events, ENGLISH_MARKS) if move}
    found: dict[Sign, bool] = {
        Sign.ORDER: True,
        Sign.START: True,
        Sign.RING: any(rings(event, desk.instrument) for event in events),
        Sign.RETURN: score.written is Written.UP,
        Sign.BOX: bool(said.boxes),
        Sign.STRETCH: bool(said.stretch) and not extended,
        Sign.EXTENDED: extended,
        Sign.THUMB: THUMB in score.drill.frame.fingers,
        Sign.WAIT: said.waits,
        **{sign: shape in shapes for shape, sign in SHAPES.items()},
    }
    intervals = intervals_in(score, desk) if kind == "sheet" else set()
    return frozenset({sign for sign, there in found.items() if there} | intervals)


def intervals_in(score: DrillScore, desk: Desk) -> set[str]:
    """The labels of the intervals that are marked below a drill's staff, steps left out."""
    events = score.events(desk.instrument)
    found = {event.from_previous for event in events if event.shifts and event.from_previous}
    for event, before in crossings(score, desk):
        label = event.within or event.from_previous
        if label and (event.within or before is not None):
            found.add(label)
    return found


def crossings(score: DrillScore, desk: Desk) -> Iterator[tuple[Event, Event | None]]:
    """The events that are crossings or double stops, each with the event before it."""
    before: Event | None = None
    for event in score.events(desk.instrument):
        if event.within or (event.crosses and before is not None):
            yield event, before
        before = event


def crossings_in(score: DrillScore, desk: Desk) -> tuple[str, ...]:
    """The strings of each interval that is to be named, in the order of play.

    A step on one string is told by the title.
    """
    found = []
    for event, before in crossings(score, desk):
        strings = [note.stop.string for note in event.notes]
        if not event.within and before is not None:
            strings = [before.notes[-1].stop.string, *strings]
        found.append(words.crossing_words([NUMERALS[string] for string in strings]))
    return tuple(found)
