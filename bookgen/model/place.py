"""What the trade calls a drill's place: half, 1st, 2nd and so on."""

from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument


def place_label(drill: Drill, instrument: Instrument) -> str:
    """The position in which a drill's lowest finger stands; it follows from the place alone.

    So two drills that keep fingers and place stand in one position, on whatever strings and
    however their notes are spelled. A hand that is extended back has the name of the closed one.
    """
    return instrument.position_rule.at(drill.frame.fingers[0], drill.closed_place)


def shift_label(drill: Drill, instrument: Instrument) -> str:
    """The position to which a hand shifts; where it stays, its own."""
    return instrument.position_rule.at(drill.frame.fingers[0], drill.upper_place)
