"""Spelled pitch: a letter, an accidental and an octave, apart from how it is played."""

import re
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Final, Self

from bookgen.errors import RefusedError
from bookgen.model.units import Hertz, Semitones

LETTERS: Final = "CDEFGAB"
SEMITONES_ABOVE_C: Final = dict(zip(LETTERS, (0, 2, 4, 5, 7, 9, 11), strict=True))
STANDARD_A4_HZ: Final = 440.0  # ISO 16:1975
MIDI_A4: Final = 69  # MIDI 1.0, note numbers
MOST_ACCIDENTALS: Final = 2
OCTAVES: Final = range(-1, 10)  # MIDI 1.0, notes 0 to 127
SPELLING: Final = re.compile(r"(?P<letter>[A-G])(?P<accidental>##?|bb?|)(?P<octave>-1|[0-9])")


@dataclass(frozen=True, slots=True)
class Pitch:
    """A note by its name.

    letter: one of C D E F G A B.
    accidental: semitones by which the letter is raised (+) or lowered (-), at most two.
    octave: scientific pitch notation, -1 to 9; octave 4 begins at middle C.
    """

    letter: str
    accidental: int
    octave: int
    degree: int = field(init=False, repr=False, compare=False)
    """Place on the staff: letters counted up from C0; kept, for names are weighed by millions."""
    midi: int = field(init=False, repr=False, compare=False)
    """MIDI note number; A4 is 69."""

    def __post_init__(self) -> None:
        """Refuse what no staff can show.

        Raises:
            RefusedError: an unknown letter or octave, or more than two accidentals.
        """
        if len(self.letter) != 1 or self.letter not in LETTERS:
            raise RefusedError("pitch-letter", letter=self.letter)
        if abs(self.accidental) > MOST_ACCIDENTALS:
            raise RefusedError("pitch-accidentals", letter=self.letter, count=abs(self.accidental))
        if self.octave not in OCTAVES:
            first, last = OCTAVES[0], OCTAVES[-1]
            raise RefusedError("pitch-octave", octave=self.octave, first=first, last=last)
        object.__setattr__(self, "degree", 7 * self.octave + LETTERS.index(self.letter))
        natural = 12 * (self.octave + 1) + SEMITONES_ABOVE_C[self.letter]
        object.__setattr__(self, "midi", natural + self.accidental)

    @classmethod
    def parse(cls, text: str) -> Self:
        """Read a scientific pitch name.

        >>> Pitch.parse("F#4").midi
        66

        Raises:
            RefusedError: the text is no pitch name, or has more than two accidentals.
        """
        match = SPELLING.fullmatch(text)
        if match is None:
            raise RefusedError("pitch-name", text=text)
        signs = match["accidental"]
        return cls(match["letter"], signs.count("#") - signs.count("b"), int(match["octave"]))

    def __str__(self) -> str:
        """Return the name that `parse` reads back."""
        return f"{self.name}{self.octave}"

    @property
    def name(self) -> str:
        """The name without the octave.

        >>> Pitch.parse("Bb3").name
        'Bb'
        """
        sign = "#" if self.accidental > 0 else "b"
        return f"{self.letter}{sign * abs(self.accidental)}"

    @property
    def hz(self) -> Hertz:
        """Equal-tempered frequency in hertz, from A4 = 440 Hz (ISO 16:1975)."""
        return Hertz(STANDARD_A4_HZ * 2.0 ** ((self.midi - MIDI_A4) / 12.0))

    def up(self, degrees: int, semitones: Semitones) -> "Pitch":
        """Return the pitch that many letters and semitones higher; both may be negative.

        >>> str(Pitch.parse("A3").up(1, Semitones(2)))
        'B3'

        Raises:
            RefusedError: the result would need more than two accidentals.
        """
        return pitch_at(self.degree + degrees, self.midi + semitones)


@lru_cache(maxsize=512)  # there are 385
def pitch_at(degree: int, midi: int) -> Pitch:
    """The pitch at a place on the staff that has a note number.

    Raises:
        RefusedError: it would need more than two accidentals, or lies outside the octaves.
    """
    octave, index = divmod(degree, 7)
    natural = Pitch(LETTERS[index], 0, octave)
    return Pitch(natural.letter, midi - natural.midi, octave)
