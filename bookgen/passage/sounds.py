"""A fingered passage looked up sound by sound: stops, place, time, and what is heard before it."""

from dataclasses import dataclass
from fractions import Fraction

from bookgen.model.instrument import Instrument
from bookgen.model.phrase import Phrase
from bookgen.model.pitch import Pitch
from bookgen.model.stop import Stop
from bookgen.passage.event import Event, events_of
from bookgen.plan.passage import Fingering, Placed


@dataclass(frozen=True, slots=True)
class Sounds:
    """A fingered passage.

    events: what is struck, one for each placed sound of the fingering.
    """

    fingering: Fingering
    phrase: Phrase
    instrument: Instrument
    events: tuple[Event, ...]

    @classmethod
    def of(cls, fingering: Fingering, phrase: Phrase, instrument: Instrument) -> "Sounds":
        """Look a fingering up."""
        return cls(fingering, phrase, instrument, tuple(events_of(phrase)))

    def __len__(self) -> int:
        return len(self.fingering.placed)

    @property
    def placed(self) -> tuple[Placed, ...]:
        """The sounds in the order of time."""
        return self.fingering.placed

    def played(self, index: int) -> list[Stop]:
        """The stops of a sound, open strings too, from the lowest string."""
        found = [stop for stop in self.placed[index].stops if stop is not None]
        return sorted(found, key=lambda stop: -stop.string)

    def stopped(self, index: int) -> list[Stop]:
        """Those of them that a finger holds."""
        return [stop for stop in self.played(index) if stop.finger]

    def place(self, index: int) -> int | None:
        """Where the hand lies; None where only open strings sound."""
        hand = self.placed[index].hand
        return None if hand is None else hand.place

    def moves_hand(self, index: int) -> bool:
        """The hand lies elsewhere than when it last held something."""
        here = self.place(index)
        before = (self.place(at) for at in range(index - 1, -1, -1))
        last = next((place for place in before if place is not None), None)
        return None not in {here, last} and here != last

    def rests(self, index: int, least: Fraction) -> bool:
        """A rest of that length or more stands before a sound."""
        return self.events[index].silence >= least

    def opens_bar(self, index: int) -> bool:
        """A sound begins its bar."""
        one = self.placed[index]
        return self.phrase.bars[one.bar].sounds[one.sound].at == 0

    def midi(self, stop: Stop) -> int:
        """The MIDI number of a stop as it is written."""
        return self.instrument.open_pitch(stop.string).midi + stop.semitones

    def pitch_at(self, index: int, stop: Stop) -> Pitch:
        """The written pitch of one of a sound's stops."""
        one = self.placed[index]
        note = one.stops.index(stop)
        return self.phrase.bars[one.bar].sounds[one.sound].notes[note].pitch
