"""Natural harmonics of a string: where it is touched, and what then sounds."""

from typing import Final

from bookgen.model.units import Semitones

TOUCHES: Final = {
    Semitones(12): (Semitones(12),),
    Semitones(19): (Semitones(7), Semitones(19)),
    Semitones(24): (Semitones(5), Semitones(24)),
    Semitones(28): (Semitones(4), Semitones(9), Semitones(16)),
}
"""By what sounds, in semitones above the open string: the places where the string is touched.

The parts of the string are 1/2; 1/3, 2/3; 1/4, 3/4; 1/5, 2/5, 3/5; a place n semitones above the
open string leaves 2^(-n/12) of it, and these are the nearest half steps. The partial tones 2, 3,
4 and 5 sound an octave, an octave and a fifth, two octaves, two octaves and a major third above
the open string. Source: H. von Helmholtz, On the Sensations of Tone, chapter IV; computed.
"""

SOUNDS: Final = {touch: sound for sound, touches in TOUCHES.items() for touch in touches}
"""What sounds, by the touched place."""


def touches_for_sound(above: int) -> tuple[Semitones, ...]:
    """Where a string is touched for a harmonic that sounds this high above the open string.

    >>> touches_for_sound(19), touches_for_sound(7)
    ((7, 19), ())
    """
    return TOUCHES.get(Semitones(above), ())


def touches_for_place(above: int) -> tuple[Semitones, ...]:
    """The place this high above the open string, where a harmonic is touched there.

    >>> touches_for_place(7), touches_for_place(6)
    ((7,), ())
    """
    return (Semitones(above),) if above in SOUNDS else ()
