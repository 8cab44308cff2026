"""How long a drill takes, so that a day's drills fit the day."""

from collections.abc import Sequence
from math import ceil
from typing import Final

from bookgen.model.drill import Drill
from bookgen.model.music import length_of

SECONDS_A_QUARTER: Final = 1.0  # slow enough to listen to each note: 60 quarters a minute
RUNS: Final = 4  # a line is played four times (rule of thumb)
READING_MINUTES: Final = 0.5  # look at the chart, find the place, hear the check
STEP_MINUTES: Final = 0.5


def minutes_of(drill: Drill) -> float:
    """Minutes for one drill: reading it, then four slow runs; in half minutes, rounded up."""
    return minutes_for(drill, RUNS)


def cold_minutes_of(drill: Drill) -> float:
    """Minutes for an item of a cold test: reading it, then one slow run."""
    return minutes_for(drill, 1)


def minutes_for(drill: Drill, runs: int) -> float:
    """Minutes for reading a drill and that many slow runs."""
    quarters = float(length_of(drill)) * 4
    minutes = READING_MINUTES + runs * quarters * SECONDS_A_QUARTER / 60
    return ceil(minutes / STEP_MINUTES) * STEP_MINUTES


def shared_out(minutes: Sequence[float], most: Sequence[float], budget: float) -> list[float]:
    """Give what is left of the day to its drills, half a minute at a time, in their order.

    most: the minutes that each drill gets at most.

    >>> shared_out([2.0, 1.5], [4.0, 1.5], 4.5)
    [3.0, 1.5]
    """
    given = list(minutes)
    while True:
        before = sum(given)
        for index, limit in enumerate(most):
            room = budget - sum(given) >= STEP_MINUTES
            if room and given[index] + STEP_MINUTES <= limit:
                given[index] += STEP_MINUTES
        if sum(given) == before:
            return given
