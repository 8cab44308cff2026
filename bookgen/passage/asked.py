"""Which hands for a sound are left by its signs, and by how much its player knows."""

from collections.abc import Sequence
from typing import Final

from bookgen.model.marking import Sign
from bookgen.model.stop import Stop
from bookgen.passage.event import Event
from bookgen.passage.placement import Pose
from bookgen.passage.shape import FINGERS, Shape

WITH_UPPER_NOTE: Final = frozenset({Sign.TRILL, Sign.TURN, Sign.INVERTED_MORDENT})
"""Ornaments that go to the note above."""

FIRST: Final = "1st"
STEPS: Final = (1, 2)
"""Semitones to the note above; common practice."""


def trills(event: Event) -> bool:
    """Whether a finger has to be free for the note above the highest one."""
    return not WITH_UPPER_NOTE.isdisjoint(event.signs)


def with_free_finger(poses: Sequence[Pose], shape: Shape) -> tuple[Pose, ...]:
    """Those poses in which the next finger can play the note above the highest one."""
    return tuple(pose for pose in poses if is_free(pose.stops, shape))


def is_free(stops: Sequence[Stop], shape: Shape) -> bool:
    """Whether the finger above that of the last stop is free and reaches a step above it."""
    stop = stops[-1]
    above = stop.finger + 1 or 1  # above the thumb is finger 1
    if above not in FINGERS or any(other.finger == above for other in stops[:-1]):
        return False
    if not stop.finger:
        return True
    low = (stop.finger, stop.semitones)
    return any(shape.opening(low, (above, stop.semitones + step)) is not None for step in STEPS)


def open_alone(poses: Sequence[Pose]) -> tuple[Pose, ...]:
    """Those poses in which open strings alone sound."""
    return tuple(pose for pose in poses if not pose.stopped)
