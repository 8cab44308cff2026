"""What is heard between instruments whose hands lie at one place, each on strings of its own."""

from collections.abc import Sequence
from itertools import combinations
from typing import Final

from bookgen.model.instrument import Instrument
from bookgen.model.units import StringNumber

OCTAVE: Final = 12

LABELS: Final = {0: "P8", 3: "m3", 4: "M3", 5: "P4", 7: "P5", 8: "m6", 9: "M6"}
"""The consonances by their semitones without octaves (common practice); all else is dissonant."""


def sounds_between(
    instruments: Sequence[Instrument], runs: Sequence[Sequence[StringNumber]]
) -> tuple[tuple[int, ...], ...]:
    """Semitones without octaves between any two instruments, string by string.

    runs: as many strings of each instrument.
    """
    sounding = [
        [one.sounding_pitch(one.open_pitch(string)).midi for string in run]
        for one, run in zip(instruments, runs, strict=True)
    ]
    return tuple(
        tuple(abs(high - low) % OCTAVE for low, high in zip(*two, strict=True))
        for two in combinations(sounding, 2)
    )
