"""What happens in a phrase one after the other: notes that are struck, and the time around them."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from bookgen.model.marking import Sign
from bookgen.model.phrase import Phrase, Sound, WrittenNote


@dataclass(frozen=True, slots=True)
class Event:
    """A sound in which at least one note is struck.

    bar, sound: indexes into the phrase.
    notes: all that sound, those tied over from the event before included.
    lasts: whole notes until the next event or rest; ties that only go on are part of it.
    silence: whole notes of rest before it.
    quick: it is a grace note, without time of its own.
    held: by note, the index of the note of the event before that goes on in it, or None.
    slurred: a slur leads to it from an earlier sound.
    kept: it lies in a group of the player's own, after its first sound.
    signs: those over it.
    """

    bar: int
    sound: int
    notes: tuple[WrittenNote, ...]
    lasts: Fraction
    silence: Fraction
    quick: bool
    held: tuple[int | None, ...]
    slurred: bool = False
    kept: bool = False
    signs: tuple[Sign, ...] = ()


def events_of(phrase: Phrase) -> list[Event]:
    """All events of a phrase in the order of time."""
    events: list[Event] = []
    silence = Fraction(0)
    slurs, hand = 0, False
    for (bar, index), sound in numbered(phrase):
        slurred, kept = slurs > 0, hand
        marking = sound.marking
        slurs += marking.slurs_begin - marking.slurs_end
        hand = marking.hand_begins or (hand and not marking.hand_ends)
        if sound.is_rest:
            silence += sound.duration
            continue
        before = events[-1].notes if events and silence == 0 else ()
        held = tuple(goes_on(note, before) for note in sound.notes)
        if None not in held:
            events[-1] = replace(events[-1], lasts=events[-1].lasts + sound.duration)
            continue
        time = (sound.duration, silence, sound.grace)
        lines = (slurred, kept, marking.signs)
        events.append(Event(bar, index, sound.notes, *time, held, *lines))
        silence = Fraction(0)
    return events


def numbered(phrase: Phrase) -> Iterator[tuple[tuple[int, int], Sound]]:
    """Every sound with the index of its bar and its own in the bar."""
    for bar, entry in enumerate(phrase.bars):
        for index, sound in enumerate(entry.sounds):
            yield (bar, index), sound


def goes_on(note: WrittenNote, before: tuple[WrittenNote, ...]) -> int | None:
    """The index of the note before that this one only goes on from."""
    if note.tied:
        for index, other in enumerate(before):
            if other.pitch.midi == note.pitch.midi:
                return index
    return None
