"""The ear's check: which open string a stopped note rings with, or is tuned against."""

from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from bookgen.model.instrument import Instrument
from bookgen.model.interval import Interval
from bookgen.model.stop import Note
from bookgen.model.units import StringNumber

RINGING: Final = ("P1", "P8", "P15")
"""A stopped note makes an open string of its own name sound along (common practice), up to the
fourth partial of the lower one. The n-th partial of a bowed string pulls with 1/n of the first
(Helmholtz, On the Sensations of Tone, chapter V; computed: the fourth lies 12 dB below it, the
eighth 18 dB). The limit is our own choice between the two.
"""

PERFECT: Final = ("P1", "P8", "P5", "P4", "P15")
"""Checks against an open string by which a note has one height, the easiest to hear first."""

EASY: Final = (*PERFECT, "P12", "P11", "M6", "M3", "m6", "m3", "M10", "m10")
"""All checks, from the easiest to the hardest to hear: sixths and thirds come late, and by them a
note stands a comma away from where fifths put it (common practice)."""


@dataclass(frozen=True, slots=True)
class EarCheck:
    """A stopped note and the open string that proves it.

    interval: label of what is heard between the two, however the note is spelled. Unison and
        octaves ring along by themselves; all others are bowed together with the open neighbour.
    """

    note: Note
    open_string: StringNumber
    interval: str

    @property
    def rings(self) -> bool:
        """The open string sounds along without being bowed."""
        return self.interval in RINGING


@lru_cache(maxsize=4096)
def ear_check(note: Note, instrument: Instrument) -> EarCheck | None:
    """The best check of one note by another open string, or None where none proves it.

    The stopped string itself is silent. Of two strings that prove a note by one interval the
    nearer comes first.
    """
    here = note.stop.string
    others = [string for string in instrument.string_numbers() if string != here]
    others.sort(key=lambda string: abs(string - here))
    for wanted in EASY:
        size = Interval.parse(wanted).semitones
        for string in others:
            near = wanted in RINGING or abs(string - here) == 1
            if near and abs(note.pitch.midi - instrument.open_pitch(string).midi) == size:
                return EarCheck(note, string, wanted)
    return None
