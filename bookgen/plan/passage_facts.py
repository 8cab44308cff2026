"""What follows from a fingered passage: bars, notes, lowest finger and moves of its groups."""

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import pairwise

from bookgen.model.interval import Interval
from bookgen.model.phrase import Phrase
from bookgen.model.stop import Note
from bookgen.plan.passage import Fingering, Group, Placed


def placed_in(group: Group, fingering: Fingering) -> Sequence[Placed]:
    """The sounds of a group."""
    return fingering.placed[group.first : group.last + 1]


def bars_of(group: Group, fingering: Fingering, phrase: Phrase) -> tuple[str, ...]:
    """The numbers of the bars in which a group plays."""
    bars = dict.fromkeys(placed.bar for placed in placed_in(group, fingering))
    return tuple(phrase.bars[bar].number for bar in bars)


def notes_at(placed: Placed, phrase: Phrase, *, struck: bool = False) -> tuple[Note, ...]:
    """The notes of a sound with their stops, without what cannot be played.

    struck: without those that are tied over.
    """
    notes = phrase.bars[placed.bar].sounds[placed.sound].notes
    return tuple(
        Note(stop, note.pitch, held=note.tied)
        for note, stop in zip(notes, placed.stops, strict=True)
        if stop is not None and not (struck and note.tied)
    )


def notes_of(group: Group, fingering: Fingering, phrase: Phrase) -> tuple[Note, ...]:
    """Every stop of a group once, in the order in which they come, with its note."""
    found: dict[object, Note] = {}
    for placed in placed_in(group, fingering):
        for note in notes_at(placed, phrase):
            found.setdefault(note.stop, note)
    return tuple(found.values())


def lowest_of(group: Group, fingering: Fingering, phrase: Phrase) -> Note | None:
    """The lowest finger of a group with the first note that it plays at the group's place.

    None for open strings alone.
    """
    stopped = [note for note in notes_of(group, fingering, phrase) if note.stop.finger]
    at_place = [note for note in stopped if note.stop.semitones == group.place]
    return min(at_place or stopped, key=lambda note: note.stop.finger, default=None)


def moves_of_group(group: Group, fingering: Fingering, phrase: Phrase) -> Counter[tuple[str, bool]]:
    """How often each interval is met in a group: its label, and whether it crosses strings.

    From each sound's last note to the next single one; a double stop is named by its own
    interval, see `stops_of_group`.
    """
    found: Counter[tuple[str, bool]] = Counter()
    sounds = [notes_at(placed, phrase, struck=True) for placed in placed_in(group, fingering)]
    for before, after in pairwise(filter(None, sounds)):
        one, other = before[-1], after[-1]
        if len(after) > 1:
            continue
        interval = Interval.between(one.pitch, other.pitch)
        if one.stop != other.stop and named(interval):
            found[interval.label, one.stop.string != other.stop.string] += 1
    return found


def stops_of_group(group: Group, fingering: Fingering, phrase: Phrase) -> Counter[str]:
    """How often each interval between neighbouring notes of a chord is met in a group."""
    found: Counter[str] = Counter()
    for placed in placed_in(group, fingering):
        notes = notes_at(placed, phrase)
        found.update(
            interval.label
            for low, high in pairwise(notes)
            if named(interval := Interval.between(low.pitch, high.pitch))
        )
    return found


def named(interval: Interval) -> bool:
    """The interval has a name."""
    try:
        return bool(interval.label)
    except ValueError:
        return False


def differing(one: Fingering, other: Fingering) -> Iterator[tuple[int, int]]:
    """Where two fingerings of one phrase differ: first and last index of each run of sounds."""
    apart = [
        index
        for index, (here, there) in enumerate(zip(one.placed, other.placed, strict=True))
        if here.stops != there.stops
    ]
    start: int | None = None
    for at, index in enumerate(apart):
        start = index if start is None else start
        if at + 1 == len(apart) or apart[at + 1] > index + 1:
            yield start, index
            start = None
