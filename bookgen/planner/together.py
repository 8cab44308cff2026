"""On which strings several instruments play together, so that it sounds well."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product
from typing import Final

from bookgen.model.instrument import FEWEST_STRINGS, Instrument
from bookgen.model.together import LABELS, sounds_between
from bookgen.model.units import StringNumber
from bookgen.planner.area import string_sets

Strings = tuple[StringNumber, ...]


@dataclass(frozen=True, slots=True)
class Together:
    """Strings that are played together, the hands lying at one place.

    runs: of each instrument, from low to high, the first one's first.
    sounds: what is heard between any two of them, string by string, in semitones without octaves.
    """

    runs: tuple[Strings, ...]
    sounds: tuple[tuple[int, ...], ...]

    @property
    def rank(self) -> int:
        """Common strings first, then one interval all the way, then consonances; 3 is neither."""
        heard = {one for sounds in self.sounds for one in sounds}
        if heard <= {0}:
            return COMMON
        if heard <= {*LABELS}:
            return 1 if all(len(set(sounds)) == 1 for sounds in self.sounds) else WORST
        return WORST + 1


COMMON: Final = 0
WORST: Final = 2
"""Ranks: all play the same notes; the last one at which a class still sounds well."""


def together(instruments: Sequence[Instrument], fewest: int) -> tuple[Together, ...]:
    """The strings on which a class plays, one choice for each run of the first instrument.

    Common strings are taken where there are any, so that the class sounds in unison and octaves;
    else those on which it goes along in one interval, else in consonances, on the most strings.
    Nothing where every choice is dissonant.

    fewest: strings that a drill crosses at least, where so many are common.
    """
    every = [one for one in tried(instruments) if one.rank <= WORST]
    rank = min((one.rank for one in every), default=WORST)
    best = [one for one in every if one.rank == rank]
    most = max((len(one.runs[0]) for one in best), default=0)
    least = min(fewest, most) if rank == COMMON else most
    first = {one.runs[0]: one for one in reversed(best) if len(one.runs[0]) >= least}
    return tuple(first[run] for run in sorted(first, key=lambda run: (-len(run), run)))


def tried(instruments: Sequence[Instrument]) -> Iterator[Together]:
    """Every choice of as many neighbouring strings on each instrument."""
    for runs in product(*(string_sets(one, FEWEST_STRINGS) for one in instruments)):
        if len({len(run) for run in runs}) == 1:
            yield Together(runs, sounds_between(instruments, runs))
