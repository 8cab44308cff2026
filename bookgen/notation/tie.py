"""Which notes of a passage are tied to each other."""

from dataclasses import dataclass
from typing import Final

from bookgen.model.phrase import Phrase
from bookgen.model.pitch import Pitch
from bookgen.notation.sounds import Place, Timed, timed


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
