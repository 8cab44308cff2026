"""Fingers and strings that a score gives for a note, in the words of MusicXML's `technical`."""

from dataclasses import dataclass
from typing import Final, Self
from xml.etree.ElementTree import Element, SubElement

from bookgen.model.stop import FINGERS
from bookgen.model.units import StringNumber
from bookgen.readers.score_numbers import whole
from bookgen.readers.studio_tables import shown

HARMONIC: Final = "o"
"""How a harmonic is handed on, as a fingering: music21 keeps only one `harmonic` of a chord."""

OVER: Final = frozenset({"touching-pitch", "sounding-pitch"})
"""Notes that stand over the stopped one of an artificial harmonic."""

SECOND_CHOICE: Final = ("alternate", "substitution")


@dataclass(frozen=True, slots=True)
class Marks:
    """What the source fixes for one note.

    harmonic: natural; of an artificial one the stopped note is read.
    artificial: of such a harmonic; touched: only touched, or heard, over its stopped note.
    """

    finger: int | None = None
    string: StringNumber | None = None
    harmonic: bool = False
    artificial: bool = False
    touched: bool = False

    @classmethod
    def of(cls, note: Element, strings: int) -> tuple[Self, list[tuple[str, str]]]:
        """The marks of a note, and what cannot be used of them with its mend.

        strings: of the instrument.
        """
        unused: list[tuple[str, str]] = []
        finger = string = None
        for mark in note.iterfind("notations/technical/fingering"):
            if any(mark.get(choice) == "yes" for choice in SECOND_CHOICE) or finger is not None:
                continue
            finger = whole(mark.text or "", FINGERS.start, FINGERS.stop - 1)
            if finger is None:
                problem = f"{shown(mark.text or '')} is no finger of this hand and is left out"
                unused.append((problem, f"write {FINGERS.start} to {FINGERS.stop - 1}"))
        for mark in note.iterfind("notations/technical/string"):
            string = whole(mark.text or "", 1, strings)
            if string is None:
                problem = f"there is no string {shown(mark.text or '')}; it is left out"
                unused.append((problem, f"write 1, the highest, to {strings}"))
        if note.find("notations/technical/open-string") is not None:
            finger = 0
        kinds = harmonic_kinds(note)
        artificial = "artificial" in kinds
        marks = cls(
            finger=finger,
            string=None if string is None else StringNumber(string),
            harmonic="harmonic" in kinds and not artificial,
            artificial=artificial,
            touched=artificial and not OVER.isdisjoint(kinds),
        )
        return marks, unused

    def write(self, note: Element, place: int) -> None:
        """Add the marks to a note for music21, which gathers those of a chord in one list.

        place: of the note in its chord.
        """
        harmonic = HARMONIC if self.harmonic else None
        texts = (("fingering", self.finger), ("string", self.string), ("fingering", harmonic))
        if any(value is not None for _, value in texts):
            technical = SubElement(SubElement(note, "notations"), "technical")
            for name, value in texts:
                if value is not None:
                    SubElement(technical, name, {"id": str(place)}).text = str(value)


def harmonic_kinds(note: Element) -> set[str]:
    """What the marks of a harmonic say, by their names in MusicXML."""
    return {
        element.tag
        for harmonic in note.iterfind("notations/technical/harmonic")
        for element in harmonic.iter()
    }
