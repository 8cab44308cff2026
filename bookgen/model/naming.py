"""The names of a drill's notes by their stops; of a shift, those of both places together."""

from collections.abc import Iterator, Mapping, Sequence
from functools import lru_cache
from itertools import product
from typing import Final

from bookgen.model.instrument import Instrument
from bookgen.model.interval import Interval
from bookgen.model.pitch import Pitch
from bookgen.model.spacing import Frame
from bookgen.model.spelling import Cost, Fingered, cost, letter_steps, spell, spellings
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
    is taken which is the easiest to read over both places, by the rules of `spell`; what two
    fingers play one after the other at one spot has one name, and a fifth is called a fifth. Where
    no naming has all of that, half steps may keep their letter, and as few fingers as can be shift
    by another interval.
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
    upper = Semitones(place + frame.shift)

    def cost_of(names: Both) -> tuple[int, ...]:
        return effort(names, frame)

    found = [*in_step(instrument, frame, place, strings)]
    if not found or any(min(map(cost_of, found))[:3]):
        found += product(
            every_way(instrument, frame, place, strings),
            every_way(instrument, frame, upper, strings),
        )
    (below, _), (above, _) = min(found, key=cost_of)
    return laid(below, frame, place) | laid(above, frame, upper)


Weighed = tuple[Mapping[Fingered, Pitch], Cost]
"""The names at one place, and how hard they are to read."""

Both = tuple[Weighed, Weighed]
"""The names at the lower place and at the upper one."""


def in_step(
    instrument: Instrument, frame: Frame, place: Semitones, strings: Sequence[StringNumber]
) -> Iterator[Both]:
    """All namings in which every finger shifts by the usual interval."""
    plain = tuple(spacing.letters for spacing in frame.spacings)
    for below in spellings(instrument, frame, place, strings, plain):
        for letters in usual_letters(frame.shift):
            try:
                above = {at: name.up(letters, frame.shift) for at, name in below.items()}
            except ValueError:  # more than two accidentals: this name cannot be written
                continue
            yield weighed(below), weighed(above)


def every_way(
    instrument: Instrument, frame: Frame, place: Semitones, strings: Sequence[StringNumber]
) -> Iterator[Weighed]:
    """All namings at one place, half steps also with one letter."""
    for steps in product(*map(letter_steps, frame.spacings)):
        yield from map(weighed, spellings(instrument, frame, place, strings, steps))


def weighed(names: Mapping[Fingered, Pitch]) -> Weighed:
    """Names with what they cost: at each place they stand beside many of the other place."""
    return names, cost(names)


def usual_letters(shift: Semitones) -> tuple[int, ...]:
    """Letters by which a shift may go."""
    octaves, rest = divmod(shift, OCTAVE)
    return tuple(letters + OCTAVE_LETTERS * octaves for letters in LETTERS[rest])


def effort(names: Both, frame: Frame) -> tuple[int, ...]:
    """What makes both namings hard to read, hardest first."""
    (below, low), (above, high) = names
    double, altered, *others = map(sum, zip(low, high, strict=True))
    shift = two_names(below, above, frame), misnamed(below, above, frame)
    return double, *shift, altered, out_of_step(below, above, frame), *others


def two_names(
    below: Mapping[Fingered, Pitch], above: Mapping[Fingered, Pitch], frame: Frame
) -> int:
    """Spots at which a finger before the shift and one after it have different names."""
    heights = {int(frame.offset(finger)): finger for finger in frame.fingers}
    met = {
        finger: heights[at - frame.shift]
        for at, finger in heights.items()
        if at - frame.shift in heights
    }
    return sum(
        pitch != above[string, met[finger]]
        for (string, finger), pitch in below.items()
        if finger in met
    )


def misnamed(below: Mapping[Fingered, Pitch], above: Mapping[Fingered, Pitch], frame: Frame) -> int:
    """Shifts on one string that are no tritone but called augmented or diminished."""
    return sum(
        Interval.between(pitch, above[string, other]).misnamed
        for (string, _), pitch in below.items()
        for other in frame.fingers
    )


def out_of_step(
    below: Mapping[Fingered, Pitch], above: Mapping[Fingered, Pitch], frame: Frame
) -> int:
    """Fingers that do not shift by the usual interval, on each string."""
    usual = usual_letters(frame.shift)
    return sum(above[at].degree - pitch.degree not in usual for at, pitch in below.items())


def laid(pitches: Mapping[Fingered, Pitch], frame: Frame, place: Semitones) -> dict[Stop, Pitch]:
    """Names by string and finger as names by stops."""
    return {
        Stop(string, finger, Semitones(place + frame.offset(finger))): pitch
        for (string, finger), pitch in pitches.items()
    }
