"""The teacher's answers: the intervals of each drill from string to string, by number."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from bookgen.binder.page.flow import flow
from bookgen.binder.page.frame import Frame
from bookgen.binder.page.leaf import Leaf, leaf_of, leaf_under
from bookgen.binder.page.piece import Mark, Piece, Room
from bookgen.binder.page.prose import Look, piece_of, words_of
from bookgen.binder.parts.drills import Setting
from bookgen.binder.parts.index import HANG_MM, OVER_WHITE_MM, columns_of
from bookgen.plan.document import DrillEntry, EventEntry
from bookgen.words import supplement as words
from bookgen.words.front import answers_title
from bookgen.words.names import interval_label

BETWEEN_MM = 1.0


def answer_leaves(settings: Sequence[Setting], frame: Frame) -> list[Leaf]:
    """The pages of the answers."""
    desk = frame.desk
    title, look = answers_title(desk.speech), Look(desk.layout.text.body_pt)
    intro = piece_of([words_of(words.interval_answers(desk.speech), look, desk.sheet.column, desk)])
    over = replace(intro, marks=(Mark(title, 0),))
    high = over.height + OVER_WHITE_MM
    count, gap, width = columns_of(desk)

    def room(page: int) -> Room:
        return Room(count, width, gap, frame.room - (0.0 if page else high))

    first, *rest = flow([*pieces_of_answers(settings, width, frame)], room)
    begun = leaf_under([over], leaf_of(first, frame.top - high, title), frame.top)
    return [begun, *(leaf_of(page, frame.top, title) for page in rest)]


def pieces_of_answers(settings: Sequence[Setting], width: float, frame: Frame) -> Iterator[Piece]:
    """A piece for each drill."""
    desk = frame.desk
    look = Look(desk.layout.text.body_pt, above=BETWEEN_MM, hang=HANG_MM)
    for setting in settings:
        up, back = heard(setting.entry)
        said = [[interval_label(label, desk.speech) for label in way] for way in (up, back)]
        shown = words.interval_answer(
            setting.entry.number, said[0], [] if setting.turns else said[1], desk.speech
        )
        yield piece_of([words_of(shown, look, width, desk)])


def heard(entry: DrillEntry) -> tuple[list[str], list[str]]:
    """The intervals between two strings on the way up, and on the way back."""
    turn = next(
        (at for at, event in enumerate(entry.events) if event.begins == "turn"), len(entry.events)
    )
    return crossed(entry.events[:turn]), crossed(entry.events[turn:])


def crossed(events: Sequence[EventEntry]) -> list[str]:
    """The intervals of a way that lie between two strings."""
    found = (event.within or (event.from_previous if event.crosses else None) for event in events)
    return [label for label in found if label is not None]
