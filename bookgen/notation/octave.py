"""Which notes stand under an 8va sign."""

from collections.abc import Iterator, Sequence
from typing import Final

from bookgen.model.event import Event
from bookgen.model.instrument import Instrument
from bookgen.model.music import layings
from bookgen.model.phrase import Phrase
from bookgen.notation.sounds import Place, places, sound_at

JOINS: Final = 9
"""Semitones below the lowest note that needs an 8va sign from which notes beside it join it."""


def octave_signs(events: Sequence[Event], instrument: Instrument) -> Iterator[bool]:
    """Which events stand under an 8va sign.

    A group goes there as a whole and only if all of it lies on strings that climb so high: a
    sign within a group would make rising notes fall on the page, and a note of a lower string
    has no need of it. What crosses to another string within its group keeps its ledger lines.
    """
    limit = instrument.octave_sign_from.degree
    notes = [note for event in events for note in event.notes]
    high = {note.stop.string for note in notes if note.pitch.degree >= limit}
    for group in layings(events):
        strings = {note.stop.string for event in group for note in event.notes}
        yield from [strings <= high] * len(group)


def under_octave_sign(phrase: Phrase, instrument: Instrument) -> frozenset[Place]:
    """The sounds that stand under an 8va sign.

    Runs of high notes in which one needs the sign: it covers a run as a whole, so that rising
    notes rise on the page too. A chord with a low note keeps its ledger lines.
    """
    limit = instrument.octave_sign_from
    found: list[Place] = []
    run: list[Place] = []
    rests: list[Place] = []
    needed = False
    for place in places(phrase):
        pitches = [note.pitch for note in sound_at(phrase, place).notes]
        if not pitches:
            rests.append(place)
        elif min(pitch.midi for pitch in pitches) >= limit.midi - JOINS:
            run += [*rests, place] if run else [place]
            rests = []
            needed = needed or any(pitch.degree >= limit.degree for pitch in pitches)
        else:
            found += run if needed else []
            run, rests, needed = [], [], False
    return frozenset(found + (run if needed else []))
