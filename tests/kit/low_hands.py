"""What the hands of cello and double bass take, written down by hand: an oracle for fingerings."""

from collections.abc import Iterable, Iterator

from bookgen.model.finger import THUMB
from bookgen.model.stop import Stop
from bookgen.plan.passage import Placed

CELLO_NECK = (
    {1: 0, 2: 1, 3: 2, 4: 3},  # closed
    {1: 0, 2: 2, 3: 3, 4: 4},  # extended forward
    {1: -1, 2: 1, 3: 2, 4: 3},  # extended back
)
BASS_NECK = ({1: 0, 2: 1, 4: 2}, {1: 0, 3: 1, 4: 2})  # 1-2-4, or 1-3-4
UPPER = (
    {1: 0, 2: 1, 3: 2},
    {1: 0, 2: 1, 3: 3},
    {1: 0, 2: 2, 3: 3},
    {1: 0, 2: 2, 3: 4},
)
"""Semitones of each finger from the place of finger 1; cello teachers, Hause and Simandl."""

BASS_THUMB = (
    {THUMB: -1, 1: 0, 2: 1, 3: 2},
    {THUMB: -2, 1: 0, 2: 1, 3: 2},
    {THUMB: -2, 1: 0, 2: 2, 3: 3},
    {THUMB: -2, 1: 0, 2: 1, 3: 3},
)
"""From the octave up, with the thumb; from memory, after Petracchi."""

CELLO_THUMB = (
    {THUMB: -2, 1: 0, 2: 2, 3: 3},
    {THUMB: -2, 1: 0, 2: 1, 3: 3},
    {THUMB: -1, 1: 0, 2: 2, 3: 4},
    {THUMB: -2, 1: 0, 2: 2, 3: 4},
)
"""The same for the cello; from memory."""

THUMB_FROM = 12
NECK_ENDS = {"cello": 8, "bass": 9}
"""The first place of the hand from which finger 4 is not used."""


def hands_at(family: str, place: int) -> Iterator[dict[int, int]]:
    """The shapes of the hand whose finger 1 lies at a place."""
    if place <= NECK_ENDS[family]:
        yield from CELLO_NECK if family == "cello" else BASS_NECK
    yield {1: -1}  # finger 1 alone is drawn back while the hand stays
    if place >= NECK_ENDS[family]:
        yield from UPPER if family == "cello" else UPPER[:1]
    if place >= THUMB_FROM:
        yield from CELLO_THUMB if family == "cello" else BASS_THUMB


def within_hand(family: str, one: Placed) -> bool:
    """Whether some shape of the hand has all fingers of a sound where they stand."""
    stops = [stop for stop in one.stops if stop is not None and stop.finger]
    if not stops or one.hand is None:
        return not stops
    return any(fits(shape, stops, one.hand.place) for shape in hands_at(family, one.hand.place))


def fits(shape: dict[int, int], stops: Iterable[Stop], place: int) -> bool:
    return all(shape.get(stop.finger) == stop.semitones - place for stop in stops)
