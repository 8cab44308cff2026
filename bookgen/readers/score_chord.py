"""The notes of one chord as MusicXML has them, checked and written anew from low to high."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final
from xml.etree.ElementTree import Element, SubElement

from bookgen.model.phrase import MOST_NOTES
from bookgen.readers.score_marks import Marks
from bookgen.readers.score_numbers import HIGHEST, alteration, inner, midi_height, whole

Problem = tuple[str, str]
"""What is wrong, and what mends it."""

SECOND: Final = "nothing to do if that is what you play"


@dataclass(frozen=True, slots=True)
class Checked:
    """A note that can be read.

    height: MIDI number, with quarter tones.
    """

    height: float
    note: Element
    marks: Marks


def written_chord(
    group: list[Element], strings: int, semitones: int = 0
) -> tuple[list[Element], list[Problem]]:
    """The notes of a chord for music21, and what cannot be used of them.

    There are none where the group is a rest, small cue notes, or holds no note with a pitch.

    group: notes that begin together on one staff; strings: how many the instrument has.
    semitones: from these notes to those that sound.
    """
    problems: list[Problem] = []
    found = [one for note in group for one in checked(note, strings, semitones, problems)]
    found.sort(key=lambda one: one.height)
    if len(found) > MOST_NOTES:
        problem = f"{len(found)} notes at once; the highest {MOST_NOTES} are read"
        problems.append((problem, "leave out those that you do not play"))
        found = found[-MOST_NOTES:]
    return [written(one, place) for place, one in enumerate(found)], problems


def checked(
    note: Element, strings: int, semitones: int, problems: list[Problem]
) -> Iterator[Checked]:
    """The note, if it has a pitch that is played; what is wrong with it goes to the problems."""
    if note.find("rest") is not None:
        return
    if note.find("cue") is not None:
        problems.append(("small cue notes are left out", SECOND))
        return
    pitch = note.find("pitch")
    height = None if pitch is None else midi_height(pitch)
    if height is None or not 0 <= height + semitones <= HIGHEST:
        problem = "a note without a pitch that can be is read as a rest"
        problems.append((problem, "write letter, alteration and octave"))
        return
    marks, unused = Marks.of(note, strings)
    problems += unused
    if marks.artificial or marks.touched:
        problems.append(("an artificial harmonic is read as its stopped note", SECOND))
    if not height.is_integer():
        problems.append(("a quarter tone is read as the nearest half step", SECOND))
    if not marks.touched:
        yield Checked(height, note, marks)


def written(one: Checked, place: int) -> Element:
    """The note without time.

    place: in its chord, from 0; all but the first say that they belong to it.
    """
    result = Element("note")
    if one.note.find("grace") is not None:
        SubElement(result, "grace")
    if place:
        SubElement(result, "chord")
    given = one.note.find("pitch")
    pitch = SubElement(result, "pitch")
    if given is not None:
        SubElement(pitch, "step").text = inner(given, "step").strip().upper()
        SubElement(pitch, "alter").text = str(round(alteration(given) or 0))
        SubElement(pitch, "octave").text = str(whole(inner(given, "octave"), -1, 9))
    for tie in one.note.iterfind("tie"):
        if tie.get("type") in {"start", "stop"}:
            SubElement(result, "tie", {"type": tie.get("type", "")})
    one.marks.write(result, place)
    return result
