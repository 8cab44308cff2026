"""The treble clef of older cello parts: straight after the bass clef it is read an octave lower.

Common practice of the engravers of the eighteenth and nineteenth century, no source. Files copied
from their parts have the notes as they look, an octave too high.
"""

from collections.abc import Iterator, Sequence
from typing import Final
from xml.etree.ElementTree import Element

from bookgen.errors import told
from bookgen.model.instrument import Instrument
from bookgen.readers.score.catalog import MOST_STAVES, Staff, staff_of
from bookgen.readers.score.findings import Remarks
from bookgen.readers.score.numbers import inner, midi_height, whole

FAMILY: Final = "cello"
TREBLE, BASS = "G", "F"


def read_as_meant(
    staff: Staff, instrument: Instrument, chosen: range, names: Sequence[str], remarks: Remarks
) -> None:
    """Put such notes an octave lower in a cello part in which some lie beyond the last stop.

    The part is one writer's, so that then all of them are; and told of where they are chosen.

    names: of all bars.
    """
    if instrument.family != FAMILY:
        return
    last = instrument.strings[0].midi + instrument.highest_stop
    found = [*in_treble_after_bass(staff)]
    if not any((midi_height(pitch) or 0) > last for _, pitch in found):
        return
    problem = told(
        "treble clef straight after bass clef is read an octave lower, as in older cello parts: as"
        " written, some of the part lies past the last stop"
    )
    mend = told("if it is meant as written, put a tenor clef between the two")
    for bar, pitch in found:
        octave = pitch.find("octave")
        if octave is not None and (height := whole(octave.text or "", 0, 9)):
            octave.text = str(height - 1)
            if bar in chosen:
                remarks.add(names[bar], problem, mend)


def in_treble_after_bass(staff: Staff) -> Iterator[tuple[int, Element]]:
    """The pitches under such a clef, with the indexes of their bars."""
    clef = before = ""
    for index, measure in enumerate(staff.part.iterfind("measure")):
        for element in measure:
            for found in element.iterfind("clef"):
                new = inner(found, "sign").strip() + inner(found, "clef-octave-change").strip()
                if new != clef and (whole(found.get("number", ""), 1, MOST_STAVES) or 1) == (
                    staff.number
                ):
                    before, clef = clef, new
            pitch = element.find("pitch")
            old = (before, clef) == (BASS, TREBLE) and staff_of(element) == staff.number
            if pitch is not None and old:
                yield index, pitch
