"""A group of a passage by itself: its own notes in order, evenly, and then in their rhythm."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Final

from bookgen.model.phrase import Bar, Phrase, Sound
from bookgen.plan.passage import Fingering, Group, Passage, Placed

EVEN: Final = Fraction(1, 4)
"""Each note of a group lasts as long as any other."""

FEWEST: Final = 3
"""Sounds from which on a group is worth an excerpt."""


@dataclass(frozen=True, slots=True)
class Excerpt:
    """Part of a passage with its fingering, to be engraved by itself.

    letter: of the group.
    """

    letter: str
    phrase: Phrase
    fingering: Fingering


def excerpts_of(passage: Passage) -> list[Excerpt]:
    """Two for every group with a ladder and enough notes: even ones, and those in rhythm."""
    letters = {ladder.group for ladder in passage.ladders}
    groups = [group for group in passage.best.groups if group.letter in letters]
    long = [group for group in groups if group.last - group.first + 1 >= FEWEST]
    return [made for group in long for made in (evenly(passage, group), in_rhythm(passage, group))]


def evenly(passage: Passage, group: Group) -> Excerpt:
    """The group's sounds one after the other, each as long as the others; ties are struck."""
    placed = placed_in(passage, group)
    sounds = [
        Sound(EVEN * index, EVEN, tuple(replace(note, tied=False) for note in sound.notes))
        for index, sound in enumerate(sound_of(passage, one) for one in placed)
    ]
    length = EVEN * len(sounds)
    first = passage.phrase.bars[placed[0].bar]
    sharps = sharps_at(passage.phrase, placed[0].bar)
    bar = Bar(first.number, tuple(sounds), length, None, sharps)
    moved = tuple(replace(one, bar=0, sound=index) for index, one in enumerate(placed))
    return Excerpt(group.letter, Phrase((bar,)), fingered(moved))


def in_rhythm(passage: Passage, group: Group) -> Excerpt:
    """The group's bars with its own sounds alone."""
    placed = placed_in(passage, group)
    first, last = placed[0], placed[-1]
    bars: list[Bar] = []
    moved: list[Placed] = []
    for index in range(first.bar, last.bar + 1):
        bar = passage.phrase.bars[index]
        kept = [
            number
            for number in range(len(bar.sounds))
            if (first.bar, first.sound) <= (index, number) <= (last.bar, last.sound)
        ]
        own = {one.sound: one for one in placed if one.bar == index}
        moved += [
            replace(own[number], bar=len(bars), sound=order)
            for order, number in enumerate(kept)
            if number in own
        ]
        bars.append(replace(bar, sounds=tuple(bar.sounds[number] for number in kept)))
    meter = meter_at(passage.phrase, first.bar)
    opening = replace(bars[0], meter=meter, sharps=sharps_at(passage.phrase, first.bar))
    phrase = Phrase((untied(opening), *bars[1:]))
    return Excerpt(group.letter, phrase, fingered(tuple(moved)))


def untied(bar: Bar) -> Bar:
    """A bar whose first sound is struck, also where it was tied to one before."""
    first, *rest = bar.sounds
    struck = replace(first, notes=tuple(replace(note, tied=False) for note in first.notes))
    return replace(bar, sounds=(struck, *rest))


def placed_in(passage: Passage, group: Group) -> tuple[Placed, ...]:
    """The placed sounds of a group."""
    return passage.best.placed[group.first : group.last + 1]


def sound_of(passage: Passage, placed: Placed) -> Sound:
    """What a placed sound is in the phrase."""
    return passage.phrase.bars[placed.bar].sounds[placed.sound]


def fingered(placed: tuple[Placed, ...]) -> Fingering:
    """The fingering of an excerpt: no groups are marked in it."""
    return Fingering(placed, (), 0.0, ())


def told_until(phrase: Phrase, bar: int) -> Iterator[Bar]:
    """The bars up to one, the last first."""
    return reversed(phrase.bars[: bar + 1])


def sharps_at(phrase: Phrase, bar: int) -> int:
    """The key signature that holds in a bar."""
    return next((one.sharps for one in told_until(phrase, bar) if one.sharps is not None), 0)


def meter_at(phrase: Phrase, bar: int) -> tuple[int, int] | None:
    """The meter that holds in a bar, or None where nobody told it."""
    return next((one.meter for one in told_until(phrase, bar) if one.meter is not None), None)
