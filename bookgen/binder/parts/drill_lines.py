"""What is engraved of a drill in a width: how much of it, on how many lines."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Final

from bookgen.binder.page.desk import Desk
from bookgen.binder.page.paper import NoRoomError
from bookgen.binder.page.signs import RETURN_MM
from bookgen.binder.parts.block.measured import called
from bookgen.errors import told
from bookgen.model.event import Begins
from bookgen.model.music import mirrors, turn_of
from bookgen.notation.drill_score import DrillScore, Written
from bookgen.notation.label import Labels, labels_of
from bookgen.plan.document import DrillEntry
from bookgen.plan.music import music_of


def score_of(
    entry: DrillEntry, room: float, desk: Desk, ways: Sequence[Written]
) -> DrillScore | None:
    """What is engraved of a drill in that width; None where no way to write it has room.

    Where the way back mirrors the way up, only the way up.

    ways: to write a drill that has a way back of its own, the first one that has room is taken.
    """
    block, instrument = desk.layout.block, desk.instrument
    drill = entry.drill
    for written in [Written.UP] if mirrors(drill, instrument) else ways:
        width = room - RETURN_MM * (written is Written.UP)
        score = DrillScore(drill, width, written, music_of(entry))
        lines = lines_of(score, desk)
        if max(line_mm(line, desk) for line in lines) <= score.width_mm:
            notes = max(len(line) for line in lines)
            most = block.clef_mm + block.most_note_mm * notes
            return replace(score, width_mm=min(score.width_mm, most))
    return None


def cut_score(entry: DrillEntry, room: float, desk: Desk) -> DrillScore:
    """What is engraved of a drill with so many notes that each way takes several lines.

    The engraver breaks them between two layings of the hand.

    Raises:
        NoRoomError: a line has no room for one laying of the hand.
    """
    written = Written.UP if mirrors(entry.drill, desk.instrument) else Written.TWO_LINES
    width = room - RETURN_MM * (written is Written.UP)
    score = DrillScore(entry.drill, width, written, music_of(entry))
    labels = labels_of(score.events(desk.instrument), desk.instrument)
    laid = [at for at, label in enumerate(labels) if at and label.begins is not Begins.NOTHING]
    groups = [labels[start:end] for start, end in pairwise([0, *laid, len(labels)])]
    needs = max(line_mm(group, desk) for group in groups)
    if needs > score.width_mm:
        part = told("{drill}: its music", drill=called(entry.number))
        raise NoRoomError(part, needs, score.width_mm, wide=True)
    return score


def lines_of(score: DrillScore, desk: Desk) -> list[Sequence[Labels]]:
    """What stands on each line of a drill's music."""
    two_lines = score.written is Written.TWO_LINES
    events = score.events(desk.instrument)
    labels = labels_of(events, desk.instrument, two_lines=two_lines)
    turn = turn_of(events)
    return [labels[:turn], labels[turn:]] if two_lines else [labels]


def line_mm(line: Sequence[Labels], desk: Desk) -> float:
    """The least width of a line of music (measured: lines are as wide or narrower)."""
    block = desk.layout.block
    texts = [label.within or (label.move.text if label.move else "") for label in line]
    long = sum(len(text) > SHORT_LABEL for text in texts)
    pairs = sum(PAIR_SIGN in label.strings for label in line)
    notes = len(line) + WIDE_LABEL * long + WIDE_PAIR * pairs + LINE_END * line[-1].ends_line
    return block.clef_mm + block.note_mm * notes


SHORT_LABEL: Final = 2
PAIR_SIGN: Final = "+"
WIDE_LABEL: Final = 0.16
WIDE_PAIR: Final = 0.7
LINE_END: Final = 0.6
"""What a longer label than P4 takes more, the numerals of two strings, and a move that leads on
from the end of a line, of the room of a note."""
