"""Which stage follows on another, on so many strings."""

from collections.abc import Sequence
from typing import Final

from bookgen.model.units import StringNumber

SECOND_NOTE: Final = 2
"""The stage that crosses on the second note."""

TWO: Final = 2
"""Fingers of a pair, and strings of the fewest."""


def crosses_always(strings: Sequence[StringNumber], order: tuple[int, ...]) -> bool:
    """Crossing on the second note is crossing on every note.

    So it is with two fingers on two strings, and with one finger alone.

    Stage 2 has the notes of stage 3 then, so the area holds stage 3 only.
    """
    return len(order) == 1 or len(strings) == len(order) == TWO


def next_stage(
    strings: Sequence[StringNumber], order: tuple[int, ...], stage: int, step: int
) -> int:
    """The stage after, or with a step of -1 before; past the first and the last there is none."""
    beside = stage + step
    return beside + step if beside == SECOND_NOTE and crosses_always(strings, order) else beside
