"""What sounds at one moment of a drill: a note, or two on neighbouring strings."""

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from bookgen.errors import RefusedError
from bookgen.model.spacing import STAYS
from bookgen.model.stop import Note
from bookgen.model.units import Semitones


class Begins(StrEnum):
    """What an event opens."""

    NOTHING = ""
    GROUP = "group"
    TURN = "turn"


@dataclass(frozen=True, slots=True)
class Event:
    """One moment of a drill.

    notes: one, or two on neighbouring strings; the note that came first stands first.
    duration: part of a whole note.
    from_previous: interval label from the last note before to the new note here, or None
        where nothing new is played (a held note left alone) or nothing came before.
    within: interval label of the two notes that sound together.
    crosses: the new note lies on another string than the last note before it.
    begins: a new group of the hand, or the way back.
    shifts: semitones that the hand has moved for the new note, to its other place; down is
        negative, and 0 is where it stays.
    """

    notes: tuple[Note, ...]
    duration: Fraction
    from_previous: str | None
    crosses: bool
    within: str | None = None
    begins: Begins = Begins.NOTHING
    shifts: Semitones = STAYS

    def __post_init__(self) -> None:
        """Refuse what no bow sounds at one moment.

        Raises:
            RefusedError: there is no note or more than two, or two strings are no neighbours.
        """
        if len(self.notes) not in {1, 2}:
            raise RefusedError("event-notes", count=len(self.notes))
        strings = [note.stop.string for note in self.notes]
        if len(strings) > 1 and abs(strings[0] - strings[1]) != 1:
            raise RefusedError("event-strings", strings=strings)
