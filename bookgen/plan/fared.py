"""How a player has fared by the log: what is secure, what is shaky, who stands still."""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from datetime import timedelta
from functools import cached_property
from typing import Final

from bookgen.plan.record import Played, Record, Result

LATELY: Final = timedelta(14)
"""What a teacher looks back on: two lessons (own choice)."""

STILL_DAYS: Final = 5
"""Days with results and nothing newly secure after which a player stands still (own choice)."""

TRIES: Final = 2
"""Results of a drill that tell whether it is shaky (own choice)."""


@dataclass(frozen=True)
class Fared:
    """A player's records, as they stood on a day.

    records: results after the day are left out here; printed days may lie after it.
    """

    records: Sequence[Record]
    day: Date

    @property
    def printed(self) -> list[Date]:
        """The days for which a page is printed, rising."""
        return sorted({one.date for record in self.records for one in record.printed})

    @property
    def printed_to(self) -> Date | None:
        """The last day for which a page is printed."""
        return max(self.printed, default=None)

    @cached_property
    def results(self) -> Mapping[int, tuple[Played, ...]]:
        """The results of each drill that has any, up to the day."""
        known = {
            record.number: tuple(one for one in record.results if one.date <= self.day)
            for record in self.records
        }
        return {number: played for number, played in known.items() if played}

    @cached_property
    def days(self) -> Mapping[Date, Mapping[Result, Sequence[int]]]:
        """The days with results, the last one first, with the drills by what became of them."""
        found: dict[Date, dict[Result, list[int]]] = defaultdict(lambda: defaultdict(list))
        for number, played in self.results.items():
            for day, result in {one.date: one.result for one in played}.items():
                found[day][result].append(number)
        return {day: found[day] for day in sorted(found, reverse=True)}

    @property
    def logged(self) -> Date | None:
        """The last day with a result."""
        return next(iter(self.days), None)

    @cached_property
    def gains(self) -> Mapping[int, Date]:
        """The day on which each drill was secure for the first time."""
        return {
            number: min(one.date for one in played if one.result is Result.SECURE)
            for number, played in self.results.items()
            if any(one.result is Result.SECURE for one in played)
        }

    @property
    def gained(self) -> int:
        """How many drills became secure in the last two weeks."""
        return sum(day > self.day - LATELY for day in self.gains.values())

    @property
    def still_since(self) -> Date | None:
        """The day of the last gain, or of the first result, where too many days followed it.

        None where the player moves on, or has not played enough to tell.
        """
        if not self.days:
            return None
        last = max(self.gains.values(), default=min(self.days))
        after = sum(day > last for day in self.days)
        return last if after >= STILL_DAYS else None

    @property
    def secure(self) -> list[Record]:
        """The drills that were secure the last time, and the time before if there was one."""
        return [
            record
            for record in self.records
            if record.number in self.results and not self.is_shaky(record)
        ]

    @property
    def shaky(self) -> list[Record]:
        """The drills that are not yet secure, or only since the last time; the latest first."""
        found = [record for record in self.records if self.is_shaky(record)]
        return sorted(found, key=lambda record: self.results[record.number][-1].date, reverse=True)

    def is_shaky(self, record: Record) -> bool:
        """One of the last results of a drill is not yet."""
        last = self.results.get(record.number, ())[-TRIES:]
        return any(one.result is Result.NOT_YET for one in last)
