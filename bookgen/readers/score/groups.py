"""Slurs of a score that are the player's own groups: a finger stands at the first note alone."""

from collections.abc import Iterator
from dataclasses import replace

from bookgen.model.phrase import Phrase, Sound


def with_slurs_kept(phrase: Phrase) -> Phrase:
    """The phrase with a group for each slur of which only the first note has a finger.

    Whoever writes one finger at the beginning of a slur wants one hand for all of it; where more
    fingers stand there, they say by themselves where the hand goes. Slurs that lie within a
    group, or over one, stay slurs.
    """
    sounds = [sound for _, sound in phrase.sounds()]
    for first, last in list(slurs(sounds)):
        inside = sounds[first : last + 1]
        free = not any(one.marking.hand_begins or one.marking.hand_ends for one in inside)
        if free and not open_before(sounds, first) and fingers_of(inside) == [0]:
            sounds[first] = begun(sounds[first])
            sounds[last] = ended(sounds[last])
    told = iter(sounds)
    bars = [replace(bar, sounds=tuple(next(told) for _ in bar.sounds)) for bar in phrase.bars]
    return Phrase(tuple(bars))


def slurs(sounds: list[Sound]) -> Iterator[tuple[int, int]]:
    """First and last sound of every slur that lies over no other one's beginning or end."""
    begins: list[int] = []
    for index, sound in enumerate(sounds):
        for _ in range(min(sound.marking.slurs_end, len(begins))):
            yield begins.pop(), index
        begins += [index] * sound.marking.slurs_begin


def open_before(sounds: list[Sound], index: int) -> bool:
    """Whether a group that began before a sound is still open there."""
    for sound in reversed(sounds[:index]):
        if sound.marking.hand_begins:
            return True
        if sound.marking.hand_ends:
            return False
    return False


def fingers_of(sounds: list[Sound]) -> list[int]:
    """The indexes of the sounds at which a finger that stops is given."""
    return [index for index, sound in enumerate(sounds) if any(note.finger for note in sound.notes)]


def begun(sound: Sound) -> Sound:
    """The sound with a group that begins."""
    return replace(sound, marking=replace(sound.marking, hand_begins=True))


def ended(sound: Sound) -> Sound:
    """The sound with a group that ends."""
    return replace(sound, marking=replace(sound.marking, hand_ends=True))
