"""What became of a drill that was printed for a player."""

from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from enum import StrEnum

from bookgen.model.drill import Drill
from bookgen.plan.document import Kind


class Result(StrEnum):
    """The two results that a player ticks for a drill."""

    SECURE = "secure"
    NOT_YET = "not yet"


@dataclass(frozen=True, slots=True)
class Record:
    """A drill as it was printed for a player, and its result.

    number: as printed; no other drill of the player has it.
    date: the day for which it was printed.
    result: None where it was not played, or nobody said.
    marked: the day of the result; None without one.
    """

    number: int
    date: Date
    drill: Drill
    kind: Kind
    result: Result | None = None
    marked: Date | None = None

    def __post_init__(self) -> None:
        """Refuse half a result.

        Raises:
            ValueError: there is a result without its day, or a day without a result.
        """
        if (self.result is None) != (self.marked is None):
            msg = f"No. {self.number}: a result and its day go together"
            raise ValueError(msg)


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
