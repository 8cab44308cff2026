"""The order in which a drill visits its stops: stages 1 to 5."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise
from typing import Final

from bookgen.errors import RefusedError
from bookgen.model.units import StringNumber

Step = tuple[StringNumber, int]
"""A string and a finger on it."""

Group = tuple[Step, ...]
"""Steps that belong to one laying of the hand."""

STAGES: Final = range(1, 6)
"""How soon the player crosses: after each string, on the second note, on every note; then
overlapping notes, and double stops."""


class Return(StrEnum):
    """How the way back down runs."""

    SAME = "same"
    MIRROR = "mirror"


@dataclass(frozen=True, slots=True)
class Route:
    """The way up the strings and the way back, in groups.

    up, down: at stages 1 and 2 a group for each laying of the hand, later one group each.
    """

    up: tuple[Group, ...]
    down: tuple[Group, ...]


def route(strings: Sequence[StringNumber], order: Sequence[int], stage: int, back: Return) -> Route:
    """Lead the fingers over the strings.

    strings: neighbouring, from low to high, at least two.
    order: the fingers in the order in which they play.
    stage: 1 plays all fingers on a string before the next; 2 plays the first finger, crosses
        and plays the others; 3 crosses on every note. Stages 4 and 5 run stage 3's route.

    >>> low, high = StringNumber(2), StringNumber(1)
    >>> route((low, high), (1, 2), 2, Return.SAME).up
    (((2, 1), (1, 2)),)

    Raises:
        RefusedError: the stage is not 1 to 5, or there are fewer than two strings.
    """
    if stage not in STAGES:
        raise RefusedError("stage", stage=stage)
    if len(strings) < 2:  # noqa: PLR2004
        raise RefusedError("route-strings")
    up = one_way(strings, order, stage)
    if back is Return.MIRROR:
        return Route(up, tuple(group[::-1] for group in up[::-1]))
    return Route(up, one_way(strings[::-1], order, stage))


def one_way(strings: Sequence[StringNumber], order: Sequence[int], stage: int) -> tuple[Group, ...]:
    """One direction over the strings in the order given."""
    match stage:
        case 1:
            return tuple(tuple((string, finger) for finger in order) for string in strings)
        case 2:
            pairs = pairwise(strings)
            return tuple(
                ((here, order[0]), *((there, finger) for finger in order[1:]))
                for here, there in pairs
            )
        case _:
            steps = ((string, order[index % len(order)]) for index, string in enumerate(strings))
            return (tuple(steps),)
