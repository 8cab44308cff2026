"""Where the sounds of a phrase stand: by bar, and in time."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from bookgen.model.phrase import Phrase, Sound

Place = tuple[int, int]
"""Index of a bar in the phrase, and of a sound in the bar."""


@dataclass(frozen=True, slots=True)
class Timed:
    """A sound with its beginning and its end, in whole notes from the beginning of the phrase."""

    place: Place
    sound: Sound
    start: Fraction
    end: Fraction


def places(phrase: Phrase) -> list[Place]:
    """Where the sounds of a phrase stand, in the order of time."""
    bars = enumerate(phrase.bars)
    return [(index, sound) for index, bar in bars for sound in range(len(bar.sounds))]


def sound_at(phrase: Phrase, place: Place) -> Sound:
    """The sound there."""
    return phrase.bars[place[0]].sounds[place[1]]


def timed(phrase: Phrase) -> Iterator[Timed]:
    """The sounds of a phrase in time; grace notes, which have none, are left out."""
    begins = Fraction(0)
    for number, bar in enumerate(phrase.bars):
        for index, sound in enumerate(bar.sounds):
            start = begins + sound.at
            if not sound.grace:
                yield Timed((number, index), sound, start, start + sound.duration)
        begins += bar.length
