"""Plans that the practice log keeps: a day that was printed is printed again as it was."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, date, datetime
from itertools import pairwise
from typing import Final

from bookgen.commands.asking import Asked, Wish
from bookgen.commands.bind import find_instrument
from bookgen.errors import BookgenError, Finding
from bookgen.plan.decoder import decode
from bookgen.plan.document import Plan
from bookgen.planner.month import plan_days
from bookgen.studio.entries import NumbersTakenError
from bookgen.studio.practice_log import PracticeLog

TRIES: Final = 5
"""Times that a plan is made anew because another command took its numbers meanwhile."""


def fresh_plan(asked: Asked, dates: Sequence[date], log: PracticeLog | None) -> Plan:
    """Plan some days from what the log holds, without keeping them."""
    records = log.records(asked.name) if log is not None and asked.name else ()
    number = log.next_number(asked.name) if log is not None and asked.name else 1
    request = asked.request(dates[0], records, number)
    if asked.player.pieces:
        from bookgen.commands.pieces import goals_of  # noqa: PLC0415  the solver, where wanted

        request = replace(request, goals=goals_of(asked, records, dates[0]))
    days = plan_days(request, dates)
    return Plan(asked.instrument.key, asked.size, asked.name, asked.seed, days)


def kept_plan(asked: Asked, dates: Sequence[date], log: PracticeLog) -> Plan | None:
    """The plan of these days as they were printed last, or None where one of them never was.

    Raises:
        BookgenError: a day in the log is damaged.
    """
    if asked.name is None:
        return None
    texts = [(day, log.day(asked.name, day)) for day in dates]
    if any(text is None for _, text in texts):
        return None
    drills = ((entry.number, entry.drill) for entry in log.printed(asked.name))
    printed = {number: drill for number, drill in drills if drill is not None}
    plans = [
        decode(text or "", f"practice log, {asked.name}, {day}", find_instrument, printed)
        for day, text in texts
    ]
    days = tuple(day for plan in plans for day in plan.days)
    numbers = [drill.number for day in days for drill in day.drills]
    alike = {(plan.instrument, plan.size, plan.seed) for plan in plans}
    rising = all(low < high for low, high in pairwise(numbers))
    return replace(plans[0], days=days) if rising and len(alike) == 1 else None


def printed_plan(
    asked: Asked, dates: Sequence[date], log: PracticeLog | None, wish: Wish, *, anew: bool = False
) -> Plan:
    """The days as they were printed; planned and kept now where they never were.

    Kept drills have numbers that no other page of the player has, also where two commands plan
    at once.

    log: None where there is no studio; then nothing is kept.
    anew: plan them again, whatever was printed.

    Raises:
        BookgenError: they were printed, but other than the command line asks for; or other
            commands print for the player all the time.
    """
    for _ in range(TRIES):
        kept = None if log is None or anew else kept_plan(asked, dates, log)
        if kept is not None:
            refuse_other(kept, asked, wish)
            return kept
        plan = fresh_plan(asked, dates, log)
        if log is None:
            return plan
        try:
            log.keep(plan, asked.instrument, datetime.now(UTC))
        except NumbersTakenError:
            continue
        return plan
    problem = "other commands take the numbers of its drills again and again"
    raise BookgenError(Finding(f"practice log, {asked.name}", problem, "try again in a moment"))


def refuse_other(kept: Plan, asked: Asked, wish: Wish) -> None:
    """Refuse to print a kept plan where something else was asked for.

    Raises:
        BookgenError: instrument, size, minutes or seed differ.
    """
    most = max(day.minutes for day in kept.days)
    same = {
        "--instrument": kept.instrument == asked.instrument.key,
        "--size": kept.size == asked.size,
        "--minutes": most == asked.minutes,
        "--seed": kept.seed == asked.seed,
    }
    findings = [
        Finding(
            f"{option} {value}",
            f"{asked.name}'s pages for {kept.days[0].date} were printed otherwise",
            "add --anew to plan them again, or leave the option out",
        )
        for option, value in wish.says.items()
        if not same[option]
    ]
    if findings:
        raise BookgenError(*findings)
