"""The signs of engraved music, as the engraver's font numbers them.

Source: the font's own table, Emmentaler of LilyPond 2.24.3. The files carry numbers, no names: of
another font with other numbers nothing can be said.
"""

from collections.abc import Mapping
from typing import Final

from bookgen.model.finger import THUMB
from bookgen.proof.printed import Run

FACE: Final = "Emmentaler"

HEADS: Final = frozenset("\ue0e8\ue0e9\ue0ea")
"""Note heads: whole, half and black (glyphs noteheads.s0 to s2)."""

CLEFS: Final = {"\ue085": "G4", "\ue07f": "C4", "\ue083": "F3"}
"""The clefs of G, C and F (clefs.G, .C and .F): the note on the line on which each stands (common
practice)."""

THUMBS: Final = frozenset("\ue047")
"""The sign of the thumb (scripts.thumb)."""

ACCIDENTALS: Final[Mapping[str, int]] = {
    "\ue02a": -2,
    "\ue021": -1,
    "\ue01d": 0,
    "\ue013": 1,
    "\ue01c": 2,
}
"""Accidentals with the semitones by which they alter (accidentals.flatflat, .flat, .natural,
.sharp, .doublesharp)."""

KNOWN: Final = HEADS | THUMBS | CLEFS.keys() | ACCIDENTALS.keys()
"""Every sign that a drill may have."""

PRIVATE: Final = "\ue000"
"""From here on signs are the font's own (The Unicode Standard, private use area)."""


def is_known(run: Run) -> bool:
    """Whether it is a sign of which the proof can say what it is, or no sign of the font's own."""
    return not run.face.startswith(FACE) or run.text < PRIVATE or run.text in KNOWN


def is_finger(run: Run) -> bool:
    """Whether it is the figure of a finger, or the sign of the thumb."""
    return run.text in THUMBS or (run.text.isdecimal() and run.face.startswith(FACE))


def finger_of(figure: Run) -> int:
    """The finger for which a figure stands."""
    return THUMB if figure.text in THUMBS else int(figure.text)
