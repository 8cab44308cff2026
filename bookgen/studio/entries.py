"""What is entered into the practice log and what stands in it, as values."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC, datetime
from datetime import date as Date  # noqa: N812
from itertools import pairwise

from bookgen.errors import Message, RefusedError, Said
from bookgen.model.drill import Drill
from bookgen.plan.document import Link, drill_of
from bookgen.plan.record import Played, Result


@dataclass(frozen=True, slots=True)
class Marking:
    """A result that someone wants to enter.

    date: the day on which it was played; None is the last day, up to today, for which the
        number was printed.
    place: where the user said so, e.g. `results.csv, line 3`; None names player and number.
    """

    player: str
    number: int
    result: Result
    date: Date | None = None
    place: Said | None = None

    @property
    def stands_at(self) -> Said:
        """The place for a finding."""
        facts = {"player": self.player, "number": self.number}
        return self.place or Message("log-place", facts)


@dataclass(frozen=True, slots=True)
class KeptItem:
    """A drill on a printed day, in the words of the day it was: they need not be today's.

    date: the day for which it was printed; printed: when; turn: how many drills come before it;
        number: as it stands on the page.
    """

    date: Date
    printed: datetime
    turn: int
    number: int
    role: str


@dataclass(frozen=True, slots=True)
class KeptDrill:
    """A drill that has a number for a player, as the log keeps it.

    numbers: its own first; those that came after it stand on pages of older bookgens.
    items: in the order in which they were printed; none where its number is only reserved.
    results: the valid ones, by date, one for each day.
    """

    numbers: tuple[int, ...]
    key: str
    items: tuple[KeptItem, ...] = ()
    results: tuple[Played, ...] = ()
    link: Link | None = None

    @property
    def number(self) -> int:
        """The drill's own number."""
        return self.numbers[0]

    @property
    def drill(self) -> Drill | None:
        """The drill, or None where this bookgen does not know its key."""
        try:
            return drill_of(self.key)
        except ValueError:
            return None


@dataclass(frozen=True, slots=True)
class Entered:
    """One entry of the log: a result with its day, or that an earlier result is taken back.

    undoes: when the result that is taken back was entered; None in a result.
    taken_back: a later entry takes this one back.
    valid: the result counts; no later one stands for it.
    """

    player: str
    number: int
    entered: datetime
    result: Result | None
    date: Date | None
    undoes: datetime | None
    taken_back: bool = False
    valid: bool = False


@dataclass(frozen=True, slots=True)
class Counts:
    """How much a log holds: printed days, numbers of drills, items of the days, entries."""

    days: int
    drills: int
    items: int
    entries: int


def instant_text(instant: datetime) -> str:
    """An instant as the log keeps it: UTC with microseconds, so that texts sort as instants.

    >>> instant_text(datetime.fromisoformat("2026-12-01T08:30:00+02:00"))
    '2026-12-01T06:30:00.000000+00:00'

    Raises:
        RefusedError: the instant does not say its time zone, or no calendar has it in UTC.
    """
    if instant.tzinfo is None:
        raise RefusedError("log-no-zone", instant=instant)
    try:
        return instant.astimezone(UTC).isoformat(timespec="microseconds")
    except OverflowError as error:
        raise RefusedError("log-no-instant", instant=instant) from error


def runs(numbers: Iterable[int]) -> list[tuple[int, int]]:
    """Numbers as runs from a first to a last.

    >>> runs([5, 3, 6, 7])
    [(3, 3), (5, 7)]
    """
    ordered = sorted(set(numbers))
    starts = [later for sooner, later in pairwise(ordered) if later > sooner + 1]
    ends = [sooner for sooner, later in pairwise(ordered) if later > sooner + 1]
    return list(zip([*ordered[:1], *starts], [*ends, *ordered[-1:]], strict=True))
