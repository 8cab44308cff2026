"""The order in which a drill visits its stops: stages 1 to 5, in one place or between two."""

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

Laid = tuple[StringNumber, int, int]
"""A step of a hand that shifts, with its place: 0 is the lower one, 1 the upper one."""

TWO_STRINGS: Final = 2
"""The fewest that a drill crosses; only two may have others between them."""

MANY_FINGERS: Final = 3
"""The fewest that cross between two strings until every finger has met every other."""

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
    if len(strings) < TWO_STRINGS:
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
            count = notes_across(len(strings), len(order))
            return (tuple((at(strings, note), at(order, note)) for note in range(count)),)


def notes_across(strings: int, fingers: int) -> int:
    """Notes of a way on which every note crosses: one on each string.

    Three fingers on two strings go on until every finger has met every other on the other
    string, and end where they began: `1 2 3 1 2 3 1` on two strings in turn are all six
    crossings of three fingers.
    """
    rounds = strings == TWO_STRINGS and fingers == MANY_FINGERS
    return strings * fingers + 1 if rounds else strings


def at[One](row: Sequence[One], index: int) -> One:
    """What stands there in a row that begins again at its end."""
    return row[index % len(row)]


def crossable(strings: Sequence[StringNumber]) -> bool:
    """Strings for a drill: neighbours from low to high, or two with others between them."""
    falling = all(low > high for low, high in pairwise(strings))
    neighbours = all(low - high == 1 for low, high in pairwise(strings))
    return len(strings) >= TWO_STRINGS and (neighbours or (falling and len(strings) == TWO_STRINGS))


@dataclass(frozen=True, slots=True)
class ShiftRoute:
    """The way up the strings and the way back of a hand that shifts between two places."""

    up: tuple[tuple[Laid, ...], ...]
    down: tuple[tuple[Laid, ...], ...]


def shift_route(
    strings: Sequence[StringNumber], order: Sequence[int], stage: int, back: Return
) -> ShiftRoute:
    """Lead a hand over the strings and between its two places.

    It shifts once on each string, up and down in turn, and stays where it is while the bow
    crosses. Stage 1 shifts when all fingers have played; stage 2 after the first one; stage 3
    shifts and crosses on every note. The way back begins where the hand is.

    >>> low, high = StringNumber(2), StringNumber(1)
    >>> shift_route((low, high), (1, 2), 2, Return.MIRROR).up
    (((2, 1, 0), (2, 2, 1)), ((1, 1, 1), (1, 2, 0)))
    """
    up = one_way_shifting(strings, order, stage, 0)
    if back is Return.MIRROR:
        return ShiftRoute(up, tuple(group[::-1] for group in up[::-1]))
    return ShiftRoute(up, one_way_shifting(strings[::-1], order, stage, up[-1][-1][-1]))


def one_way_shifting(
    strings: Sequence[StringNumber], order: Sequence[int], stage: int, start: int
) -> tuple[tuple[Laid, ...], ...]:
    """One direction over the strings in the order given; start: the place of its first note."""
    if stage > 2:  # noqa: PLR2004
        (steps,) = one_way(strings, order, stage)
        return (tuple((*step, (start + note) % 2) for note, step in enumerate(steps)),)
    before, after = (order, order) if stage == 1 else (order[:1], order[1:])
    return tuple(
        (
            *((string, finger, (start + number) % 2) for finger in before),
            *((string, finger, (start + number + 1) % 2) for finger in after),
        )
        for number, string in enumerate(strings)
    )
