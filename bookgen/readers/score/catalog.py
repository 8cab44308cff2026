"""The parts of a MusicXML tree, one for each staff, with their names and ranges."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final
from xml.etree.ElementTree import Element, SubElement

from bookgen.errors import BookgenError, Finding, told
from bookgen.model.marking import Dynamic, Sign
from bookgen.readers.score.numbers import inner, midi_height, transposition, whole
from bookgen.readers.score.parts import MOST_PARTS, PartName, cleaned
from bookgen.readers.score.passage import MOST_BARS
from bookgen.readers.score.tree import NO_SCORE, SAVE_ANEW

MOST_STAVES: Final = 8

READ: Final = (
    "score-partwise score-timewise work work-title movement-title part-list score-part "
    "part-name midi-instrument midi-program part measure attributes divisions key fifths time "
    "beats beat-type transpose diatonic chromatic octave-change note grace cue chord pitch step "
    "alter octave unpitched rest duration tie voice staff notations technical fingering "
    "thumb-position string open-string harmonic artificial base-pitch touching-pitch "
    "sounding-pitch backup forward clef sign clef-octave-change slur articulations ornaments "
    "dynamics direction direction-type offset wedge bracket words metronome beat-unit "
    "beat-unit-dot per-minute identification creator"
)
KEPT: Final = frozenset((*READ.split(), *Sign, *Dynamic))
"""Elements of MusicXML 4.0 that tell a passage; all others are left out while parsing."""


@dataclass(frozen=True, slots=True)
class Staff:
    """One staff of a part.

    number: of the staff in its part, from 1.
    octave_clef: a clef says that it sounds an octave or more away from where it is read.
    """

    name: PartName
    part: Element
    number: int
    octave_clef: bool


def partwise(root: Element, file: str) -> Element:
    """The score with its bars inside its parts.

    Raises:
        BookgenError: this is no score, or it has too many parts or bars.
    """
    if root.tag == "score-timewise":
        root = turned(root)
    if root.tag != "score-partwise":
        raise BookgenError(Finding(file, NO_SCORE, SAVE_ANEW))
    parts = root.findall("part")
    if len(parts) > MOST_PARTS or any(len(part) > MOST_BARS for part in parts):
        problem = told(
            "it has more than {parts} parts or {bars} bars", parts=MOST_PARTS, bars=MOST_BARS
        )
        raise BookgenError(Finding(file, problem, told("save only the part that you need")))
    return root


def turned(root: Element) -> Element:
    """A score whose parts lie inside its bars, turned the other way round."""
    score = Element("score-partwise")
    score.extend(child for child in root if child.tag != "measure")
    parts: dict[str, Element] = {}
    for measure in root.iterfind("measure"):
        for part in measure.iterfind("part"):
            name = part.get("id", "")
            if name not in parts:
                parts[name] = SubElement(score, "part", {"id": name})
            bar = SubElement(parts[name], "measure", dict(measure.attrib))
            bar.extend(part)
    return score


def staves(root: Element) -> list[Staff]:
    """Every staff of every part that has bars, in the order of the score."""
    listed = {entry.get("id", ""): entry for entry in root.iterfind("part-list/score-part")}
    return [
        staff
        for part in root.iterfind("part")
        for staff in staves_of(part, listed.get(part.get("id", "")))
    ]


def staves_of(part: Element, listed: Element | None) -> Iterator[Staff]:
    """The staves of one part; a part on one staff goes by its own name."""
    name = "" if listed is None else cleaned(inner(listed, "part-name"))
    program = None
    if listed is not None:
        program = whole(listed.findtext("midi-instrument/midi-program") or "", 1, 128)
    heights = heights_of(part)
    octave_clef = any(whole(change.text or "", -4, 4) for change in part.iter("clef-octave-change"))
    for number in sorted(heights) or [1]:
        found = heights.get(number, [])
        of_part = f"{name or '-'}/{number}" if len(heights) > 1 else name
        lowest, highest = (min(found), max(found)) if found else (None, None)
        yield Staff(PartName(of_part, program, lowest, highest), part, number, octave_clef)


def heights_of(part: Element) -> dict[int, list[int]]:
    """The notes on each staff as they sound, as MIDI numbers; quarter tones are cut off."""
    heights: dict[int, list[int]] = {}
    semitones = 0
    for element in (element for measure in part for element in measure):
        if element.tag == "attributes" and (transpose := element.find("transpose")) is not None:
            _, semitones = transposition(transpose)
        pitch = element.find("pitch")
        height = None if pitch is None else midi_height(pitch)
        if height is not None:
            heights.setdefault(staff_of(element), []).append(int(height) + semitones)
    return heights


def staff_of(element: Element) -> int:
    """The staff on which a note stands."""
    return whole(inner(element, "staff"), 1, MOST_STAVES) or 1
