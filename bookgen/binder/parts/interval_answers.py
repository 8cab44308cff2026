"""The teacher's answers: the intervals of each drill from string to string, by number."""

from collections.abc import Iterator, Sequence

from bookgen.binder.page.frame import Frame
from bookgen.binder.page.leaf import Leaf
from bookgen.binder.page.piece import Piece
from bookgen.binder.page.prose import Look, piece_of, words_of
from bookgen.binder.parts.drills import Setting
from bookgen.binder.parts.index import HANG_MM, listed_leaves
from bookgen.binder.structure.tag import Role, Tag, item
from bookgen.plan.document import DrillEntry, EventEntry
from bookgen.words import supplement as words
from bookgen.words.front import answers_title
from bookgen.words.names import interval_label

BETWEEN_MM = 1.0


def answer_leaves(settings: Sequence[Setting], frame: Frame) -> list[Leaf]:
    """The pages of the answers."""
    speech = frame.desk.speech
    return listed_leaves(
        answers_title(speech),
        words.interval_answers(speech),
        lambda width: pieces_of_answers(settings, width, frame),
        frame,
    )


def pieces_of_answers(settings: Sequence[Setting], width: float, frame: Frame) -> Iterator[Piece]:
    """A piece for each drill."""
    desk = frame.desk
    look = Look(desk.layout.text.body_pt, above=BETWEEN_MM, hang=HANG_MM)
    listed = Tag(Role.LIST)
    for setting in settings:
        up, back = heard(setting.entry)
        said = [[interval_label(label, desk.speech) for label in way] for way in (up, back)]
        shown = words.interval_answer(
            setting.entry.number, said[0], [] if setting.turns else said[1], desk.speech
        )
        yield piece_of([words_of(shown, look, width, desk, item(listed))])


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
