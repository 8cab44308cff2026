"""The names of a drill's notes as a piece has them."""

from collections import Counter
from collections.abc import Iterator, Mapping
from contextlib import suppress
from typing import Final

from bookgen.errors import RefusedError
from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.model.music import play, play_as
from bookgen.model.naming import Names, every_way, in_step, laid
from bookgen.model.phrase import Phrase
from bookgen.model.pitch import Pitch
from bookgen.model.spelling import UNUSUAL
from bookgen.model.units import Semitones

Spelling = Mapping[int, Pitch]
"""Names of notes by their written height, a MIDI number."""

PLAIN: Final[Spelling] = {}
"""Of no piece: drills have their own names."""


def spelling_of(phrase: Phrase) -> Spelling:
    """The names that a piece has for each height, of several the one it has most often."""
    counted = Counter(note.pitch for _, sound in phrase.sounds() for note in sound.notes)
    return {pitch.midi: pitch for pitch, _ in reversed(counted.most_common())}


def names_like(drill: Drill, instrument: Instrument, piece: Spelling) -> Names | None:
    """Of all ways to name a drill's notes the one that a piece has the most of.

    None where the drill's own names do as well; of equal ones that with the fewest accidentals.
    """
    known = {pitch.name for pitch in piece.values()}
    stops = {note.stop: note.pitch for event in play(drill, instrument) for note in event.notes}

    def agreed(names: Names) -> float:
        """Notes as the piece has them, less half of the unusual names that it has in no octave."""
        own = [names[stop] for stop in stops]
        odd = [pitch for pitch in own if pitch.name in UNUSUAL or abs(pitch.accidental) > 1]
        same = sum(piece.get(pitch.midi) == pitch for pitch in own)
        return same - sum(pitch.name not in known for pitch in odd) / 2

    def plainness(names: Names) -> int:
        return -sum(abs(names[stop].accidental) for stop in stops)

    found = [names for names in ways(drill, instrument) if agreed(names) > agreed(stops)]
    return max(found, key=lambda names: (agreed(names), plainness(names)), default=None)


def ways(drill: Drill, instrument: Instrument) -> Iterator[Names]:
    """Every naming of a drill's hand whose intervals have names."""
    frame, place = drill.frame, drill.place
    if frame.shift:
        upper = Semitones(place + frame.shift)
        found = (
            laid(below, frame, place) | laid(above, frame, upper)
            for (below, _), (above, _) in in_step(instrument, frame, place, drill.strings)
        )
    else:
        found = (
            laid(names, frame, place)
            for names, _ in every_way(instrument, frame, place, drill.strings)
        )
    for names in found:
        with suppress(RefusedError):  # two of its notes have no interval that has a name
            play_as(drill, names)
            yield names
