"""What a spot or a frame asks of drills: its moves and double stops, the hardest first."""

from collections.abc import Collection, Iterable, Iterator, Sequence
from itertools import pairwise

from bookgen.model.stop import Stop
from bookgen.model.weights import Effort
from bookgen.passage.points import pair_effort
from bookgen.passage.sounds import Sounds
from bookgen.plan.passage import Need
from bookgen.plan.passage_facts import changes_of

TOGETHER, CROSSES = 4.0, 2.0
"""More weight than any pair of fingers has; own choice."""


def needs_of(indexes: Iterable[int], sounds: Sounds, effort: Effort) -> list[Need]:
    """What some sounds ask, each once.

    indexes: of the sounds, rising; what lies between two that are no neighbours is left out.
    """
    chosen = list(indexes)
    found = dict.fromkeys(raw_needs(chosen, sounds))
    met = {stop for need in found for stop in (need.first, need.then)}
    found |= dict.fromkeys(turned(chosen, sounds, met))
    return sorted(found, key=lambda need: -weight_of(need, effort))


def raw_needs(indexes: Sequence[int], sounds: Sounds) -> Iterator[Need]:
    """Every double stop and every move of fingers."""
    for index in indexes:
        for low, high in pairwise(sounds.stopped(index)):
            if low.string - high.string == 1 and low != high:
                yield Need(low, high, together=True, place=sounds.place(index) or 0)
    for before, index in pairwise(indexes):
        if index - before == 1:
            yield from moves(before, index, sounds)


def moves(before: int, index: int, sounds: Sounds) -> Iterator[Need]:
    """From a single note to the next one, fingers on both."""
    came, place = sounds.place(before), sounds.place(index)
    one, other = sounds.played(before), sounds.played(index)
    if came is None or place is None or len(one) != 1 or len(other) != 1 or one == other:
        return
    yield Need(one[0], other[0], together=False, place=place, shift=place - came)


def turned(indexes: Iterable[int], sounds: Sounds, met: Collection[Stop]) -> Iterator[Need]:
    """A finger that has gone low or high among open strings.

    It is tried against the nearest finger of its frame on the same string.
    """
    changes = changes_of(sounds.fingering)
    for index in indexes:
        group = next(one for one in sounds.fingering.groups if one.first <= index <= one.last)
        for now in (change.now for change in changes.get(index, ()) if change.now not in met):
            beside = [
                stop
                for stop in group.stops
                if stop.string == now.string and stop.finger != now.finger
            ]
            if beside and now in group.stops:
                first = min(beside, key=lambda stop: (abs(stop.finger - now.finger), stop))
                yield Need(first, now, together=False, place=sounds.place(index) or 0)


def weight_of(need: Need, effort: Effort) -> float:
    """How much it weighs that a drill has it: together, then across, then along a string."""
    crosses = need.first.string != need.then.string
    base = TOGETHER if need.together else CROSSES if crosses else 1.0
    return base + pair_effort(need.first, need.then, effort)
