"""What the planner is told: the player's instrument, area, time and past."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date as Date  # noqa: N812
from typing import TYPE_CHECKING

from bookgen.errors import RefusedError
from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.model.naming import Names
from bookgen.model.spelled_like import Spelling, names_like
from bookgen.model.weights import Weights
from bookgen.plan.calendar import NO_HOLIDAYS, Calendar
from bookgen.plan.record import Record
from bookgen.plan.wished import Wished
from bookgen.planner.area import Area

if TYPE_CHECKING:
    from bookgen.plan.passage import Passage

PRACTICE_MINUTES = range(3, 121)
"""Shortest and longest day that can be planned; our own bounds, from trial sheets."""


@dataclass(frozen=True, slots=True)
class Goal:
    """Something to be ready by a day: the drills that lead there, in their order.

    bars: the first and the last, as printed; None for the whole piece.
    drills: each is linked to one before it or to something that the player knows.
    spelling: the piece's names of notes.
    passage: the bars themselves with their fingers.
    """

    title: str
    bars: tuple[str, str] | None
    ready_by: Date
    drills: tuple[Drill, ...]
    spelling: Spelling = field(default_factory=dict)
    passage: "Passage | None" = None

    def names(self, drill: Drill, instrument: Instrument) -> Names | None:
        """The names of a drill's notes as the piece has them, where the drill leads to it."""
        return names_like(drill, instrument, self.spelling) if drill in self.drills else None


@dataclass(frozen=True, slots=True)
class Request:
    """All that a plan hangs on besides its dates.

    size: of the instrument; nothing in the plan hangs on it.
    minutes: of an ordinary day, 3 to 120.
    practice_days: weekdays, 0 is Monday; empty where nobody says.
    start: the drill from which everything is reached; it lies in the area.
    secure: drills that count as secure from the beginning.
    records: every drill that was printed for the player, with its results.
    numbers: of drills that have one; those on record need not be told again.
    first_number: of the first drill that has none; none is higher.
    player: None where nobody is named.
    goals: what is worked towards besides; their drills may lie outside the area.
    calendar: the player's days away, on which nothing can be done towards a goal.
    wished: what is wished for each of the days, if anything is.
    stranger: nothing is known of the player, so nobody can say what is new to them.
    """

    instrument: Instrument
    size: str
    area: Area
    minutes: int
    practice_days: frozenset[int]
    start: Drill
    weights: Weights
    secure: tuple[Drill, ...] = ()
    records: tuple[Record, ...] = ()
    numbers: Mapping[Drill, int] = field(default_factory=dict)
    first_number: int = 1
    player: str | None = None
    seed: int = 0
    goals: tuple[Goal, ...] = ()
    stranger: bool = False
    calendar: Calendar = NO_HOLIDAYS
    wished: Wished | None = None

    @property
    def numbered(self) -> Mapping[Drill, int]:
        """Every drill that has a number."""
        return {**{record.drill: record.number for record in self.records}, **self.numbers}

    def __post_init__(self) -> None:
        """Refuse what cannot be planned.

        Raises:
            RefusedError: the minutes are out of bounds, the start lies outside the area, or a
                number is not below those to come.
        """
        if self.minutes not in PRACTICE_MINUTES:
            raise RefusedError("plan-minutes", minutes=self.minutes)
        if not self.area.holds(self.start, self.instrument):
            raise RefusedError("plan-start", key=self.start.key)
        if max(self.numbered.values(), default=0) >= self.first_number:
            raise RefusedError("plan-first-number", number=self.first_number)
