"""What the trade calls a drill's place: half, 1st, 2nd and so on."""

from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.model.spelling import spell


def place_label(drill: Drill, instrument: Instrument) -> str:
    """The position of a drill's lowest finger on its lowest string.

    Raises:
        RefusedError: the instrument has no such string.
    """
    string, finger = drill.strings[0], drill.frame.fingers[0]
    spelled = spell(instrument, drill.frame, drill.place, drill.strings)
    return instrument.position_rule.label(
        finger, drill.place, spelled.pitches[string, finger], instrument.open_pitch(string)
    )
