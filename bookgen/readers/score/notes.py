"""The notes of one chord as MusicXML has them, with fingers and strings, from low to high."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final
from xml.etree.ElementTree import Element

from bookgen.errors import told
from bookgen.model.finger import OPEN, THUMB
from bookgen.model.phrase import MOST_NOTES, WrittenNote
from bookgen.model.pitch import Pitch
from bookgen.model.position import HAND
from bookgen.model.units import StringNumber
from bookgen.readers.score.findings import Problem
from bookgen.readers.score.numbers import HIGHEST, alteration, inner, midi_height, whole
from bookgen.readers.score.spelling import writable
from bookgen.readers.shown import shown

OVER: Final = frozenset({"touching-pitch", "sounding-pitch"})
"""Notes that stand over the stopped one of an artificial harmonic."""

SECOND_CHOICE: Final = ("alternate", "substitution")
AS_PLAYED: Final = told("nothing to do if that is what you play")


def chord_of(
    group: list[Element], strings: int, semitones: int = 0
) -> tuple[tuple[WrittenNote, ...], list[Problem]]:
    """The notes of a chord as they are written, and what cannot be used of them.

    There are none where the group is a rest, small cue notes, or holds no note with a pitch.

    group: notes that begin together on one staff; strings: how many the instrument has.
    semitones: from these notes to those that sound.
    """
    problems: list[Problem] = []
    found = [one for note in group for one in checked(note, strings, semitones, problems)]
    found.sort(key=lambda one: one[0])
    if len(found) > MOST_NOTES:
        problem = told(
            "{count} notes at once; the highest {most} are read", count=len(found), most=MOST_NOTES
        )
        problems.append((problem, told("leave out those that you do not play")))
    return tuple(note for _, note in found[-MOST_NOTES:]), problems


def checked(
    note: Element, strings: int, semitones: int, problems: list[Problem]
) -> Iterator[tuple[float, WrittenNote]]:
    """The note with its height, if it is played; what is wrong with it goes to the problems."""
    if note.find("rest") is not None:
        return
    if note.find("cue") is not None:
        problems.append((told("small cue notes are left out"), AS_PLAYED))
        return
    element = note.find("pitch")
    height = None if element is None else midi_height(element)
    pitch = None if element is None else pitch_of(element)
    if height is None or pitch is None or not 0 <= height + semitones <= HIGHEST:
        problem = told("a note without a pitch that can be is read as a rest")
        problems.append((problem, told("write letter, alteration and octave")))
        return
    marks = Marks.of(note, strings, problems)
    if marks.artificial:
        problem = told("an artificial harmonic is read as its stopped note")
        problems.append((problem, AS_PLAYED))
    if not height.is_integer():
        problem = told("a quarter tone is read as the nearest half step")
        problems.append((problem, AS_PLAYED))
    if not marks.touched:
        yield (
            height,
            WrittenNote(
                pitch=pitch,
                finger=marks.finger,
                string=marks.string,
                tied=any(tie.get("type") == "stop" for tie in note.iterfind("tie")),
                harmonic=marks.harmonic,
            ),
        )


def pitch_of(element: Element) -> Pitch | None:
    """A `pitch` by a name that can be written; None where it lies outside of all octaves."""
    letter = inner(element, "step").strip().upper()
    octave = whole(inner(element, "octave"), -1, 9)
    try:
        return writable(letter, round(alteration(element) or 0), octave or 0)
    except ValueError:
        return None


@dataclass(frozen=True, slots=True)
class Marks:
    """What the source fixes for one note, in the words of MusicXML's `technical`.

    harmonic: natural; of an artificial one the stopped note is read.
    artificial: of such a harmonic; touched: only touched, or heard, over its stopped note.
    """

    finger: int | None = None
    string: StringNumber | None = None
    harmonic: bool = False
    artificial: bool = False
    touched: bool = False

    @classmethod
    def of(cls, note: Element, strings: int, problems: list[Problem]) -> "Marks":
        """The marks of a note; what cannot be used of them goes to the problems.

        strings: of the instrument.
        """
        open_string = note.find("notations/technical/open-string") is not None
        finger = finger_of(note, problems)
        kinds = harmonic_kinds(note)
        artificial = "artificial" in kinds
        return cls(
            finger=0 if open_string else finger,
            string=string_of(note, strings, problems),
            harmonic="harmonic" in kinds and not artificial,
            artificial=artificial,
            touched=artificial and not OVER.isdisjoint(kinds),
        )


def finger_of(note: Element, problems: list[Problem]) -> int | None:
    """The first finger that is no second choice; or the thumb."""
    if note.find("notations/technical/thumb-position") is not None:
        return THUMB
    finger = None
    for mark in note.iterfind("notations/technical/fingering"):
        if finger is not None or any(mark.get(choice) == "yes" for choice in SECOND_CHOICE):
            continue
        finger = whole(mark.text or "", OPEN, HAND)
        if finger is None:
            word = shown(mark.text or "")
            problem = told("{word} is no finger of this hand and is left out", word=word)
            mend = told("write {first} to {last}", first=OPEN, last=HAND)
            problems.append((problem, mend))
    return finger


def string_of(note: Element, strings: int, problems: list[Problem]) -> StringNumber | None:
    """The last string that is given."""
    string = None
    for mark in note.iterfind("notations/technical/string"):
        string = whole(mark.text or "", 1, strings)
        if string is None:
            word = shown(mark.text or "")
            problem = told("there is no string {word}; it is left out", word=word)
            problems.append((problem, told("write 1, the highest, to {last}", last=strings)))
    return None if string is None else StringNumber(string)


def harmonic_kinds(note: Element) -> set[str]:
    """What the marks of a harmonic say, by their names in MusicXML."""
    return {
        element.tag
        for harmonic in note.iterfind("notations/technical/harmonic")
        for element in harmonic.iter()
    }
