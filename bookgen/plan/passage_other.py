"""Where another fingering of a passage lies elsewhere, and what it saves and costs there."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from bookgen.model.stop import Stop
from bookgen.plan.passage import Fingering, Passage, Placed

BETWEEN: Final = 2
"""Sounds on open strings that do not part a run."""

REST: Final = Fraction(3, 8)
"""Whole notes of rest that part two runs; own choice."""

MOST_SOUNDS: Final = 10
"""Sounds of a run that are shown; own choice."""

FOURTH: Final = 4


@dataclass(frozen=True, slots=True)
class Instead:
    """A run of sounds in which the hand lies elsewhere.

    saved, more: by kind, how many fewer and how many more there are: shift, crossing, open, fourth.
    """

    first: int
    last: int
    saved: dict[str, int]
    more: dict[str, int]


def instead_of(passage: Passage) -> Instead | None:
    """The longest run in which the other way saves something; None where none does."""
    other = passage.other
    if other is None:
        return None
    found = [weighed(passage.best, other, *run) for run in runs_of(passage)]
    saving = [one for one in found if one.saved]
    return max(saving, key=lambda one: (one.last - one.first, -one.first), default=None)


def runs_of(passage: Passage) -> Iterator[tuple[int, int]]:
    """First and last sound of every run with another place; open strings between do not part it."""
    best, other = passage.best.placed, passage.other.placed if passage.other else ()
    start: int | None = None
    end = 0
    for index, (one, two) in enumerate(zip(best, other, strict=True)):
        if one.hand is None or two.hand is None or one.hand.place == two.hand.place:
            continue
        if start is not None and (index - end > BETWEEN or rests(passage, end, index)):
            yield start, min(end, start + MOST_SOUNDS - 1)
            start = None
        start, end = index if start is None else start, index
    if start is not None:
        yield start, min(end, start + MOST_SOUNDS - 1)


def rests(passage: Passage, first: int, last: int) -> bool:
    """A long rest stands between two sounds."""
    one, other = passage.best.placed[first], passage.best.placed[last]
    sounds = [
        sound
        for bar in range(one.bar, other.bar + 1)
        for at, sound in enumerate(passage.phrase.bars[bar].sounds)
        if (one.bar, one.sound) < (bar, at) < (other.bar, other.sound)
    ]
    return any(sound.is_rest and sound.duration >= REST for sound in sounds)


def weighed(best: Fingering, other: Fingering, first: int, last: int) -> Instead:
    """What the other way has fewer and more of in a run, with the step out of it."""
    end = min(last + 1, len(best.placed) - 1)
    ours, theirs = counted(best, first, end), counted(other, first, end)
    kinds = sorted(ours | theirs)
    saved = {kind: ours[kind] - theirs[kind] for kind in kinds if ours[kind] > theirs[kind]}
    more = {kind: theirs[kind] - ours[kind] for kind in kinds if theirs[kind] > ours[kind]}
    return Instead(first, last, saved, more)


def counted(fingering: Fingering, first: int, last: int) -> Counter[str]:
    """Shifts, crossings, open strings and fourth fingers of some sounds."""
    found: Counter[str] = Counter()
    for index in range(first, last + 1):
        here = fingering.placed[index]
        stops = stops_of(here)
        found["shift"] += here.cost.get("shift", 0.0) > 0
        found["open"] += any(not stop.finger for stop in stops)
        found["fourth"] += any(stop.finger == FOURTH for stop in stops)
        before = stops_of(fingering.placed[index - 1]) if index else []
        found["crossing"] += bool(before and stops and before[-1].string != stops[-1].string)
    return found


def stops_of(placed: Placed) -> list[Stop]:
    """What is played at a sound."""
    return [stop for stop in placed.stops if stop is not None]
