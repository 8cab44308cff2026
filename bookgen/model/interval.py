"""The interval between two spelled pitches: quality and number."""

import re
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Final

from bookgen.errors import RefusedError
from bookgen.model.pitch import Pitch
from bookgen.model.units import Semitones

PERFECT: Final = frozenset({0, 3, 4})
NATURAL_SEMITONES: Final = (0, 2, 4, 5, 7, 9, 11)
PERFECT_QUALITIES: Final = {-2: "dd", -1: "d", 0: "P", 1: "A", 2: "AA"}
MAJOR_QUALITIES: Final = {-3: "dd", -2: "d", -1: "m", 0: "M", 1: "A", 2: "AA"}
USUAL: Final = frozenset("PMm")
OCTAVE: Final = 12
TRITONE: Final = 6
LABEL: Final = re.compile(r"(?P<quality>dd|d|m|P|M|A|AA)(?P<number>[1-9]\d?)")


@dataclass(frozen=True, slots=True)
class Interval:
    """A distance between two spelled pitches.

    degrees: letters from the lower to the higher note; a unison has 0.
    semitones: half steps from the lower to the higher note.
    """

    degrees: int
    semitones: Semitones
    quality: str | None = field(init=False, repr=False, compare=False)
    """d, P, m, M, A and so on; None where it is more than twice augmented or diminished."""

    def __post_init__(self) -> None:
        """Refuse an interval counted downwards.

        Raises:
            RefusedError: fewer letters than none, or a unison that falls.
        """
        if self.degrees < 0 or (self.degrees == 0 and self.semitones < 0):
            raise RefusedError("interval-downwards")
        quality = qualities(self.degrees % 7).get(self.alteration)
        object.__setattr__(self, "quality", quality)

    @classmethod
    def between(cls, one: Pitch, other: Pitch) -> "Interval":
        """Measure from the lower to the higher note, whichever comes first."""
        degrees, semitones = other.degree - one.degree, other.midi - one.midi
        if degrees < 0 or (degrees == 0 and semitones < 0):
            degrees, semitones = -degrees, -semitones
        return cls.of(degrees, Semitones(semitones))

    @classmethod
    @lru_cache(maxsize=1024)
    def of(cls, degrees: int, semitones: Semitones) -> "Interval":
        """The interval of that many letters and half steps, made once.

        Raises:
            RefusedError: it is counted downwards.
        """
        return cls(degrees, semitones)

    @classmethod
    @lru_cache(maxsize=1024)
    def parse(cls, label: str) -> "Interval":
        """Read an interval label.

        >>> Interval.parse("M10").semitones
        16

        Raises:
            RefusedError: the text is no interval label, or names an interval there is not.
        """
        match = LABEL.fullmatch(label)
        if match is not None:
            octaves, simple = divmod(int(match["number"]) - 1, 7)
            for alteration, quality in qualities(simple).items():
                if quality == match["quality"]:
                    semitones = 12 * octaves + NATURAL_SEMITONES[simple] + alteration
                    return cls(int(match["number"]) - 1, Semitones(semitones))
        raise RefusedError("interval-label", label=label)

    @property
    def alteration(self) -> int:
        """Semitones from the perfect or major interval of this number of letters."""
        octaves, simple = divmod(self.degrees, 7)
        return self.semitones - OCTAVE * octaves - NATURAL_SEMITONES[simple]

    @property
    def plain(self) -> bool:
        """Perfect, major, minor, or once augmented or diminished: nothing double."""
        return self.quality is not None and len(self.quality) == 1

    @property
    def misnamed(self) -> bool:
        """Called augmented or diminished, but has a plain name; a tritone has none."""
        return self.quality not in USUAL and self.semitones % OCTAVE != TRITONE

    @property
    def label(self) -> str:
        """Quality and number; compound intervals are written out.

        Raises:
            RefusedError: the interval is more than twice augmented or diminished.
        """
        if self.quality is None:
            raise RefusedError(
                "interval-nameless", letters=self.degrees + 1, semitones=self.semitones
            )
        return f"{self.quality}{self.degrees + 1}"


def qualities(simple_degrees: int) -> dict[int, str]:
    """Names of quality by semitones from the perfect or major interval of that size."""
    return PERFECT_QUALITIES if simple_degrees in PERFECT else MAJOR_QUALITIES


def interval_label(one: Pitch, other: Pitch) -> str:
    """Name the interval, whichever pitch is higher; compound ones are written out.

    >>> interval_label(Pitch.parse("B3"), Pitch.parse("E4"))
    'P4'
    >>> interval_label(Pitch.parse("C4"), Pitch.parse("E5"))
    'M10'

    Raises:
        RefusedError: the two are more than twice augmented or diminished apart.
    """
    return Interval.between(one, other).label
