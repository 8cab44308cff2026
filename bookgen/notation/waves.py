"""Drills as sound: a plain bowed tone for each note over a drone, as a WAV file."""

import io
import wave
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Final

from bookgen.model.instrument import Instrument
from bookgen.model.units import Hertz
from bookgen.notation.intonation import drone_of, heard_tones, open_hz
from bookgen.notation.midi import REST
from bookgen.notation.played import Recital

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

RATE: Final = 44_100
"""Samples a second; IEC 60908, the compact disc."""

LOUDEST: Final = 2**15 - 1
"""Of a sample of 16 bits."""

PARTIALS: Final = 12
SOFTER: Final = 1.2
"""A partial's loudness is its number to the power of minus this: a string's, a little darker
than a saw-tooth (Helmholtz, On the Sensations of Tone, chapter V; the power is our own choice)."""

ATTACK_SECONDS: Final = 0.04
RELEASE_SECONDS: Final = 0.06
"""How long a bow takes to begin and to leave a tone (own choice)."""

TONE: Final = 0.25
DRONE: Final = 0.12
"""How loud, of 1; two tones and a drone stay below it (own choice)."""

LEAD_IN: Final = Fraction(1, 2)
"""Whole notes for which the drone sounds alone (own choice)."""


@dataclass(frozen=True, slots=True)
class Sound:
    """A tone in time; start and seconds in seconds, loud: of 1."""

    hz: Hertz
    start: float
    seconds: float
    loud: float


def drills_wav(recital: Recital, instrument: Instrument) -> bytes:
    """Drills one after the other, with a rest between them."""
    import numpy as np  # noqa: PLC0415  slow to import

    sounds = list(sounds_of(recital, instrument))
    ends = max(sound.start + sound.seconds for sound in sounds)
    whole = np.zeros(samples(ends))
    for sound in sounds:
        first = samples(sound.start)
        tone = bowed(sound)
        whole[first : first + len(tone)] += tone[: len(whole) - first]
    return written(whole)


def sounds_of(recital: Recital, instrument: Instrument) -> Iterator[Sound]:
    """Every tone and every drone of the drills."""
    second = 240.0 / recital.quarters_a_minute
    begins = Fraction(0)
    for played in recital.drills:
        drone = drone_of(played.events, instrument)
        lead_in = Fraction(0) if drone is None else LEAD_IN
        lasts = lead_in + sum((event.duration for event in played.events), Fraction(0))
        if drone is not None:
            hz = open_hz(instrument)[drone]
            yield Sound(hz, float(begins) * second, float(lasts) * second, DRONE)
        for tone in heard_tones(played.events, instrument):
            start = float(begins + lead_in + tone.start) * second
            yield Sound(tone.hz, start, float(tone.length) * second, TONE)
        begins += lasts + REST


def bowed(sound: Sound) -> "NDArray[np.float64]":
    """The samples of one tone: its partials, which begin and leave softly."""
    import numpy as np  # noqa: PLC0415

    seconds = np.arange(samples(sound.seconds)) / RATE
    partials = [n for n in range(1, PARTIALS + 1) if n * sound.hz < RATE / 2]
    loud = [n**-SOFTER for n in partials]
    tone = sum(
        amount * np.sin(2 * np.pi * n * sound.hz * seconds)
        for n, amount in zip(partials, loud, strict=True)
    )
    rise = np.minimum(seconds / ATTACK_SECONDS, 1.0)
    fall = np.minimum((sound.seconds - seconds) / RELEASE_SECONDS, 1.0)
    return np.asarray(sound.loud / sum(loud) * tone * rise * np.clip(fall, 0.0, 1.0))


def samples(seconds: float) -> int:
    """How many samples a time has."""
    return round(seconds * RATE)


def written(whole: "NDArray[np.float64]") -> bytes:
    """Samples from -1 to 1 as a WAV file: one channel of 16 bits."""
    stream = io.BytesIO()
    with wave.open(stream, "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(RATE)
        file.writeframes((whole * LOUDEST).astype("<i2").tobytes())
    return stream.getvalue()
