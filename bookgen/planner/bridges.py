"""What leads over a gap between the positions of an area, where nothing else does."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import pairwise

from bookgen.model.drill import OCTAVE
from bookgen.model.instrument import Instrument
from bookgen.model.spacing import Frame
from bookgen.model.units import Semitones
from bookgen.planner.framing import framed, joined, nested, places_of
from bookgen.planner.sparing import WIDEST_STEP

Hand = tuple[Frame, Semitones]
"""A frame and its place."""


def bridges(places: Iterable[Hand], instrument: Instrument) -> Mapping[Hand, list[Semitones]]:
    """For a hand the next places of the same frame beyond a gap that no other change leads over.

    places: every frame at every place of the area.
    """
    held = dict.fromkeys(places)
    heights: dict[Frame, list[Semitones]] = {}
    for frame, place in held:
        heights.setdefault(frame, []).append(place)
    gaps = [
        (frame, low, high)
        for frame, own in heights.items()
        for low, high in pairwise(sorted(own))
        if high - low > WIDEST_STEP
    ]
    found: dict[Hand, list[Semitones]] = {}
    island = islands([*held], instrument) if gaps else {}
    for frame, low, high in gaps:
        if island[frame, low] != island[frame, high]:
            found.setdefault((frame, low), []).append(high)
            found.setdefault((frame, high), []).append(low)
    return found


def islands(held: Sequence[Hand], instrument: Instrument) -> dict[Hand, int]:
    """Hands that changes of one thing join have one number."""
    frames = tuple(dict.fromkeys(frame for frame, _ in held))
    known, found = {*held}, dict[Hand, int]()
    for number, hand in enumerate(held):
        reached = [] if hand in found else [hand]
        while reached:
            last = reached.pop()
            found[last] = number
            near = beside(last, frames, instrument)
            reached += [one for one in near if one in known and one not in found]
    return found


def beside(hand: Hand, frames: tuple[Frame, ...], instrument: Instrument) -> Iterator[Hand]:
    """Every hand that differs in one thing, whether or not the area has it."""
    frame, place = hand
    for step in (*range(-WIDEST_STEP, WIDEST_STEP + 1), OCTAVE, -OCTAVE):
        yield frame, Semitones(place + step)
    for _, other in framed(frame, frames):
        yield from ((other, at) for at in places_of(frame, other, place))
    for other in frames:
        at = joined(frame, place, other)
        if at is not None:
            yield other, at
    yield from nested(frame, place, frames, instrument)
