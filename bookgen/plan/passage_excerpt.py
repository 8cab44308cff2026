"""A hard spot of a passage by itself, as it is engraved beside its drills."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import groupby

from bookgen.model.phrase import Bar, Phrase, with_whole_lines
from bookgen.plan.passage import Fingering, Group, Passage, Placed, Spot
from bookgen.plan.passage_facts import Change, changes_of
from bookgen.plan.passage_other import Instead


@dataclass(frozen=True, slots=True)
class Excerpt:
    """A hard spot by itself, with its fingering, to be engraved.

    number: of the spot; changes: fingers that go low or high, by the index of the sound in it.
    """

    number: int
    phrase: Phrase
    fingering: Fingering
    changes: Mapping[int, tuple[Change, ...]]


def excerpts_of(passage: Passage) -> list[Excerpt]:
    """Every hard spot, in the order of the passage."""
    changes = changes_of(passage.best)
    return [excerpt_of(passage, spot, changes) for spot in passage.spots]


def other_excerpt(phrase: Phrase, other: Fingering, instead: Instead) -> Excerpt:
    """A run of sounds as another way has them, its positions as brackets."""
    first, last = beginning(phrase, other.placed, instead.first), instead.last
    cut = cut_out(phrase, other.placed, first, last)
    groups = tuple(
        replace(
            group,
            letter=group.position,
            first=max(group.first, first) - first,
            last=min(group.last, last) - first,
            passing=(),
        )
        for group in other.groups
        if group.first <= last and first <= group.last and group.position
    )
    return Excerpt(0, cut.phrase, replace(cut.fingering, groups=tuple(merged(groups))), {})


def merged(groups: Sequence[Group]) -> Iterator[Group]:
    """Groups of one position after each other as one."""
    for _, alike in groupby(groups, key=lambda group: group.letter):
        run = list(alike)
        yield replace(run[0], last=run[-1].last)


def excerpt_of(passage: Passage, spot: Spot, changes: Mapping[int, tuple[Change, ...]]) -> Excerpt:
    """A spot's own sounds.

    changes: of the whole passage. Of the first sound they are left out: what it was before is not
    there to be seen.
    """
    first = beginning(passage.phrase, passage.best.placed, spot.first)
    own = {
        index - first: changed
        for index, changed in changes.items()
        if spot.first < index <= spot.last
    }
    cut = cut_out(passage.phrase, passage.best.placed, first, spot.last)
    return replace(cut, number=spot.number, changes=own)


def beginning(phrase: Phrase, placed: Sequence[Placed], start: int) -> int:
    """Where an excerpt begins: with grace notes that close a bar comes the note before them."""
    while start and closes(phrase, placed[start]):
        start -= 1
    return start


def closes(phrase: Phrase, placed: Placed) -> bool:
    """Whether from a sound to the end of its bar there are only grace notes."""
    return all(sound.grace for sound in phrase.bars[placed.bar].sounds[placed.sound :])


def cut_out(phrase: Phrase, placed: Sequence[Placed], start: int, end: int) -> Excerpt:
    """The bars of some sounds with these alone, without meter and without empty time."""
    placed = placed[start : end + 1]
    first, last = placed[0], placed[-1]
    bars: list[Bar] = []
    moved: list[Placed] = []
    for index in range(first.bar, last.bar + 1):
        bar = phrase.bars[index]
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
        bars.append(replace(bar, sounds=tuple(bar.sounds[number] for number in kept), meter=None))
    opening = replace(bars[0], sharps=sharps_at(phrase, first.bar))
    cut = Phrase(with_whole_lines(cropped([untied(opening), *bars[1:]])))
    return Excerpt(0, cut, Fingering(tuple(moved), (), 0.0, ()), {})


def cropped(bars: Sequence[Bar]) -> Iterator[Bar]:
    """Bars without the time before the first sound and after the last one."""
    first, *rest = bars
    start = first.sounds[0].at
    sounds = tuple(replace(sound, at=sound.at - start) for sound in first.sounds)
    *others, last = [replace(first, sounds=sounds, length=first.length - start), *rest]
    yield from others
    end = last.sounds[-1].at + last.sounds[-1].duration
    yield replace(last, length=end or last.length)


def untied(bar: Bar) -> Bar:
    """A bar whose first sound is struck, also where it was tied to one before."""
    first, *rest = bar.sounds
    struck = replace(first, notes=tuple(replace(note, tied=False) for note in first.notes))
    return replace(bar, sounds=(struck, *rest))


def told_until(phrase: Phrase, bar: int) -> Iterator[Bar]:
    """The bars up to one, the last first."""
    return reversed(phrase.bars[: bar + 1])


def sharps_at(phrase: Phrase, bar: int) -> int:
    """The key signature that holds in a bar."""
    return next((one.sharps for one in told_until(phrase, bar) if one.sharps is not None), 0)
