"""In which clefs a passage is read, and which of its notes stand under an 8va sign."""

from collections.abc import Mapping
from typing import Final

from bookgen.model.instrument import ClefChoice, Instrument
from bookgen.model.phrase import Bar, Phrase, WrittenNote
from bookgen.model.pitch import Pitch
from bookgen.notation.passage_label import Place, places, sound_at

BOTTOM_LINES: Final = {
    name: Pitch.parse(pitch).degree
    for name, pitch in {"treble": "E4", "alto": "F3", "tenor": "D3", "bass": "G2"}.items()
}
"""The note on the lowest line of the staff, as a place on the staff."""

LEDGERS_READ: Final = 1
"""Ledger lines below the staff that are not counted (own choice)."""

CHANGE: Final = 4.0
"""A change of clef is worth it for as many notes that are hard to read (own choice)."""

NOT_ITS_OWN: Final = 0.2
"""What a note costs that is read in another than the instrument's first clef (own choice)."""

TOO_HIGH: Final = 1.0
TOO_LOW: Final = 0.5
LEDGER: Final = 0.5
"""What a note costs for being too high or low, and for each ledger line too many (own choice)."""

JOINS: Final = 9
"""Semitones below the lowest note that needs an 8va sign from which notes beside it join it."""


def clefs_of(phrase: Phrase, instrument: Instrument) -> tuple[str, ...]:
    """The clef of each bar: one for the passage, or several where that is easier to read.

    The easiest sequence of clefs; every change has its price.
    """
    choices = instrument.clefs
    costs = dict.fromkeys(range(len(choices)), 0.0)
    ways: dict[int, tuple[int, ...]] = dict.fromkeys(costs, ())
    for bar in phrase.bars:
        come = {at: easiest(costs, at) for at in costs}
        ways = {at: (*ways[before], at) for at, before in come.items()}
        costs = {
            at: costs[before] + CHANGE * (before != at) + effort(bar, instrument, at)
            for at, before in come.items()
        }
    best = min(costs, key=lambda at: (costs[at], at))
    return tuple(choices[at].clef for at in ways[best])


def easiest(costs: Mapping[int, float], at: int) -> int:
    """The clef of the bar before from which it is easiest to come to this one."""
    return min(costs, key=lambda before: costs[before] + CHANGE * (before != at))


def effort(bar: Bar, instrument: Instrument, at: int) -> float:
    """How hard a bar is to read in one of the instrument's clefs."""
    notes = [note for sound in bar.sounds for note in sound.notes]
    return sum(note_effort(note, instrument.clefs[at]) + NOT_ITS_OWN * (at > 0) for note in notes)


def note_effort(note: WrittenNote, choice: ClefChoice) -> float:
    """How hard a note is to read in a clef."""
    lines_below = (BOTTOM_LINES.get(choice.clef, 0) - note.pitch.degree) // 2 - LEDGERS_READ
    low = TOO_LOW + LEDGER * lines_below if lines_below > 0 else 0.0
    if choice.up_to is None or note.pitch.midi <= choice.up_to.midi:
        return low
    return low + TOO_HIGH + LEDGER * ((note.pitch.degree - choice.up_to.degree) // 2)


def under_octave_sign(phrase: Phrase, instrument: Instrument) -> frozenset[Place]:
    """The sounds that stand under an 8va sign.

    Runs of high notes in which one needs the sign: it covers a run as a whole, so that rising
    notes rise on the page too. A chord with a low note keeps its ledger lines.
    """
    limit = instrument.octave_sign_from.midi
    found: list[Place] = []
    run: list[Place] = []
    rests: list[Place] = []
    needed = False
    for place in places(phrase):
        heights = [note.pitch.midi for note in sound_at(phrase, place).notes]
        if not heights:
            rests.append(place)
        elif min(heights) >= limit - JOINS:
            run += [*rests, place] if run else [place]
            rests, needed = [], needed or max(heights) >= limit
        else:
            found += run if needed else []
            run, rests, needed = [], [], False
    return frozenset(found + (run if needed else []))
