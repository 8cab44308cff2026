"""The ear's check: which open string a stopped note rings with, or is tuned against."""

from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from bookgen.model.instrument import Instrument
from bookgen.model.interval import Interval
from bookgen.model.stop import Note
from bookgen.model.units import StringNumber

EASY: Final = ("P1", "P8", "P5", "P4", "P15", "P22")
"""Checks from the easiest to the hardest to hear (common practice)."""

RINGING: Final = ("P1", "P8", "P15", "P22")
"""A stopped note makes an open string of its own name sound along; fifths and fourths are
heard against the open string next to it (common practice)."""


@dataclass(frozen=True, slots=True)
class EarCheck:
    """A stopped note and the open string that proves it.

    interval: label between the two; on another string unison and octaves ring along by
        themselves, on the same one they are compared; fourths and fifths are bowed together
        with the open neighbour.
    """

    note: Note
    open_string: StringNumber
    interval: str

    @property
    def rings(self) -> bool:
        """The open string sounds along without being bowed; a stopped string cannot."""
        return self.interval in RINGING and self.open_string != self.note.stop.string


@lru_cache(maxsize=4096)
def ear_check(note: Note, instrument: Instrument) -> EarCheck | None:
    """The best open-string check of one note, or None where there is none.

    Unison first, then the octave, then a pure fifth or fourth with an open neighbour, then two
    and three octaves; the nearest other string before the stopped one, which is silent itself
    while it is stopped.
    """
    here = note.stop.string
    others = [string for string in instrument.string_numbers() if string != here]
    labels = {
        string: Interval.between(instrument.open_pitch(string), note.pitch)
        for string in (*others, here)
    }
    for wanted in EASY:
        for string in sorted(labels, key=lambda string: (string == here, abs(string - here))):
            near = wanted in RINGING or abs(string - here) == 1
            if near and labels[string] == Interval.parse(wanted):
                return EarCheck(note, string, wanted)
    return None
