"""What became of a drill: when it was printed for a player, and how it went."""

from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from enum import StrEnum

from bookgen.errors import RefusedError
from bookgen.model.drill import Drill
from bookgen.plan.document import Link, Role


class Result(StrEnum):
    """The two results that a player ticks for a drill."""

    SECURE = "secure"
    NOT_YET = "not yet"


@dataclass(frozen=True, slots=True)
class Printed:
    """A day for which a drill was printed.

    role: why it stood there.
    order: how many drills stood before it on the day, where that is known.
    """

    date: Date
    role: Role
    order: int = 0


@dataclass(frozen=True, slots=True)
class Played:
    """A day on which a drill was played, and how it went."""

    date: Date
    result: Result


@dataclass(frozen=True, slots=True)
class Record:
    """A drill of a player by its number; a player has one record of each drill.

    number: its own, for ever.
    printed: every day for which it was printed, rising.
    results: in the order of their days, and on one day as they were told; the last one counts.
    link: as it was first printed; None where nobody knows.
    """

    number: int
    drill: Drill
    printed: tuple[Printed, ...]
    results: tuple[Played, ...] = ()
    link: Link | None = None

    def __post_init__(self) -> None:
        """Refuse days that fall.

        Raises:
            RefusedError: they do.
        """
        for days in (self.printed, self.results):
            dates = [day.date for day in days]
            if dates != sorted(dates):
                raise RefusedError("record-order", number=self.number)


class Standing(StrEnum):
    """How well a player knows a move."""

    NEW = "new"
    PRACTISED = "practised"
    SECURE = "secure"


@dataclass(frozen=True, slots=True)
class Met:
    """A move's standing and the last day on which it was played; None where it never was."""

    standing: Standing
    last: Date | None
