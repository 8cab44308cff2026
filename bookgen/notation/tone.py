"""The tones of a drill as they sound: each once, from its beginning to its end."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from bookgen.model.event import Event
from bookgen.model.stop import Note


@dataclass(frozen=True, slots=True)
class Tone:
    """A note from its beginning to its end; what is held is one tone.

    start, length: parts of a whole note, counted from the first of the events.
    """

    note: Note
    start: Fraction
    length: Fraction

    @property
    def end(self) -> Fraction:
        """When the tone is over."""
        return self.start + self.length


def tones_of(events: Sequence[Event]) -> list[Tone]:
    """The tones of events in the order in which they begin, higher strings first."""
    found: list[Tone] = []
    now = Fraction(0)
    for event in events:
        for note in sorted(event.notes, key=lambda note: note.stop.string):
            if not note.held:
                found.append(Tone(note, now, event.duration))
                continue
            last = max(at for at, tone in enumerate(found) if tone.note.stop == note.stop)
            found[last] = replace(found[last], length=found[last].length + event.duration)
        now += event.duration
    return found
