"""Pitches and intervals against abjad, a second library that knows nothing of ours."""

from itertools import product
from typing import Final

import abjad
import pytest
from kit.refusing import refused

from bookgen.model.interval import Interval, interval_label
from bookgen.model.pitch import LETTERS, Pitch
from bookgen.model.units import Semitones

ABJAD = "abjad 3.31, named pitches and intervals"
MIDDLE_C_MIDI: Final = 60
WIDEST: Final = 36
EVERY_PITCH: Final = [
    Pitch(letter, accidental, octave)
    for letter, accidental, octave in product(LETTERS, range(-2, 3), range(1, 8))
]
GRID: Final = EVERY_PITCH[::3]


def theirs(pitch: Pitch) -> abjad.NamedPitch:
    return abjad.NamedPitch(str(pitch))


@pytest.mark.published(ABJAD)
@pytest.mark.parametrize("pitch", EVERY_PITCH, ids=str)
def test_name_number_and_frequency_of_every_pitch(pitch: Pitch) -> None:
    other = theirs(pitch)

    assert other.get_name_in_locale(locale="us") == str(pitch)
    assert other.number() + MIDDLE_C_MIDI == pitch.midi
    assert other.hertz() == pytest.approx(pitch.hz, rel=1e-9)


@pytest.mark.published(ABJAD)
def test_the_interval_of_every_two_pitches_of_a_grid_within_three_octaves() -> None:
    compared = 0
    wrong = []
    for low, high in product(GRID, GRID):
        if low.degree > high.degree or not 0 <= high.midi - low.midi <= WIDEST:
            continue
        name = abjad.NamedInterval.from_pitch_carriers(theirs(low), theirs(high)).name()
        label = name.lstrip("+")
        if "AAA" in label or "ddd" in label:
            with refused("have no name"):
                interval_label(low, high)
        elif interval_label(low, high) != label:
            wrong.append(f"{low} {high}: {interval_label(low, high)}, abjad {label}")
        compared += 1

    assert compared > 1_500
    assert wrong == []


@pytest.mark.published(ABJAD)
@pytest.mark.parametrize("label", ["m2", "M3", "P4", "A4", "d5", "P5", "m6", "M7", "P8", "M10"])
def test_going_up_by_an_interval(label: str) -> None:
    interval = Interval.parse(label)
    for start in (Pitch.parse(name) for name in ("G3", "Bb3", "F#4", "C2", "Eb5")):
        up = abjad.NamedInterval(label)
        ours = start.up(interval.degrees, Semitones(interval.semitones))

        assert str(ours) == theirs(start).transpose(up).get_name_in_locale(locale="us")
