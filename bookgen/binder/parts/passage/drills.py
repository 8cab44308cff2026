"""The drills that lead to a passage: by their numbers, or by letters where nobody keeps numbers."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from string import ascii_lowercase

from bookgen.binder.page.desk import Desk
from bookgen.binder.page.piece import Mark, Piece
from bookgen.binder.page.prose import Look, piece_of, words_of
from bookgen.binder.parts.block.words import BlockWords, words_of_drill
from bookgen.binder.parts.drills import DrillPiece
from bookgen.plan.document import DrillEntry, Plan
from bookgen.plan.passage import Ladder, Passage
from bookgen.words import passage as headings
from bookgen.words import passage_ladders as words


def entries_of(passage: Passage) -> list[DrillEntry]:
    """The drills in the order in which they lead to the passage."""
    return [entry for _, _, entry in passage.plan.items()] if passage.plan else []


def labels_of(passage: Passage) -> Mapping[int, str]:
    """What is printed for the number of each drill: itself, or a letter where no log keeps it."""
    entries = entries_of(passage)
    if passage.plan is not None and passage.plan.player is None:
        return {entry.number: letter(at) for at, entry in enumerate(entries)}
    return {entry.number: str(entry.number) for entry in entries}


def letter(index: int) -> str:
    """A small letter for a drill.

    >>> letter(0), letter(25), letter(26)
    ('a', 'z', 'aa')
    """
    rounds, rest = divmod(index, len(ascii_lowercase))
    return (letter(rounds - 1) if rounds else "") + ascii_lowercase[rest]


def words_of_entries(passage: Passage, plan: Plan, desk: Desk) -> list[BlockWords]:
    """The words of every drill; those with letters have no box."""
    labels = labels_of(passage)
    found: list[BlockWords] = []
    hands: dict[tuple[object, ...], DrillEntry] = {}
    for entry in entries_of(passage):
        drill, to = entry.drill, plan.linked(entry)
        said = words_of_drill(entry, drill, None, desk, boxes=int(plan.player is not None))
        hand = drill.frame, drill.place, drill.strings
        before = hands.get(hand) if to is None else None
        link = (
            words.link_words(entry.link, drill, to, labels, desk.speech)
            if before is None
            else words.same_hand(labels[before.number], before.drill, drill, desk.speech)
        )
        hands[hand] = entry
        found.append(replace(said, link=link, label=labels[entry.number]))
    return found


def labels_in(ladder: Ladder, passage: Passage) -> list[str]:
    """What is printed for the drills of a ladder."""
    labels = labels_of(passage)
    numbers = {entry.drill: entry.number for entry in entries_of(passage)}
    return [labels[numbers[drill]] for drill in ladder.drills]


def drill_pieces(
    passage: Passage, drills: Mapping[int, DrillPiece], desk: Desk, width: float
) -> Iterator[Piece]:
    """The drills of the spots, then those of each frame that is wanted under its letter.

    drills: by their numbers; width: of a column.
    """
    if not drills:
        return
    head = headings.headings(desk.speech)["drills"]
    numbers = {entry.drill: entry.number for entry in entries_of(passage)}
    done: set[int] = set()
    for ladder in passage.ladders:
        new = [numbers[drill] for drill in ladder.drills if numbers[drill] not in done]
        if ladder.letter:
            said = words.frame_title(ladder, labels_in(ladder, passage), desk.speech)
            look = Look(desk.layout.text.body_pt, above=desk.layout.flow.between_mm)
            title = piece_of([words_of(said, look, width, desk)])
            yield replace(title, keeps=bool(new))
        yield from opened([drills[number] for number in new], head, first=not done)
        done.update(new)


def opened(pieces: Sequence[DrillPiece], head: str, *, first: bool) -> Iterator[DrillPiece]:
    """Drills, of which the first of all is in the outline under their heading."""
    for at, piece in enumerate(pieces):
        marks = (Mark(head, 0), *piece.marks) if first and at == 0 else piece.marks
        yield replace(piece, marks=marks, running=head, most_extra=0.0)
