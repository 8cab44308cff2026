"""Which notes of a passage are tied to each other."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from bookgen.model.phrase import Phrase, Sound
from bookgen.model.pitch import Pitch
from bookgen.notation.passage_label import Place


@dataclass(frozen=True, slots=True)
class Ties:
    """Which notes of a sound are tied, by their indexes.

    on: to the next sound; back: to the one before; over: from something that is not there, as
        at the beginning of an excerpt.
    """

    on: frozenset[int] = frozenset()
    back: frozenset[int] = frozenset()
    over: frozenset[int] = frozenset()


NO_TIES: Final = Ties()


@dataclass(frozen=True, slots=True)
class Timed:
    """A sound with its beginning and its end, in whole notes from the beginning of the phrase."""

    place: Place
    sound: Sound
    start: Fraction
    end: Fraction


def timed(phrase: Phrase) -> Iterator[Timed]:
    """The sounds of a phrase in time; grace notes, which have none, are left out."""
    begins = Fraction(0)
    for number, bar in enumerate(phrase.bars):
        for index, sound in enumerate(bar.sounds):
            start = begins + sound.at
            if not sound.grace:
                yield Timed((number, index), sound, start, start + sound.duration)
        begins += bar.length


def ties_of(phrase: Phrase) -> dict[Place, Ties]:
    """The ties of each sound that has any.

    A tie leads from note to note where both are written alike and stand side by side in time.
    """
    on: dict[Place, frozenset[int]] = {}
    back: dict[Place, frozenset[int]] = {}
    over: dict[Place, frozenset[int]] = {}
    before: Timed | None = None
    for here in timed(phrase):
        sources = {
            at: tied_from(before, here, note.pitch)
            for at, note in enumerate(here.sound.notes)
            if note.tied
        }
        over[here.place] = frozenset(at for at, source in sources.items() if source is None)
        back[here.place] = frozenset(sources) - over[here.place]
        if before is not None:
            on[before.place] = frozenset(at for at in sources.values() if at is not None)
        before = here
    return {
        place: Ties(on.get(place, frozenset()), back[place], over[place])
        for place in over
        if on.get(place) or back[place] or over[place]
    }


def tied_from(before: Timed | None, here: Timed, pitch: Pitch) -> int | None:
    """Index of the note before that is tied to this pitch, or None."""
    if before is None or before.end < here.start:
        return None
    pitches = [note.pitch for note in before.sound.notes]
    return pitches.index(pitch) if pitch in pitches else None
