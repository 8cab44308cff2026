"""What follows from a fingered passage: bars, notes, and fingers that stand low or high."""

from dataclasses import dataclass

from bookgen.model.phrase import Phrase
from bookgen.model.stop import Note, Stop
from bookgen.plan.passage import Fingering, Placed


@dataclass(frozen=True, slots=True)
class Change:
    """A finger stands otherwise than when it last played in this place of the hand.

    now, before: its stops; since: the sound of the earlier one.
    """

    now: Stop
    before: Stop
    since: int

    @property
    def by(self) -> int:
        """Half steps, upwards counted positive."""
        return self.now.semitones - self.before.semitones

    @property
    def same_string(self) -> bool:
        """It played on this string."""
        return self.now.string == self.before.string


def changes_of(fingering: Fingering) -> dict[int, tuple[Change, ...]]:
    """Where fingers go low or high, by sound, on whatever string they last played."""
    found: dict[int, tuple[Change, ...]] = {}
    last: dict[int, tuple[int, Stop]] = {}
    place: int | None = None
    for index, placed in enumerate(fingering.placed):
        if placed.hand is not None and placed.hand.place != place:
            last, place = {}, placed.hand.place
        stops = [stop for stop in placed.stops if stop is not None and stop.finger]
        changed = tuple(
            Change(stop, before, since)
            for stop in stops
            if stop.finger in last
            for since, before in [last[stop.finger]]
            if before.semitones != stop.semitones
        )
        if changed:
            found[index] = changed
        last |= {stop.finger: (index, stop) for stop in stops}
    return found


def bars_of(first: int, last: int, fingering: Fingering, phrase: Phrase) -> tuple[str, ...]:
    """The numbers of the bars of some sounds, first and last included."""
    bars = dict.fromkeys(placed.bar for placed in fingering.placed[first : last + 1])
    return tuple(phrase.bars[bar].number for bar in bars)


def notes_at(placed: Placed, phrase: Phrase) -> tuple[Note, ...]:
    """The notes of a sound with their stops, without what cannot be played."""
    notes = phrase.bars[placed.bar].sounds[placed.sound].notes
    return tuple(
        Note(stop, note.pitch, held=note.tied)
        for note, stop in zip(notes, placed.stops, strict=True)
        if stop is not None
    )
