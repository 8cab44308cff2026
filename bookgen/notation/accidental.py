"""Which notes of a bar carry an accidental: where they differ from the key and what came before."""

from typing import Final

from bookgen.model.pitch import LETTERS, Pitch

SHARPS: Final = "FCGDAEB"
"""The order in which sharps join a key; flats join it from the other end."""

NAMES: Final = {-2: "flat-flat", -1: "flat", 0: "natural", 1: "sharp", 2: "double-sharp"}
"""Accidentals by semitones, as MusicXML 4.0 names them (data type accidental-value)."""


def in_key(letter: str, sharps: int) -> int:
    """How a key alters a letter, in semitones.

    >>> in_key("F", 1), in_key("B", -1), in_key("C", 1), in_key("F", 8)
    (1, -1, 0, 2)
    """
    row = SHARPS if sharps > 0 else SHARPS[::-1]
    whole, rest = divmod(abs(sharps), len(LETTERS))
    signs = whole + (row.index(letter) < rest)
    return signs if sharps > 0 else -signs


class Accidentals:
    """Remembers a bar's accidentals."""

    def __init__(self) -> None:
        """Begin without a key."""
        self.sharps = 0
        self.altered: dict[int, int] = {}

    def open_bar(self, sharps: int | None) -> None:
        """A new bar begins; the key changes where one is given."""
        self.sharps = self.sharps if sharps is None else sharps
        self.altered = {}

    def of(self, pitch: Pitch) -> str | None:
        """The name of the accidental before a note, or None; and remember it."""
        before = self.altered.get(pitch.degree, in_key(pitch.letter, self.sharps))
        self.altered[pitch.degree] = pitch.accidental
        return None if before == pitch.accidental else NAMES[pitch.accidental]
