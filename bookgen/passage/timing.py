"""The time around a step from one sound to the next, as far as it makes the step dearer or not."""

from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from bookgen.model.costs import Costs

FINEST = 256
"""Lengths in the cost table are no finer parts of a whole note than this."""


class Gap(NamedTuple):
    """The time between two events: the least factor that it gives a shift, and the hurry.

    hurry: 1 or more: at grace notes, and within a slur.
    """

    cover: float
    hurry: float


class Manner(NamedTuple):
    """How one event comes after another, as far as fingers and bow are concerned.

    sings: the note is long enough for its timbre to count. slurred: both lie under a slur.
    quick: there is little time to slide.
    """

    sings: bool
    slurred: bool
    quick: bool


class Leap(NamedTuple):
    """How a shift is made.

    free: from open strings alone. harmonic: one is left or reached. many: two or more fingers
    arrive together.
    """

    free: bool
    harmonic: bool
    many: bool


@dataclass(frozen=True, slots=True)
class Limits:
    """The lengths of the cost table in whole notes, as exact as those of the notes."""

    rest: Fraction
    long_rest: Fraction
    long_note: Fraction
    open_note: Fraction
    timbre: Fraction
    quick: Fraction

    @classmethod
    def of(cls, costs: Costs) -> "Limits":
        """Read them from the cost table."""
        cover, string = costs.cover, costs.string
        lengths = (
            cover.rest_from,
            cover.long_rest_from,
            cover.long_from,
            string.open_from,
            string.timbre_from,
            costs.finger.quick_to,
        )
        return cls(*(Fraction(length).limit_denominator(FINEST) for length in lengths))
