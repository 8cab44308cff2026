"""A phrase with its fingering: what is told with each sound, and the brackets of groups."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise
from typing import TYPE_CHECKING, Final

from bookgen.model.instrument import NUMERALS
from bookgen.model.phrase import Phrase
from bookgen.model.stop import Stop
from bookgen.notation.sounds import Place, places, sound_at
from bookgen.notation.tie import Ties, ties_of
from bookgen.plan.passage import Fingering, Placed, Spot
from bookgen.plan.passage_facts import Change

if TYPE_CHECKING:
    from bookgen.model.pitch import Pitch

SEVERAL: Final = 3
DASH: Final = "\N{EN DASH}"
"""From one string to another, where three or more sound."""


@dataclass(frozen=True, slots=True)
class Mark:
    """What belongs to one sound. Its notes are told by their indexes, from the lowest.

    stops: to tell; without what is tied or cannot be played.
    strings: numerals to print, empty where the player stays on the string.
    unplayable: notes that no finger reaches.
    harmonics: natural ones among the stops.
    """

    stops: Mapping[int, Stop]
    strings: str
    unplayable: frozenset[int]
    harmonics: frozenset[int] = frozenset()


@dataclass(frozen=True, slots=True)
class Bracket:
    """A group over the staff.

    first, last: the sounds from which and to which it reaches, both included.
    """

    letter: str
    first: Place
    last: Place


NO_MARK: Final = Mark({}, "", frozenset())


@dataclass(frozen=True, slots=True)
class Reading:
    """What a player reads besides fingers and frames.

    changes: fingers that go low or high, by the index of the sound in the fingering.
    spots: hard ones, by their numbers under the staff.
    thin: fingers that follow from the one before are left out.
    """

    changes: Mapping[int, Sequence[Change]] = field(default_factory=dict)
    spots: Sequence[Spot] = ()
    thin: bool = False


PLAIN: Final = Reading()


@dataclass(frozen=True, slots=True)
class Fingered:
    """A phrase and what is printed with it, by the places of its sounds.

    opens, closes: where brackets of groups begin, with their letters, and end.
    arrows: by finger whether it stands higher or lower than before.
    hard, eased: where hard spots begin, with their numbers, and end.
    """

    phrase: Phrase
    marks: Mapping[Place, Mark]
    ties: Mapping[Place, Ties]
    opens: Mapping[Place, str]
    closes: frozenset[Place]
    arrows: Mapping[Place, Mapping[int, bool]] = field(default_factory=dict)
    hard: Mapping[Place, int] = field(default_factory=dict)
    eased: frozenset[Place] = frozenset()


def fingered(phrase: Phrase, fingering: Fingering, reading: Reading = PLAIN) -> Fingered:
    """Gather what is printed with a phrase."""
    brackets = list(brackets_of(phrase, fingering))
    marks = marks_of(phrase, fingering)
    order = [(placed.bar, placed.sound) for placed in fingering.placed]
    if reading.thin:
        for place in map(order.__getitem__, plain_fingers(fingering, reading)):
            marks[place] = replace(marks[place], stops={})
    return Fingered(
        phrase=phrase,
        marks=marks,
        ties=ties_of(phrase),
        opens={bracket.first: bracket.letter for bracket in brackets},
        closes=frozenset(bracket.last for bracket in brackets),
        arrows={
            order[index]: {change.now.finger: change.by > 0 for change in changes}
            for index, changes in reading.changes.items()
        },
        hard={order[spot.first]: spot.number for spot in reading.spots},
        eased=frozenset(order[spot.last] for spot in reading.spots),
    )


def plain_fingers(fingering: Fingering, reading: Reading) -> Iterator[int]:
    """The sounds whose finger follows from the one before: the same one, or its neighbour.

    A finger is told where a frame or a spot begins, where it goes low or high, at a new string or
    place, and in double stops.
    """
    begins = {group.first for group in fingering.groups} | {spot.first for spot in reading.spots}
    begins |= {*reading.changes}
    for index, (before, here) in enumerate(pairwise(fingering.placed), start=1):
        told = index in begins or not len(before.stops) == len(here.stops) == 1
        one, other = before.stops[0], here.stops[0]
        if told or one is None or other is None or one.string != other.string or here.touched:
            continue
        moved = None not in {before.hand, here.hand} and place_of(before) != place_of(here)
        held = one.finger and other.finger
        if held and not moved and abs(one.finger - other.finger) <= 1:
            yield index


def place_of(placed: Placed) -> int:
    """Where the hand lies; 0 where only open strings sound."""
    return placed.hand.place if placed.hand else 0


def marks_of(phrase: Phrase, fingering: Fingering) -> dict[Place, Mark]:
    """What to print over each sound that has a fingering."""
    found: dict[Place, Mark] = {}
    before: tuple[int, ...] = ()
    told = stops_of(phrase, fingering)
    for placed in fingering.placed:
        place = (placed.bar, placed.sound)
        stops = told[place]
        new = tuple(sorted((int(stop.string) for stop in stops.values()), reverse=True))
        changed = new not in {(), before}
        before = new or before
        notes = sound_at(phrase, place).notes
        found[place] = Mark(
            stops=stops,
            strings=strings_mark(new) if changed else "",
            unplayable=frozenset(index for index, stop in enumerate(placed.stops) if stop is None),
            harmonics=frozenset(
                index for index in stops if index in placed.touched or notes[index].harmonic
            ),
        )
    return found


def strings_mark(strings: Sequence[int]) -> str:
    """The numerals of strings that sound together; of three and more the outer ones.

    >>> strings_mark((4, 3)), strings_mark((4, 3, 2))
    ('IV+III', 'IV\u2013II')
    """
    numerals = [NUMERALS[string] for string in strings]
    return "+".join(numerals) if len(numerals) < SEVERAL else f"{numerals[0]}{DASH}{numerals[-1]}"


def stops_of(phrase: Phrase, fingering: Fingering) -> dict[Place, dict[int, Stop]]:
    """The stops to tell at each sound that has a fingering, by the index of the note.

    Those of the notes that are struck, and of a tied one whose stop is not what sounded before:
    at the beginning of an excerpt, and where no hand can hold the tie.
    """
    found: dict[Place, dict[int, Stop]] = {}
    sounding: dict[Pitch, Stop] = {}
    for placed in fingering.placed:
        notes = sound_at(phrase, (placed.bar, placed.sound)).notes
        stops = {index: stop for index, stop in enumerate(placed.stops) if stop is not None}
        found[placed.bar, placed.sound] = {
            index: stop
            for index, stop in stops.items()
            if not notes[index].tied or sounding.get(notes[index].pitch) != stop
        }
        sounding = {notes[index].pitch: stop for index, stop in stops.items()}
    return found


def brackets_of(phrase: Phrase, fingering: Fingering) -> Iterator[Bracket]:
    """The groups of a fingering; a group holds what its last sound is tied to."""
    order = places(phrase)
    after = dict(pairwise(order))
    begins = {(placed.bar, placed.sound) for placed in fingering.placed}
    for group in fingering.groups:
        first, last = fingering.placed[group.first], fingering.placed[group.last]
        end = (last.bar, last.sound)
        then = after.get(end)
        while then is not None and then not in begins and rings_on(phrase, then):
            end, then = then, after.get(then)
        yield Bracket(group.letter, (first.bar, first.sound), end)


def rings_on(phrase: Phrase, place: Place) -> bool:
    """Nothing new is struck there, but something sounds."""
    sound = sound_at(phrase, place)
    return not sound.is_rest and not sound.struck
