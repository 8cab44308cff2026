"""Names for notes of which a file tells only the height, or a name that cannot be written."""

from collections.abc import Iterable
from typing import Final

from bookgen.model.pitch import LETTERS, OCTAVES, Pitch

FIFTHS: Final = "FCGDAEB"
"""Letters in fifths; seven steps further each has a sharp more."""

TWELVE_FROM: Final = -3
"""The twelve names of a key on the line of fifths, from that of its lowered third.

In C major E flat, B flat, F, C, G, D, A, E, B, F sharp, C sharp, G sharp (common practice).
"""

SHARP_NAMES: Final = 2
FLAT_NAMES: Final = -3
"""Keys whose twelve names have no flats, no sharps."""

FLATTEST: Final = -8
SHARPEST: Final = 1
"""Where the twelve names begin at the most, so that none has two signs."""

KEY_FROM: Final = -1
KEYS: Final = range(-7, 8)


def spelled(midi: int, sharps: int) -> Pitch:
    """The name of a note nearest to a key signature.

    >>> str(spelled(61, 0)), str(spelled(61, -3))
    ('C#4', 'Db4')

    Raises:
        ValueError: the note lies outside of all octaves.
    """
    start = min(max(TWELVE_FROM + sharps, FLATTEST), SHARPEST)
    place = start + (7 * midi - start) % 12
    signs, index = divmod(place + 1, 7)
    letter = FIFTHS[index]
    natural = Pitch(letter, 0, 4)
    octave = 4 + (midi - natural.midi - signs) // 12
    if octave not in OCTAVES and sharps:
        return spelled(midi, 0)
    return Pitch(letter, signs, octave)


def key_signature(tonic: str, *, minor: bool) -> int:
    """How many sharps a key has; flats are negative.

    >>> key_signature("Bb", minor=False), key_signature("F#", minor=True)
    (-2, 3)

    Raises:
        ValueError: the tonic is no name, or its key has more than seven signs.
    """
    pitch = Pitch.parse(f"{tonic}4")
    place = FIFTHS.index(pitch.letter) + 7 * pitch.accidental - 1
    sharps = place - 3 if minor else place
    if sharps not in KEYS:
        msg = f"the key of {tonic} has more than seven sharps or flats"
        raise ValueError(msg)
    return sharps


def writable(letter: str, signs: int, octave: int) -> Pitch:
    """The pitch of that name, or of the next letter where it would need too many signs.

    Raises:
        ValueError: it lies outside of all octaves.
    """
    try:
        return Pitch(letter, signs, octave)
    except ValueError:
        natural = Pitch(letter, 0, octave)
        return spelled(natural.midi + signs, SHARP_NAMES if signs > 0 else FLAT_NAMES)


def likely_key(heights: Iterable[int]) -> int:
    """The key signature, in sharps, under which notes need the fewest accidentals.

    A tie goes to the fewest sharps or flats, then to the sharps.
    """
    counts = [0] * 12
    for height in heights:
        counts[7 * height % 12] += 1
    total = sum(counts)

    def accidentals(sharps: int) -> int:
        start = KEY_FROM + sharps
        return total - sum(counts[(start + step) % 12] for step in range(len(LETTERS)))

    return min(KEYS, key=lambda sharps: (accidentals(sharps), abs(sharps), -sharps))
