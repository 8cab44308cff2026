"""Which results can be entered: the number was printed, and the day can be."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date as Date  # noqa: N812
from datetime import datetime

from bookgen.errors import BookgenError, Finding, Message, Said
from bookgen.studio.entries import KeptDrill, Marking, runs


@dataclass(frozen=True, slots=True)
class Roster:
    """The printed drills of each player, by every number under which they were printed."""

    printed: Mapping[str, Mapping[int, KeptDrill]]

    @classmethod
    def of(cls, kept: Mapping[str, Sequence[KeptDrill]]) -> "Roster":
        """The roster of what the log keeps for some players."""
        return cls(
            {
                player: {item.number: drill for drill in drills for item in drill.items}
                for player, drills in kept.items()
            }
        )

    def drill(self, marking: Marking) -> KeptDrill | None:
        """The drill that was printed under that number, or None."""
        return self.printed[marking.player].get(marking.number)

    def stands_so(self, marking: Marking) -> bool:
        """The drill has that result on that day already."""
        drill = self.drill(marking)
        return drill is not None and any(
            played.date == marking.date and played.result == marking.result
            for played in drill.results
        )

    def nearest(self, player: str, number: int) -> tuple[int, int] | None:
        """The run of printed numbers that lies nearest; None where there is none."""
        found = runs(self.printed[player])
        if not found:
            return None
        return min(found, key=lambda run: max(run[0] - number, number - run[1]))


def resolved(markings: Sequence[Marking], roster: Roster, entered: datetime) -> tuple[Marking, ...]:
    """Markings with their days, each checked against what was printed.

    entered: now, in the time zone of the studio.

    Raises:
        BookgenError: some cannot be entered; all of them are told.
    """
    findings = [*never_printed(markings, roster)]
    good: list[Marking] = []
    seen: set[tuple[str, str, Date]] = set()
    for marking in markings:
        drill = roster.drill(marking)
        if drill is None:
            continue
        day = marking.date or last_day(drill, marking.number, entered.date())
        finding = day_finding(marking, drill, day, entered)
        if finding is not None:
            findings.append(finding)
        elif day is not None:
            if (marking.player, drill.key, day) in seen:
                twice = Message("log-said-twice", {"date": day})
                findings.append(Finding(marking.stands_at, twice, Message("log-keep-one")))
            seen.add((marking.player, drill.key, day))
            good.append(replace(marking, date=day))
    if findings:
        raise BookgenError(*findings)
    return tuple(good)


def never_printed(markings: Sequence[Marking], roster: Roster) -> Iterator[Finding]:
    """A finding for each run of unknown numbers in a line of a file, or in a whole call."""
    unknown: dict[tuple[str, str], tuple[Said | None, list[int]]] = {}
    for marking in markings:
        if roster.drill(marking) is None:
            key = marking.player, str(marking.place)
            unknown.setdefault(key, (marking.place, []))[1].append(marking.number)
    for (player, _), (place, numbers) in unknown.items():
        for first, last in runs(numbers):
            facts = {"number": first, "first": first, "last": last, "player": player}
            one, run = Message("log-never-printed", facts), Message("log-never-printed-run", facts)
            mend = print_first(roster.nearest(player, first))
            yield Finding(place or player, one if first == last else run, mend)


def print_first(near: tuple[int, int] | None) -> Message:
    """What mends a number that was never printed.

    near: the run of printed numbers that lies nearest.
    """
    if near is None:
        return Message("log-print-first")
    first, last = near
    if first == last:
        return Message("log-nearest", {"number": first})
    return Message("log-nearest-run", {"first": first, "last": last})


def last_day(drill: KeptDrill, number: int, today: Date) -> Date | None:
    """The last day up to today for which a number was printed, or None."""
    days = (item.date for item in drill.items if item.number == number and item.date <= today)
    return max(days, default=None)


def day_finding(
    marking: Marking, drill: KeptDrill, day: Date | None, entered: datetime
) -> Finding | None:
    """What is wrong with the day of a result, or None.

    It can be any day from the drill's first page, or from its print where that came sooner, to
    today.
    """
    today = entered.date()
    first_page = min(item.date for item in drill.items)
    first_print = min(item.printed for item in drill.items).astimezone(entered.tzinfo).date()
    earliest = min(first_page, first_print)
    if day is None:
        to_come = min(item.date for item in drill.items if item.number == marking.number)
        problem = Message("log-page-to-come", {"date": to_come})
        return Finding(marking.stands_at, problem, Message("log-give-day"))
    if day > today:
        problem, mend = Message("log-to-come", {"date": day}), {"date": today}
        return Finding(marking.stands_at, problem, Message("log-day-up-to", mend))
    if day < earliest:
        problem = Message("log-before-page", {"date": day, "page": first_page})
        return Finding(marking.stands_at, problem, Message("log-day-from", {"date": earliest}))
    return None
