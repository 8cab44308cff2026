"""The trade's label of a place on the string: half, 1st, 2nd and so on."""

from dataclasses import dataclass
from typing import Final

from bookgen.errors import RefusedError
from bookgen.model.finger import THUMB
from bookgen.model.pitch import Pitch
from bookgen.model.units import Semitones

HAND: Final = 4
"""Fingers of the left hand."""

LETTERS: Final = (0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6)
"""Letters above the open string that a place is called by, by semitones within the octave.

Where two letters share a place, a position has both: its low and its high form stand a half step
apart. The tritone and the major seventh are called by the lower letter, as sharps (own choice
between the two that Grove gives).
"""

OCTAVE: Final = 12
OCTAVE_LETTERS: Final = 7

THUMB_POSITION: Final = "thumb"
"""The label of a hand whose thumb lies on the string."""

NUT: Final = Semitones(1)
"""The place beside the nut: there, and only there, finger 1 stands in half position."""


@dataclass(frozen=True, slots=True)
class LetterRule:
    """Violin and viola: letters from the open string to the note, less (finger - 1).

    Source: Grove, A Dictionary of Music and Musicians, 1900, 'Positions'.
    """

    def at(self, finger: int, place: Semitones) -> str:
        """Name the position of a finger by its place alone, however its note is spelled.

        place: semitones above the open string.

        >>> LetterRule().at(1, Semitones(6)), LetterRule().at(2, Semitones(3))
        ('3rd', '1st')
        """
        if finger == THUMB:
            return THUMB_POSITION
        octaves, rest = divmod(place, OCTAVE)
        letters = 0 if place == NUT else OCTAVE_LETTERS * octaves + LETTERS[rest]
        return position_code(letters - (finger - 1))

    def label(self, finger: int, place: Semitones, stopped: Pitch, open_string: Pitch) -> str:
        """Name the position of a finger by the letter it stops, as a written note tells it.

        finger: the finger that stops the note.
        place: semitones above the open string; the rule by letters does not need it.

        >>> LetterRule().label(1, Semitones(2), Pitch.parse("A3"), Pitch.parse("G3"))
        '1st'
        """
        del place
        return position_code(stopped.degree - open_string.degree - (finger - 1))


@dataclass(frozen=True, slots=True)
class TableRule:
    """Cello and bass: a label for each place of finger 1; sources differ, so it is data.

    labels: by semitones of finger 1 above the open string, from 1; the last one names
        every place above it too. Where the thumb lies on the string it is thumb position.
    fingers: semitones from finger 1 up to each of the four fingers in the closed hand.
    """

    labels: tuple[str, ...]
    fingers: tuple[int, ...]

    def __post_init__(self) -> None:
        """Refuse a table that leaves a finger or every place without a name.

        Raises:
            RefusedError: there is no label, or the fingers are not four, rising from 0.
        """
        if not self.labels:
            raise RefusedError("position-labels")
        fingers = list(self.fingers)
        if len(fingers) != HAND or fingers[0] != 0 or sorted(fingers) != fingers:
            raise RefusedError("position-fingers", fingers=str(fingers))

    def label(self, finger: int, place: Semitones, stopped: Pitch, open_string: Pitch) -> str:
        """Name the position by its place; names of notes have no say."""
        del stopped, open_string
        return self.at(finger, place)

    def at(self, finger: int, place: Semitones) -> str:
        """Name the position by the semitones at which finger 1 of the closed hand stands."""
        if finger == THUMB:
            return THUMB_POSITION
        first = max(place - self.fingers[finger - 1], 1)
        return self.labels[min(first, len(self.labels)) - 1]


PositionRule = LetterRule | TableRule


def position_code(number: int) -> str:
    """A position by its number, as plan documents and options write it.

    >>> [position_code(number) for number in (0, 1, 2, 3, 4, 11, 12, 13, 21)]
    ['half', '1st', '2nd', '3rd', '4th', '11th', '12th', '13th', '21st']
    """
    if number <= 0:
        return "half"
    if number % 100 in {11, 12, 13}:
        return f"{number}th"
    return f"{number}{ {1: 'st', 2: 'nd', 3: 'rd'}.get(number % 10, 'th') }"
