"""What a note is called that may be raised or lowered: each of its usual names."""

from collections.abc import Iterator
from typing import Final

from bookgen.model.pitch import LETTERS, SEMITONES_ABOVE_C, Pitch

OCTAVE: Final = 12


def names_at(midi: int) -> tuple[Pitch, ...]:
    """The natural name of a note, or the raised and the lowered one of its neighbours.

    midi: its number by MIDI 1.0.

    >>> [str(pitch) for pitch in (*names_at(69), *names_at(70))]
    ['A4', 'A#4', 'Bb4']
    """
    found = dict(named(midi))
    return (found[0],) if 0 in found else (found[1], found[-1])


def named(midi: int) -> Iterator[tuple[int, Pitch]]:
    """The names with one accidental at most, each with its accidental."""
    for accidental in (0, 1, -1):
        octave, above = divmod(midi - accidental, OCTAVE)
        for letter in LETTERS:
            if SEMITONES_ABOVE_C[letter] == above:
                yield accidental, Pitch(letter, accidental, octave - 1)
