"""Just and Pythagorean intervals, their cents, and the difference tone of a double stop."""

from fractions import Fraction
from math import log2, prod
from typing import Final

from bookgen.errors import RefusedError
from bookgen.model.interval import Interval
from bookgen.model.units import Cents, Hertz

JUST: Final = {
    "P1": Fraction(1),
    "m2": Fraction(16, 15),
    "M2": Fraction(9, 8),
    "A2": Fraction(75, 64),
    "m3": Fraction(6, 5),
    "M3": Fraction(5, 4),
    "P4": Fraction(4, 3),
    "A4": Fraction(45, 32),
    "d5": Fraction(64, 45),
    "P5": Fraction(3, 2),
    "m6": Fraction(8, 5),
    "M6": Fraction(5, 3),
    "m7": Fraction(9, 5),
    "M7": Fraction(15, 8),
    "P8": Fraction(2),
}
"""Frequency ratios of five-limit just intonation within the octave.

Source: H. von Helmholtz, On the Sensations of Tone, transl. A. J. Ellis, 2nd ed. 1885,
appendix XX, section D (table of intervals not exceeding one octave); from memory.
"""

CONSONANT: Final = frozenset({"m3", "M3", "P4", "P5", "m6", "M6", "P8"})
"""Intervals whose beats the ear can still: thirds, fourths, fifths, sixths, octave."""


def just_ratio(label: str) -> Fraction:
    """The just frequency ratio of an interval; compound ones double for each octave.

    >>> just_ratio("M10")
    Fraction(5, 2)

    Raises:
        RefusedError: the label is no interval, or one without a settled just ratio.
    """
    interval = Interval.parse(label)
    octaves = interval.degrees // 7 if label not in JUST else 0
    simple = f"{label.rstrip('0123456789')}{interval.degrees - 7 * octaves + 1}"
    if simple not in JUST:
        raise RefusedError("just-ratio", label=label)
    return JUST[simple] * Fraction(2**octaves)


def pythagorean_ratio(label: str) -> Fraction:
    """The ratio that pure fifths and octaves alone give.

    An interval of s semitones and d letters is 7s - 12d fifths and 7d - 4s octaves up.

    >>> pythagorean_ratio("M6")
    Fraction(27, 16)
    """
    interval = Interval.parse(label)
    fifths = 7 * interval.semitones - 12 * interval.degrees
    octaves = 7 * interval.degrees - 4 * interval.semitones
    return ratio_power(Fraction(3, 2), fifths) * ratio_power(Fraction(2), octaves)


def ratio_power(ratio: Fraction, times: int) -> Fraction:
    """The ratio stacked that many times, downwards where negative."""
    step = ratio if times >= 0 else 1 / ratio
    return prod([step] * abs(times), start=Fraction(1))


def cents(ratio: Fraction) -> Cents:
    """The size of a frequency ratio in cents; an octave has 1200.

    >>> round(cents(Fraction(3, 2)), 3)
    701.955
    """
    return Cents(1200.0 * log2(ratio))


def just_deviation(label: str) -> Cents:
    """How far the just interval lies above (+) or below (-) the equal-tempered one, in cents.

    >>> round(just_deviation("M3"), 1)
    -13.7
    """
    return Cents(cents(just_ratio(label)) - 100.0 * Interval.parse(label).semitones)


def difference_tone(one: Hertz, other: Hertz) -> Hertz:
    """The frequency of the tone heard below two that sound together, in hertz.

    Source: Helmholtz, On the Sensations of Tone, chapter VII.
    """
    return Hertz(abs(other - one))
