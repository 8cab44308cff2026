"""In which clef a drill is read, and in which ones a passage."""

from collections.abc import Mapping, Sequence
from typing import Final

from bookgen.model.event import Event
from bookgen.model.instrument import ClefChoice, Instrument
from bookgen.model.phrase import Bar, Phrase, WrittenNote
from bookgen.model.pitch import Pitch
from bookgen.notation.octave import octave_signs

BOTTOM_LINES: Final = {
    name: Pitch.parse(pitch).degree
    for name, pitch in {"treble": "E4", "alto": "F3", "tenor": "D3", "bass": "G2"}.items()
}
"""The note on the lowest line of the staff, as a place on the staff."""

TOP_LINE: Final = 8
"""Places from the lowest line of the staff to the highest."""

OCTAVE: Final = 7
"""Places from a note to where it stands under an 8va sign."""

MORE_IF_KEPT: Final = 0.25
"""So many ledger lines a note may have more, for a drill to stay in the clef of the drill on which
it hangs (own choice)."""

MORE_IF_LOWER: Final = 1.0
"""So many a note may have more for a lower clef to be taken than the one with the fewest (own
choice; the lowest clef that will do: E. Gould, Behind Bars, 2011, ch. 14)."""

LEDGERS_READ: Final = 1
"""Ledger lines below the staff that are not counted (own choice)."""

LINES_BELOW: Final = 2
"""So many ledger lines below its staff a clef may need that a drill takes for sparing lines above:
two or three before a change (E. Gould, Behind Bars, 2011, ch. 14; two is an own choice)."""

NEW_CLEF: Final = 4.0
"""A change of clef is worth it for as many notes that are hard to read (own choice)."""

NOT_ITS_OWN: Final = 0.2
"""What a note costs that is read in another than the instrument's first clef (own choice)."""

TOO_HIGH: Final = 1.0
TOO_LOW: Final = 0.5
LEDGER: Final = 0.5
"""What a note costs for being too high or low, and for each ledger line too many (own choice)."""


def clef_of(events: Sequence[Event], instrument: Instrument, before: str | None = None) -> str:
    """The clef of a drill: the one it comes from, or the instrument's, unless another spares many.

    Of the others it is the first one in the instrument's order that does with few more lines. A
    clef whose drills go no higher is left where another does with fewer and reads the low notes.

    before: the clef of the drill to which this one is linked.
    """
    own = instrument.clefs[0]
    lines = {one.clef: ledger_lines(events, one.clef, instrument) for one in instrument.clefs}
    fewest = min(lines.values())
    deep = min(note.pitch.degree for event in events for note in event.notes)
    reads = [lines[name] for name in lines if ledgers(deep - BOTTOM_LINES[name]) <= LINES_BELOW]
    spared = min(reads, default=fewest)
    high = {
        one.clef for one in instrument.clefs if lines[one.clef] > spared and is_above(events, one)
    }
    kept = before if before in lines else own.clef
    more = own.more_lines if kept == own.clef else MORE_IF_KEPT
    if kept not in high and lines[kept] <= fewest + more * len(events):
        return kept
    others = (name for name in lines if name != kept and name not in high)
    return next(name for name in others if lines[name] <= fewest + MORE_IF_LOWER * len(events))


def is_above(events: Sequence[Event], choice: ClefChoice) -> bool:
    """Whether a drill goes higher than drills in that clef do."""
    last = choice.drills_to
    return last is not None and any(
        note.pitch.midi > last.midi for event in events for note in event.notes
    )


def ledger_lines(events: Sequence[Event], clef: str, instrument: Instrument) -> int:
    """All ledger lines that a drill's notes need in a clef, above the staff and below it."""
    bottom = BOTTOM_LINES[clef]
    return sum(
        ledgers(note.pitch.degree - OCTAVE * sign - bottom)
        for event, sign in zip(events, octave_signs(events, instrument), strict=True)
        for note in event.notes
    )


def ledgers(place: int) -> int:
    """Ledger lines of a note, by its place above the lowest line of the staff.

    >>> [ledgers(place) for place in (-4, -2, -1, 0, 9, 10, 12)]
    [2, 1, 0, 0, 0, 1, 2]
    """
    return max(-place // 2, (place - TOP_LINE) // 2, 0)


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
            at: costs[before] + NEW_CLEF * (before != at) + effort(bar, instrument, at)
            for at, before in come.items()
        }
    best = min(costs, key=lambda at: (costs[at], at))
    return tuple(choices[at].clef for at in ways[best])


def easiest(costs: Mapping[int, float], at: int) -> int:
    """The clef of the bar before from which it is easiest to come to this one."""
    return min(costs, key=lambda before: costs[before] + NEW_CLEF * (before != at))


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
