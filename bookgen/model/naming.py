"""The names of a drill's notes by their stops; of a shift, those of both places together."""

from collections.abc import Iterator, Mapping, Sequence
from functools import lru_cache
from itertools import product
from typing import Final

from bookgen.model.instrument import Instrument
from bookgen.model.pitch import Pitch
from bookgen.model.spacing import Frame
from bookgen.model.spelling import Fingered, cost, letter_steps, spell, spellings
from bookgen.model.stop import Stop
from bookgen.model.units import Semitones, StringNumber

Names = Mapping[Stop, Pitch]

LETTERS: Final = ((0,), (1,), (1,), (2,), (2,), (3,), (3, 4), (4,), (5,), (5,), (6,), (6,))
"""Letters of a shift by its semitones within the octave: a minor second, a major second and so on;
a tritone is an augmented fourth or a diminished fifth (common practice)."""

OCTAVE: Final = 12
OCTAVE_LETTERS: Final = 7


def names_of(
    instrument: Instrument, frame: Frame, place: Semitones, strings: Sequence[StringNumber]
) -> Names:
    """Name the notes of a frame on strings, at its place and where it shifts to.

    A shift is named by the usual interval of its semitones: what one finger plays before and
    after it is a minor second, a major second and so on. Of the names of the first note that one
    is taken which is the easiest to read over both places, by the rules of `spell`. Where even
    the best has something double, the upper place may be named by a letter more or less.
    """
    if not frame.shift:
        pitches = spell(instrument, frame, place, strings).pitches
        return laid(pitches, frame, place)
    return shifted(instrument, frame, place, tuple(strings))


@lru_cache(maxsize=4096)
def shifted(
    instrument: Instrument, frame: Frame, place: Semitones, strings: tuple[StringNumber, ...]
) -> Names:
    """The names of both places of a shift."""
    plain = tuple(spacing.letters for spacing in frame.spacings)
    octaves, rest = divmod(frame.shift, OCTAVE)
    usual = [letters + OCTAVE_LETTERS * octaves for letters in LETTERS[rest]]
    found = list(both(instrument, frame, place, strings, plain, usual))
    if not found or any(min(map(effort, found))[:2]):
        near = [*usual, usual[0] - 1, usual[-1] + 1]
        for steps in product(*map(letter_steps, frame.spacings)):
            found += both(instrument, frame, place, strings, steps, near)
    below, above = min(found, key=effort)
    return laid(below, frame, place) | laid(above, frame, Semitones(place + frame.shift))


Both = tuple[Mapping[Fingered, Pitch], Mapping[Fingered, Pitch]]
"""The names at the lower place and at the upper one."""


def both(
    instrument: Instrument,
    frame: Frame,
    place: Semitones,
    strings: tuple[StringNumber, ...],
    steps: tuple[int, ...],
    shifts: Sequence[int],
) -> Iterator[Both]:
    """All namings of both places that follow from a name of the first note.

    steps: letters between neighbouring fingers of the frame; shifts: letters from the lower place
        to the upper one, each tried in turn.
    """
    for below in spellings(instrument, frame, place, strings, steps):
        for letters in shifts:
            try:
                yield (
                    below,
                    {fingered: pitch.up(letters, frame.shift) for fingered, pitch in below.items()},
                )
            except ValueError:  # more than two accidentals: this name cannot be written
                continue


def effort(names: Both) -> tuple[int, ...]:
    """What makes both namings hard to read, hardest first."""
    return tuple(map(sum, zip(*map(cost, names), strict=True)))


def laid(pitches: Mapping[Fingered, Pitch], frame: Frame, place: Semitones) -> dict[Stop, Pitch]:
    """Names by string and finger as names by stops."""
    return {
        Stop(string, finger, Semitones(place + frame.offset(finger))): pitch
        for (string, finger), pitch in pitches.items()
    }
