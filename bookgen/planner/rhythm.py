"""How a week runs: its lighter day, its cold test, and the minutes each day has."""

from datetime import date as Date  # noqa: N812
from math import floor
from typing import Final

from bookgen.model.weights import Shares
from bookgen.plan.document import Character
from bookgen.planner.minutes import STEP_MINUTES

FEWEST_WITH_TEST: Final = 2
FEWEST_WITH_LIGHT: Final = 3
"""Practice days in a week from which one is given to a cold test, and one is lighter."""

TWO_HANDS_FROM: Final = 20
"""Minutes of practice from which a day brings two new hands; own choice."""

NEW_LEAST_MINUTES: Final = 2.0
"""One new drill has room even on the shortest day."""


def character_of(date: Date, practice_days: frozenset[int]) -> Character:
    """What sort of a day a date is: the last practice day of a week has the cold test.

    The middle one is lighter. It hangs on the weekday alone, so a single sheet and a booklet
    agree, and a week that two months share has one of each.

    practice_days: weekdays, 0 is Monday.

    >>> [character_of(Date(2026, 12, day), frozenset({0, 2, 4})).value for day in (7, 9, 11)]
    ['ordinary', 'light', 'test']
    """
    days = sorted(practice_days)
    if date.weekday() not in practice_days:
        return Character.ORDINARY
    if len(days) >= FEWEST_WITH_TEST and date.weekday() == days[-1]:
        return Character.TEST
    if len(days) >= FEWEST_WITH_LIGHT and date.weekday() == days[(len(days) - 1) // 2]:
        return Character.LIGHT
    return Character.ORDINARY


def minutes_on(character: Character, minutes: int, shares: Shares) -> float:
    """The minutes that a day has, in half minutes."""
    if character is not Character.LIGHT:
        return float(minutes)
    return floor(minutes * shares.light_share / STEP_MINUTES) * STEP_MINUTES


def new_minutes_on(character: Character, minutes: int, shares: Shares) -> float:
    """The most minutes of new drills on a day; none on a light one."""
    if character is Character.LIGHT:
        return 0.0
    share = max(NEW_LEAST_MINUTES, shares.new_share * minutes)
    return min(shares.new_most_minutes, share)


def new_hands_on(minutes: int) -> int:
    """How many hands that the player has not met a day brings: a frame at a place each."""
    return 1 if minutes < TWO_HANDS_FROM else 2
