"""Notes of several voices as the sounds of one player: what is held over others is tied on."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise
from typing import Final

from bookgen.model.marking import NO_MARKING, Marking
from bookgen.model.phrase import MOST_NOTES, Bar, Sound, WrittenNote

MOST_TOGETHER: Final = 16
"""Notes and chords that go on at the same time."""


@dataclass(frozen=True, slots=True)
class Timed:
    """Notes of one voice that begin together, or a rest.

    start, length: in whole notes, from the beginning of the bar; length 0 is a grace note.
    marking: what stands with it.
    """

    start: Fraction
    length: Fraction
    notes: tuple[WrittenNote, ...]
    marking: Marking = NO_MARKING

    @property
    def end(self) -> Fraction:
        """When it is over."""
        return self.start + self.length


@dataclass(frozen=True, slots=True)
class Merged:
    """A bar's voices as one.

    held: notes of one voice go on while another one moves.
    crowded: more notes sounded together than a bow takes; the highest are here.
    """

    sounds: tuple[Sound, ...]
    held: bool
    crowded: bool


def merged(voices: Sequence[Sequence[Timed]], length: Fraction) -> Merged:
    """Put the voices of a bar together, so that its sounds follow without gaps.

    Notes that begin together make a chord. Where one is held while another begins or ends it is
    cut there and tied on. The same pitch in two voices is one note, in one chord it is a unison
    on two strings. A rest stands only where no voice sounds; silence without one is filled.

    length: of the bar in whole notes.
    """
    everything = [timed for voice in voices for timed in voice]
    graces = [timed for timed in everything if not timed.length and timed.notes]
    sounding = [timed for timed in everything if timed.length and timed.notes]
    cuts = {Fraction(0), length, *(one.start for one in everything if not one.length)}
    cuts |= {edge for one in sounding for edge in (one.start, one.end)}
    times = sorted(cut for cut in cuts if 0 <= cut <= length)
    rests = {one.start: one.marking for one in everything if one.length and not one.notes}
    sounds: list[Sound] = [
        Sound(
            min(one.start, length), one.length, rising(one.notes), grace=True, marking=one.marking
        )
        for one in graces
    ]
    held = crowded = False
    for start, end, together in slices(sounding, times):
        if not together:
            sounds += silence(start, end, rests)
            continue
        notes = joined(together, start)
        held |= any(one.start < start for one in together)
        crowded |= len(notes) > MOST_NOTES
        marking = marking_at(start, together)
        sounds.append(Sound(start, end - start, notes[-MOST_NOTES:], marking=marking))
    sounds.sort(key=lambda sound: (sound.at, not sound.grace))
    return Merged(tuple(sounds), held, crowded)


def slices(
    sounding: Sequence[Timed], times: Sequence[Fraction]
) -> Iterator[tuple[Fraction, Fraction, list[Timed]]]:
    """From each time to the next, with what sounds there, in the order of the voices.

    Of a crowd that no music has, the first are taken.
    """
    order = {id(one): index for index, one in enumerate(sounding)}
    waiting = sorted(sounding, key=lambda one: one.start, reverse=True)
    together: list[Timed] = []
    for start, end in pairwise(times):
        together = [one for one in together if one.end > start]
        while waiting and waiting[-1].start <= start:
            together.append(waiting.pop())
        together = sorted(together, key=lambda one: order[id(one)])[:MOST_TOGETHER]
        yield start, end, together


def joined(together: Sequence[Timed], start: Fraction) -> tuple[WrittenNote, ...]:
    """One chord of what sounds together, from low to high.

    start: of the slice; what began before is tied on.
    """
    chord: list[WrittenNote] = []
    for one in together:
        known = {note.pitch.midi: place for place, note in enumerate(chord)}
        for note in one.notes:
            going = replace(note, tied=True) if one.start < start else note
            place = known.get(note.pitch.midi)
            if place is None:
                chord.append(going)
            elif not going.tied:
                chord[place] = both(chord[place], going)
    return rising(chord)


def marking_at(start: Fraction, together: Iterable[Timed]) -> Marking:
    """What stands with all that begins at a time."""
    found = NO_MARKING
    for one in together:
        if one.start == start:
            found = found.beside(one.marking)
    return found


def both(one: WrittenNote, other: WrittenNote) -> WrittenNote:
    """The same note in two voices: what either of them says; it is struck."""
    return replace(
        one,
        finger=other.finger if one.finger is None else one.finger,
        string=other.string if one.string is None else one.string,
        tied=False,
        harmonic=one.harmonic or other.harmonic,
    )


def rising(notes: Sequence[WrittenNote]) -> tuple[WrittenNote, ...]:
    """Notes from low to high."""
    return tuple(sorted(notes, key=lambda note: note.pitch.midi))


def silence(start: Fraction, end: Fraction, rests: Mapping[Fraction, Marking]) -> Iterator[Sound]:
    """Rests as they are written between two times.

    rests: where one begins, with what stands with it.
    """
    edges = [start, *sorted(rest for rest in rests if start < rest < end), end]
    for here, there in pairwise(edges):
        yield Sound(here, there - here, (), marking=rests.get(here, NO_MARKING))


def only_true_ties(bars: Sequence[Bar]) -> tuple[Bar, ...]:
    """The bars without ties to a note that does not sound just before: those are struck."""
    before: frozenset[int] = frozenset()
    result = []
    for bar in bars:
        sounds = []
        for sound in bar.sounds:
            notes = tuple(
                replace(note, tied=note.tied and note.pitch.midi in before) for note in sound.notes
            )
            sounds.append(replace(sound, notes=notes))
            here = frozenset(note.pitch.midi for note in notes)
            before = before | here if sound.grace else here
        result.append(replace(bar, sounds=tuple(sounds)))
    return tuple(result)
