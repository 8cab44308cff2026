"""What sounds, measured in the samples: open strings, pure double stops, the drone."""

import io
import wave
from math import log2

import numpy as np
import pytest
from kit.drills import VIOLA, VIOLIN, drill_of
from kit.recitals import recital
from numpy.typing import NDArray

from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.model.music import play
from bookgen.model.pitch import Pitch
from bookgen.notation.intonation import drone_of, heard_tones, open_hz
from bookgen.notation.midi import REST
from bookgen.notation.waves import LEAD_IN, RATE, drills_wav

HELMHOLTZ = "H. von Helmholtz, On the Sensations of Tone (1885), ratios of just intonation"
FOURIER = "the discrete Fourier transform (numpy 2), by its largest line near a pitch"
DOUBLE_STOPS = "12-whole-place2-strings4321-stage5-low-same"
SINGLE = "12-whole-place2-strings4321-stage3-low-same"


def samples(*drills: Drill, on: Instrument = VIOLIN, tempo: int = 60) -> NDArray[np.float64]:
    """What is in the file."""
    with wave.open(io.BytesIO(drills_wav(recital(*drills, on=on, tempo=tempo), on))) as file:
        assert (file.getnchannels(), file.getsampwidth(), file.getframerate()) == (1, 2, RATE)
        frames = file.readframes(file.getnframes())
    return np.frombuffer(frames, "<i2") / 2**15


def measured(whole: NDArray[np.float64], seconds: float, lasts: float, near: float) -> float:
    """The frequency of the strongest line within half a semitone, between two bows."""
    part = whole[int((seconds + 0.1) * RATE) : int((seconds + lasts - 0.15) * RATE)]
    spectrum = np.abs(np.fft.rfft(part * np.hanning(len(part)), 8 * len(part)))
    step = RATE / (8 * len(part))
    low, high = int(near * 2 ** (-1 / 24) / step), int(near * 2 ** (1 / 24) / step)
    peak = low + int(np.argmax(spectrum[low:high]))
    left, top, right = np.log(spectrum[peak - 1 : peak + 2])
    return float(step * (peak + (left - right) / (2 * (left - 2 * top + right))))


def cents(one: float, other: float) -> float:
    return 1200 * log2(one / other)


@pytest.mark.published(HELMHOLTZ)
def test_open_strings_are_pure_fifths_from_the_fork() -> None:
    """3/2 and 2/3 of 440 Hz."""
    assert open_hz(VIOLIN) == pytest.approx({1: 660, 2: 440, 3: 880 / 3, 4: 1760 / 9})
    assert open_hz(VIOLA) == pytest.approx({1: 440, 2: 880 / 3, 3: 1760 / 9, 4: 3520 / 27})


@pytest.mark.published(f"{HELMHOLTZ}; {FOURIER}")
def test_double_stops_are_just_within_a_cent() -> None:
    """By hand: sixths 5/3 and fourths 4/3, from the note that an open string proves."""
    whole = samples(drill_of(DOUBLE_STOPS))
    pairs = [
        (220, 220 * 5 / 3),  # A3 is an octave below open A
        (495 * 3 / 4, 495),  # B4 is a fourth below open E
        (495, 495 * 5 / 3),
        (550, 550 * 4 / 3),  # C#5 is a major third above the drone, A
        (330, 330 * 5 / 3),  # E4 is an octave below open E
        (330 * 3 / 4, 330),
    ]
    for number, pair in enumerate(pairs):
        for hz in pair:
            assert cents(measured(whole, 2 + 2 * number, 2, hz), hz) == pytest.approx(0, abs=1)


@pytest.mark.published(FOURIER)
def test_the_drone_is_the_open_string_that_proves_and_sounds_first_alone() -> None:
    drill = drill_of(SINGLE)
    whole = samples(drill)

    assert drone_of(play(drill, VIOLIN), VIOLIN) == 2
    assert cents(measured(whole, 0, 2, 440), 440) == pytest.approx(0, abs=1)
    alone = np.abs(whole[RATE : 2 * RATE]).max()
    assert alone < np.abs(whole[2 * RATE : 3 * RATE]).max()
    assert np.abs(whole[-RATE // 100 :]).max() < 0.05, "it ends softly"


@pytest.mark.published(f"ISO 16, equal temperament; {FOURIER}")
def test_every_note_is_heard_when_it_is_written() -> None:
    """Where no open string proves a note it is equal-tempered; else within a comma of that."""
    drill = drill_of(SINGLE)
    whole = samples(drill, tempo=120)
    for number, event in enumerate(play(drill, VIOLIN)):
        [note] = event.notes
        found = measured(whole, 1 + 0.5 * number, 0.5, note.pitch.hz)
        assert abs(cents(found, note.pitch.hz)) < 22
    b3 = next(h for h in heard_tones(play(drill, VIOLIN), VIOLIN) if 240 < h.hz < 250)
    assert b3.hz == pytest.approx(Pitch.parse("B3").hz)


def test_what_is_held_stays_and_what_joins_is_pure_to_it() -> None:
    drill = drill_of("12-whole-place2-strings4321-stage4-low-same")
    tones = list(heard_tones(play(drill, VIOLIN), VIOLIN))
    first, second, third, fourth = tones[:4]

    assert [second.hz / first.hz, third.hz / second.hz, fourth.hz / third.hz] == pytest.approx(
        [5 / 3, 4 / 3, 5 / 3]
    )
    assert second.start < first.start + first.length


def test_loudness_keeps_within_the_samples_and_drills_follow_after_a_rest() -> None:
    one, two = drill_of(DOUBLE_STOPS), drill_of(SINGLE)
    whole = samples(one, two)

    assert np.abs(whole).max() < 0.95
    lasts = [float(LEAD_IN + sum(e.duration for e in play(d, VIOLIN))) * 4 for d in (one, two)]
    assert len(whole) / RATE == pytest.approx(sum(lasts) + float(REST) * 4, abs=0.01)
    rest = whole[int((lasts[0] + 0.01) * RATE) : int((lasts[0] + 3.9) * RATE)]
    assert not rest.any()


@pytest.mark.parametrize("instrument", [VIOLIN, VIOLA])
def test_high_and_low_drills_sound(instrument: Instrument) -> None:
    drill = drill_of("34-half-place20-strings21-stage1-low-same", instrument)
    assert samples(drill, on=instrument, tempo=300).any()
