"""Which results can be entered: the number was printed, and the day can be."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date as Date  # noqa: N812
from datetime import datetime

from bookgen.errors import BookgenError, Finding
from bookgen.studio.entries import Marking, PrintedDrill, numbers_text, runs


@dataclass(frozen=True, slots=True)
class Roster:
    """What was printed for each player, by its number."""

    printed: Mapping[str, Mapping[int, PrintedDrill]]

    def drill(self, player: str, number: int) -> PrintedDrill | None:
        """The printed drill of that number, or None."""
        return self.printed[player].get(number)

    def nearest(self, player: str, number: int) -> str | None:
        """The run of printed numbers that lies nearest, in words; None where there is none."""
        found = runs(self.printed[player])
        if not found:
            return None
        first, last = min(found, key=lambda run: max(run[0] - number, number - run[1]))
        return numbers_text(range(first, last + 1))


def resolved(markings: Sequence[Marking], roster: Roster, entered: datetime) -> tuple[Marking, ...]:
    """Markings with their days, each checked against what was printed.

    entered: now, in the time zone of the studio.

    Raises:
        BookgenError: some cannot be entered; all of them are told.
    """
    findings = [*never_printed(markings, roster), *said_twice(markings)]
    good: list[Marking] = []
    for marking in markings:
        drill = roster.drill(marking.player, marking.number)
        if drill is None:
            continue
        finding = day_finding(marking, drill, entered)
        if finding is not None:
            findings.append(finding)
        good.append(replace(marking, date=marking.date or drill.date))
    if findings:
        raise BookgenError(*findings)
    return tuple(good)


def never_printed(markings: Sequence[Marking], roster: Roster) -> Iterator[Finding]:
    """One finding for each place of unknown numbers: a line of a file, or a whole call."""
    unknown: dict[tuple[str, str | None], list[int]] = {}
    for marking in markings:
        if roster.drill(marking.player, marking.number) is None:
            unknown.setdefault((marking.player, marking.place), []).append(marking.number)
    for (player, place), numbers in unknown.items():
        near = roster.nearest(player, numbers[0])
        mend = "print a sheet first" if near is None else f"the nearest printed are {near}"
        problem = f"{numbers_text(numbers)} {'was' if len(numbers) == 1 else 'were'} never printed"
        yield Finding(place or player, f"{problem} for {player}", mend)


def said_twice(markings: Sequence[Marking]) -> Iterator[Finding]:
    """A finding for each number that one call gives two results."""
    seen: dict[tuple[str, int], Marking] = {}
    for marking in markings:
        before = seen.setdefault((marking.player, marking.number), marking)
        if before is not marking:
            yield Finding(marking.stands_at, "it stands twice", "keep one of its results")


def day_finding(marking: Marking, drill: PrintedDrill, entered: datetime) -> Finding | None:
    """What is wrong with the day of a result, or None.

    It can be any day from the page's own, or from the print where that came sooner, to today.
    """
    today = entered.date()
    printed = drill.printed.astimezone(entered.tzinfo).date()
    earliest = min(drill.date, printed)
    if marking.date is None and drill.date > today:
        problem = f"its page is for {drill.date}, which is still to come"
        return Finding(marking.stands_at, problem, "give the day on which it was played")
    day: Date = marking.date or drill.date
    if day > today:
        return Finding(marking.stands_at, f"{day} is still to come", f"give a day up to {today}")
    if day < earliest:
        problem = f"{day} lies before its page, which is for {drill.date}"
        return Finding(marking.stands_at, problem, f"give a day from {earliest} on")
    return None
