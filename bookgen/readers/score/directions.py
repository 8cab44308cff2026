"""What stands between the sounds of a score, put with the sounds that it belongs to."""

from bisect import bisect_left
from collections.abc import Iterable, Sequence
from dataclasses import replace
from fractions import Fraction

from bookgen.model.marking import NO_MARKING, Marking
from bookgen.model.phrase import Bar

Directions = Sequence[tuple[Fraction, Marking]]
"""What stands between the sounds of a bar, with its time in whole notes."""


def directed(bars: Sequence[Bar], directions: Iterable[Directions]) -> list[Bar]:
    """The bars with what stands between their sounds, which is given for each of them.

    Everything goes with the first sound from there on, but the end of a group with the last
    one before it. Of two dynamics before one sound the later one is there.
    """
    places = [
        (at, sound.at, index)
        for at, bar in enumerate(bars)
        for index, sound in enumerate(bar.sounds)
        if not sound.grace
    ]
    found: dict[tuple[int, int], Marking] = {}
    for at, between in enumerate(directions):
        for time, marking in between:
            after = bisect_left(places, (at, time, 0))
            ends = Marking(hand_ends=marking.hand_ends)
            rest = replace(marking, hand_ends=False)
            for where, one in ((after, rest), (after - 1, ends)):
                if one != NO_MARKING and 0 <= where < len(places):
                    bar, _, index = places[where]
                    found[bar, index] = one.beside(found.get((bar, index), NO_MARKING))
    return [with_markings(bar, at, found) for at, bar in enumerate(bars)]


def with_markings(bar: Bar, at: int, found: dict[tuple[int, int], Marking]) -> Bar:
    """A bar whose sounds have what stands with them besides; at: its index."""
    sounds = tuple(
        replace(sound, marking=found[at, index].beside(sound.marking))
        if (at, index) in found
        else sound
        for index, sound in enumerate(bar.sounds)
    )
    return replace(bar, sounds=sounds)
