"""What the planner is told: the player's instrument, area, time and past."""

from dataclasses import dataclass
from datetime import date as Date  # noqa: N812

from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.model.weights import Weights
from bookgen.plan.record import Record
from bookgen.planner.area import Area

PRACTICE_MINUTES = range(3, 121)
"""Shortest and longest day that can be planned; our own bounds, from trial sheets."""


@dataclass(frozen=True, slots=True)
class Goal:
    """Something to be ready by a day: the drills that lead there, in their order.

    name: as printed, e.g. "Minuet, bars 5 to 8".
    drills: each is linked to one before it or to something that the player knows.
    """

    name: str
    ready_by: Date
    drills: tuple[Drill, ...]


@dataclass(frozen=True, slots=True)
class Request:
    """All that a plan hangs on besides its dates.

    minutes: of an ordinary day, 3 to 120.
    practice_days: weekdays, 0 is Monday; empty where nobody says.
    start: the drill from which everything is reached; it lies in the area.
    secure: drills that count as secure from the beginning.
    records: every drill that was printed for the player, with its result.
    player: None where nobody is named.
    first_number: the number of the first drill that is planned.
    goals: what is worked towards besides; their drills may lie outside the area.
    stranger: nothing is known of the player, so nobody can say what is new to them.
    """

    instrument: Instrument
    area: Area
    minutes: int
    practice_days: frozenset[int]
    start: Drill
    weights: Weights
    secure: tuple[Drill, ...] = ()
    records: tuple[Record, ...] = ()
    player: str | None = None
    seed: int = 0
    first_number: int = 1
    goals: tuple[Goal, ...] = ()
    stranger: bool = False

    def __post_init__(self) -> None:
        """Refuse what cannot be planned.

        Raises:
            ValueError: the minutes are out of bounds, or the start lies outside the area.
        """
        if self.minutes not in PRACTICE_MINUTES:
            msg = f"{self.minutes} is no practice time"
            raise ValueError(msg)
        if not self.area.holds(self.start, self.instrument):
            msg = f"the start, {self.start.key}, lies outside the area"
            raise ValueError(msg)
