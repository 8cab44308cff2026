"""In which clef a drill is read."""

from bookgen.model.instrument import Instrument
from bookgen.plan.document import PlannedDrill


def clef_name(planned: PlannedDrill, instrument: Instrument) -> str:
    """The first clef of the instrument that reaches the drill's highest note.

    The instrument's last clef takes all that the others do not reach.
    """
    highest = max(note.pitch.midi for event in planned.events for note in event.notes)
    return next(
        choice.clef
        for choice in instrument.clefs
        if choice.up_to is None or highest <= choice.up_to.midi
    )
