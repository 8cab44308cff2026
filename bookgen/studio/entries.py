"""What is entered into the practice log and what stands in it, as values."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from datetime import date as Date  # noqa: N812
from itertools import pairwise

from bookgen.model.drill import Drill
from bookgen.plan.document import Kind
from bookgen.plan.record import Result


@dataclass(frozen=True, slots=True)
class Marking:
    """A result that someone wants to enter.

    date: the day on which it was played; None is the day for which the page was printed.
    place: where the user said so, e.g. `results.csv, line 3`; None names player and number.
    """

    player: str
    number: int
    result: Result
    date: Date | None = None
    place: str | None = None

    @property
    def stands_at(self) -> str:
        """The place for a finding."""
        return self.place or f"{self.player}, No. {self.number}"


@dataclass(frozen=True, slots=True)
class PrintedDrill:
    """A drill as it was printed, in the words of the day it was: they need not be today's.

    date: the day for which it was printed; printed: when.
    """

    player: str
    number: int
    date: Date
    printed: datetime
    key: str
    kind: str

    @property
    def drill(self) -> Drill | None:
        """The drill, or None where this bookgen does not know its key or its kind."""
        try:
            Kind(self.kind)
            return Drill.parse_key(self.key)
        except ValueError:
            return None


@dataclass(frozen=True, slots=True)
class Entered:
    """One entry of the log: a result with its day, or that an earlier result is taken back.

    undoes: when the result that is taken back was entered; None in a result.
    taken_back: a later entry takes this one back.
    """

    player: str
    number: int
    entered: datetime
    result: Result | None
    date: Date | None
    undoes: datetime | None
    taken_back: bool


class NumbersTakenError(Exception):
    """Another command has printed drills with these numbers meanwhile: plan again.

    first_free: the player's next number.
    """

    def __init__(self, player: str, first_free: int) -> None:
        """Say from which number on there is room."""
        super().__init__(f"{player}: numbers below {first_free} are taken")
        self.first_free = first_free


def instant_text(instant: datetime) -> str:
    """An instant as the log keeps it: UTC with microseconds, so that texts sort as instants.

    >>> instant_text(datetime.fromisoformat("2026-12-01T08:30:00+02:00"))
    '2026-12-01T06:30:00.000000+00:00'

    Raises:
        ValueError: the instant does not say its time zone, or no calendar has it in UTC.
    """
    if instant.tzinfo is None:
        msg = f"{instant} has no time zone"
        raise ValueError(msg)
    try:
        return instant.astimezone(UTC).isoformat(timespec="microseconds")
    except OverflowError as error:
        msg = f"{instant} lies outside the calendar"
        raise ValueError(msg) from error


def runs(numbers: Iterable[int]) -> list[tuple[int, int]]:
    """Numbers as runs from a first to a last.

    >>> runs([5, 3, 6, 7])
    [(3, 3), (5, 7)]
    """
    ordered = sorted(set(numbers))
    starts = [later for sooner, later in pairwise(ordered) if later > sooner + 1]
    ends = [sooner for sooner, later in pairwise(ordered) if later > sooner + 1]
    return list(zip([*ordered[:1], *starts], [*ends, *ordered[-1:]], strict=True))


def numbers_text(numbers: Sequence[int]) -> str:
    """Numbers in words, runs of them as they are typed.

    >>> numbers_text([3, 5, 6, 7, 12]), numbers_text([4])
    ('Nos. 3, 5-7, 12', 'No. 4')
    """
    parts = [f"{first}" if first == last else f"{first}-{last}" for first, last in runs(numbers)]
    return f"{'No.' if len(set(numbers)) == 1 else 'Nos.'} {', '.join(parts)}"
