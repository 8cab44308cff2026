"""Where a stop lies on the string, in millimetres."""

from functools import lru_cache
from typing import Final

from bookgen.errors import RefusedError
from bookgen.model.units import Millimetres

FINGER_MM: Final = 10.0
"""Fingers whose spots are nearer than this do not stand beside each other: the one that has played
makes room (own choice; common practice, no source)."""


@lru_cache(maxsize=4096)
def nut_distance_mm(string_length_mm: float, semitones: float) -> Millimetres:
    """Distance from the nut to a stop, in millimetres, in equal temperament.

    The sounding part of the string is L * 2**(-n/12); the rest lies behind the finger.

    >>> nut_distance_mm(328.0, 12)
    164.0

    Args:
        string_length_mm: vibrating length of the open string, nut to bridge.
        semitones: height above the open string; fractions of one are allowed.

    Raises:
        RefusedError: the length is not positive, or the stop lies behind the nut.

    Source: the definition of equal temperament; tests check it against the luthiers' 17.817 rule.
    """
    if string_length_mm <= 0:
        raise RefusedError("string-length", millimetres=string_length_mm)
    if semitones < 0:
        raise RefusedError("behind-nut", semitones=semitones)
    return Millimetres(float(string_length_mm * (1.0 - 2.0 ** (-semitones / 12.0))))


def gap_mm(string_length_mm: float, lower: float, upper: float) -> Millimetres:
    """Distance between two stops on one string, in millimetres.

    >>> round(gap_mm(325.0, 2, 4), 1)
    31.6

    Raises:
        RefusedError: the length is not positive, or a stop lies behind the nut.
    """
    high = nut_distance_mm(string_length_mm, upper)
    return Millimetres(high - nut_distance_mm(string_length_mm, lower))
