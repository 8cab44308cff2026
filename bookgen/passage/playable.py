"""What of a sound can be played at all, and why the rest cannot."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import combinations, product

from bookgen.errors import Message, refused
from bookgen.model.finger import sign_of
from bookgen.model.instrument import NUMERALS, Instrument
from bookgen.model.phrase import WrittenNote
from bookgen.model.stop import Stop
from bookgen.passage.asked import open_alone, trills, with_free_finger
from bookgen.passage.event import Event
from bookgen.passage.lattice import Tie
from bookgen.passage.placement import Pose, Poses, neighbours, options

Kept = tuple[int, ...]
"""Indexes of the notes of an event that are played."""


@dataclass(frozen=True, slots=True)
class Playable:
    """An event and what of it the hand can do.

    kept: the notes that are played. poses: every way to do so; none where no note is left.
    told: what cannot be done.
    """

    event: Event
    kept: Kept
    poses: tuple[Pose, ...]
    told: tuple[Message, ...]

    def spread(self, stops: Sequence[Stop]) -> tuple[Stop | None, ...]:
        """The stops of a pose, one for each note, None for those left out."""
        found: list[Stop | None] = [None] * len(self.event.notes)
        for index, stop in zip(self.kept, stops, strict=True):
            found[index] = stop
        return tuple(found)

    def touched(self, pose: Pose) -> tuple[int, ...]:
        """The notes of the event that the pose plays as natural harmonics."""
        return tuple(self.kept[index] for index in pose.touched)

    def ties(self, before: "Playable") -> tuple[Tie, ...]:
        """The notes held over from the event before, as indexes into both poses."""
        return tuple(
            (before.kept.index(early), late)
            for late, index in enumerate(self.kept)
            for early in [self.event.held[index]]
            if early is not None and early in before.kept
        )


def playable(event: Event, poses: Poses, open_from: Fraction | None = None) -> Playable:
    """Find what can be played of an event: all, else all without given marks, else the most.

    Where it is trilled, a finger is free for it.

    open_from: from this length on, in whole notes, what open strings can play is played by them,
        unless a mark says otherwise; None where the player chooses.
    """
    found = all_or_most(event, poses)
    if trills(event) and found.poses:
        free = with_free_finger(found.poses, poses.shape)
        note = event.notes[found.kept[-1]]
        told = () if free else (refused("passage-trill", note=note.pitch),)
        return replace(found, poses=free or found.poses, told=(*found.told, *told))
    if open_from is not None and event.lasts >= open_from:
        return replace(found, poses=open_alone(found.poses) or found.poses)
    return found


def all_or_most(event: Event, poses: Poses) -> Playable:
    """What can be played of an event, whatever its signs."""
    every = tuple(range(len(event.notes)))
    found = poses.of(event.notes)
    if found:
        return Playable(event, every, found, ())
    given = [note for note in event.notes if plain(note) != note]
    bare = tuple(plain(note) for note in event.notes)
    if given and poses.of(bare):
        told = tuple(refused_mark(note, poses.instrument) for note in given)
        return Playable(event, every, poses.of(bare), told)
    return fewer(event, bare, poses)


def plain(note: WrittenNote) -> WrittenNote:
    """The note without what the source gives for it."""
    return replace(note, finger=None, string=None, harmonic=False)


def fewer(event: Event, bare: tuple[WrittenNote, ...], poses: Poses) -> Playable:
    """As many notes as can be played together; of as many, the highest ones."""
    for count in range(len(bare) - 1, 0, -1):
        for kept in sorted(combinations(range(len(bare)), count), reverse=True):
            found = poses.of(tuple(bare[index] for index in kept))
            if found:
                return Playable(event, kept, found, tuple(reasons(bare, kept, poses.instrument)))
    return Playable(event, (), (), tuple(reasons(bare, (), poses.instrument)))


def reasons(notes: Sequence[WrittenNote], kept: Kept, instrument: Instrument) -> Iterator[Message]:
    """Why each of the notes that are left out is."""
    together = [note.pitch for note in notes]
    span, most = narrowest(notes, instrument), instrument.hand.widest_span
    for index, note in enumerate(notes):
        if index in kept:
            continue
        outside = out_of_range(note, instrument)
        if outside is not None:
            yield outside
        elif span is not None and span > most:
            yield refused("passage-wide", notes=together, span=span, most=most, left_out=note.pitch)
        else:
            yield refused(
                "passage-chord", instrument=instrument.key, notes=together, left_out=note.pitch
            )


def narrowest(notes: Sequence[WrittenNote], instrument: Instrument) -> int | None:
    """How many half steps the fingers lie apart at the least; None on no neighbouring strings."""
    spans = []
    for chosen in product(*(options(instrument, note) for note in notes)):
        stopped = [one.semitones for one in chosen if one.semitones > 0]
        if neighbours([one.string for one in chosen]) and stopped:
            spans.append(max(stopped) - min(stopped))
    return min(spans, default=None)


def out_of_range(note: WrittenNote, instrument: Instrument) -> Message | None:
    """Why a note lies outside of the instrument, or None."""
    lowest, highest = instrument.lowest, instrument.strings[0]
    if note.pitch.midi < lowest.midi:
        return refused("passage-below", note=note.pitch, lowest=lowest)
    if note.pitch.midi > highest.midi + instrument.highest_stop:
        above, last = note.pitch.midi - highest.midi, instrument.highest_stop
        return refused("passage-above", note=note.pitch, semitones=above, last=last)
    return None


def refused_mark(note: WrittenNote, instrument: Instrument) -> Message:
    """What the source gives for a note and was not kept."""
    marks = [
        None if note.finger is None else refused("given-finger", finger=sign_of(note.finger)),
        None if note.string is None else refused("given-string", string=numeral(note.string)),
        refused("given-harmonic") if note.harmonic else None,
    ]
    given = [mark for mark in marks if mark]
    return refused("passage-given", note=note.pitch, instrument=instrument.key, given=given)


def numeral(string: int) -> str:
    """A given string as a numeral, also one that no instrument has."""
    return NUMERALS[string] if string in range(1, len(NUMERALS)) else str(string)
