"""A finger on a string, and the note that sounds there."""

from dataclasses import dataclass
from typing import Final

from bookgen.errors import RefusedError
from bookgen.model.finger import LEFT_HAND, OPEN, sign_of
from bookgen.model.pitch import Pitch
from bookgen.model.units import Semitones, StringNumber

FINGERS: Final = (OPEN, *LEFT_HAND)
"""The open string, the thumb and four fingers."""


@dataclass(frozen=True, slots=True, order=True)
class Stop:
    """One finger on one string at one place.

    string: 1 is the highest.
    finger: 1 to 4, or `THUMB`; 0 is the open string.
    semitones: above the open string; below it on a string that runs on behind the nut, where no
        finger stops it.
    """

    string: StringNumber
    finger: int
    semitones: Semitones

    def __post_init__(self) -> None:
        """Refuse a stop that no hand can play.

        Raises:
            RefusedError: an open string with a finger's height, a finger behind the nut, or a
                finger or string that there is not.
        """
        if self.finger not in FINGERS or self.string < 1:
            raise RefusedError("stop-none", finger=sign_of(self.finger), string=self.string)
        if (self.finger == OPEN) != (self.semitones <= 0):
            raise RefusedError("stop-place", finger=sign_of(self.finger), semitones=self.semitones)


@dataclass(frozen=True, slots=True)
class Note:
    """A stop with the pitch it gives.

    pitch: as written; on the double bass it sounds an octave lower.
    held: the finger and the sound stay from the event before.
    """

    stop: Stop
    pitch: Pitch
    held: bool = False
