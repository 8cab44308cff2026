"""Natural harmonics, against the division of the string."""

from fractions import Fraction
from math import log2

import pytest

from bookgen.model.harmonic import (
    TOUCHES,
    touches_for_place,
    touches_for_sound,
)


def places(part: int) -> set[int]:
    """Nearest semitones of every point that leaves the string in this many equal parts alone."""
    points = [Fraction(step, part) for step in range(1, part)]
    whole = [point for point in points if point.denominator == part]
    return {round(-12 * log2(1 - point)) for point in whole}


@pytest.mark.published("Helmholtz, On the Sensations of Tone, chapter IV: partial tones of strings")
@pytest.mark.parametrize("part", [2, 3, 4, 5])
def test_the_string_is_touched_where_it_is_divided(part: int) -> None:
    sound = round(12 * log2(part))
    reachable = {place for place in places(part) if place <= 24}

    assert set(TOUCHES[sound]) == reachable  # type: ignore[index]


@pytest.mark.parametrize(
    ("above", "sounds", "place"),
    [(12, (12,), (12,)), (19, (7, 19), (19,)), (7, (), (7,)), (24, (5, 24), (24,)), (6, (), ())],
)
def test_a_height_is_what_sounds_or_what_is_touched(
    above: int, sounds: tuple[int, ...], place: tuple[int, ...]
) -> None:
    assert touches_for_sound(above) == sounds
    assert touches_for_place(above) == place
