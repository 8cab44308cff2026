"""The names of the notes, one for each spelling: German B flat is B, and B is H."""

from collections.abc import Mapping
from typing import Final

from bookgen.words.term import Term

NOTES: Final[Mapping[str, Term]] = {
    "Cbb": Term("note", "C♭♭"),
    "Cb": Term("note", "C♭"),
    "C": Term("note", "C"),
    "C#": Term("note", "C♯"),
    "C##": Term("note", "C♯♯"),
    "Dbb": Term("note", "D♭♭"),
    "Db": Term("note", "D♭"),
    "D": Term("note", "D"),
    "D#": Term("note", "D♯"),
    "D##": Term("note", "D♯♯"),
    "Ebb": Term("note", "E♭♭"),
    "Eb": Term("note", "E♭"),
    "E": Term("note", "E"),
    "E#": Term("note", "E♯"),
    "E##": Term("note", "E♯♯"),
    "Fbb": Term("note", "F♭♭"),
    "Fb": Term("note", "F♭"),
    "F": Term("note", "F"),
    "F#": Term("note", "F♯"),
    "F##": Term("note", "F♯♯"),
    "Gbb": Term("note", "G♭♭"),
    "Gb": Term("note", "G♭"),
    "G": Term("note", "G"),
    "G#": Term("note", "G♯"),
    "G##": Term("note", "G♯♯"),
    "Abb": Term("note", "A♭♭"),
    "Ab": Term("note", "A♭"),
    "A": Term("note", "A"),
    "A#": Term("note", "A♯"),
    "A##": Term("note", "A♯♯"),
    "Bbb": Term("note", "B♭♭"),
    "Bb": Term("note", "B♭"),
    "B": Term("note", "B"),
    "B#": Term("note", "B♯"),
    "B##": Term("note", "B♯♯"),
}
"""By the letter with its accidentals, as a plan document writes them."""
