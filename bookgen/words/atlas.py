"""What the atlas of the fingerboard says."""

from collections.abc import Sequence

from bookgen.model.pitch import Pitch
from bookgen.words.speech import Speech


def title(speech: Speech) -> str:
    """The atlas by its name."""
    return speech.say("The fingerboard")


def intro(played: str, length_mm: float, scale: str, speech: Speech) -> str:
    """How it is read.

    played: the instrument with its size; length_mm: of its strings; scale: e.g. "1 : 1.2".
    """
    return speech.say(
        "Every note of the fingerboard, along the strings to scale ({scale}): <b>{instrument}</b>,"
        " strings of {length} mm, the nut on top. At the left stands the <b>position</b> of a hand"
        " whose first finger is there, at the right how many <b>millimetres</b> it is to the nut.",
        instrument=played,
        length=f"{length_mm:.0f}",
        scale=scale,
    )


def harmonic(speech: Speech) -> str:
    """What the diamond on a string means."""
    return speech.say("natural harmonic: touch the string there")


def names(pitches: Sequence[Pitch], speech: Speech) -> str:
    """What a stop is called: one name, or two that sound alike."""
    return "  ".join(speech.note(pitch) for pitch in pitches)
