"""Plans of a player's days: a day that was printed is printed again as it was."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from datetime import datetime
from typing import TYPE_CHECKING, Final

from msgspec.structs import replace

from bookgen.errors import BookgenError, Finding, told
from bookgen.plan.decoder import decode
from bookgen.plan.document import Day, DrillEntry, Plan, Role, drill_of
from bookgen.plan.scope import Scope
from bookgen.planner.month import plan_days
from bookgen.planner.rhythm import minutes_on
from bookgen.readers.weights import read_weights
from bookgen.studio.day_document import day_document
from bookgen.studio.practice_log import LOG_NAME, PracticeLog
from bookgen.tasks.instruments import finder
from bookgen.tasks.roster import place_of
from bookgen.tasks.studio_folder import StudioFolder
from bookgen.tasks.wish import NOTHING_KNOWN, Asked, Known, Wish

if TYPE_CHECKING:
    from bookgen.planner.request import Goal

TRIES: Final = 5
"""Times that a plan is made anew because another command took its numbers meanwhile."""

OF_THE_AREA: Final = frozenset({Role.START, Role.NEW, Role.OTHER_WAY})
"""Drills with these roles are taken from what the player is to cover."""

KEYS: Final[Mapping[str, str]] = {
    "hands": "pairs, spacings",
    "start": "start",
    "secure_to_stage": "start.secure_to_stage",
}
"""Keys of the roster that have another name in a plan's scope."""


@dataclass(frozen=True, slots=True)
class Printing:
    """A plan on its way to paper.

    kept: the days that were printed before. goals: what it works towards.
    """

    plan: Plan
    kept: tuple[Date, ...] = ()
    goals: "tuple[Goal, ...]" = ()

    @property
    def new_days(self) -> tuple[Day, ...]:
        """The days that are printed for the first time, or anew."""
        return tuple(day for day in self.plan.days if day.date not in self.kept)


def planned(asked: Asked, dates: Sequence[Date], log: PracticeLog | None, wish: Wish) -> Printing:
    """The days as they were printed, and the others planned around them.

    Every drill has a number of its own in the log before its page is made, also where two
    commands plan at once.

    log: None where none is kept for the player.

    Raises:
        BookgenError: a day was printed, but other than the wish and the roster now ask for; or
            other commands print for the player all the time.
    """
    if log is None or asked.name is None:
        goals = goals_for(asked, dates, NOTHING_KNOWN)
        return Printing(fresh(asked, dates, NOTHING_KNOWN, goals), goals=goals)
    for _ in range(TRIES):
        known = known_of(log, asked.name)
        kept = {} if wish.anew else kept_days(asked, dates, log)
        refuse_other(kept, asked, wish)
        days = {date: plan.days[0] for date, plan in kept.items()}
        goals = goals_for(asked, dates, known)
        plan = fresh(asked, dates, known, goals, days)
        drills = {drill_of(entry.key): entry.number for entry in plan.drills}
        if log.reserve(asked.name, drills) == drills:
            return Printing(plan, tuple(days), goals)
    raise BookgenError(taken_again(asked.name))


def taken_again(player: str) -> Finding:
    """That other commands print for the player all the time."""
    place = told("{file}, {player}", file=LOG_NAME, player=player)
    problem = told("other commands take the numbers of the drills again and again")
    return Finding(place, problem, told("try again in a moment"))


def known_of(log: PracticeLog, player: str) -> Known:
    """What the log knows of a player."""
    return Known(log.records(player), log.numbers(player), log.next_number(player))


def goals_for(asked: Asked, dates: Sequence[Date], known: Known) -> "tuple[Goal, ...]":
    """What a player works towards on some days.

    Raises:
        BookgenError: a passage on the roster cannot be read.
    """
    if not asked.player.pieces:
        return ()
    from bookgen.tasks.pieces import goals_of  # noqa: PLC0415  the solver, where wanted

    return goals_of(asked, known, dates[0])


def fresh(
    asked: Asked,
    dates: Sequence[Date],
    known: Known,
    goals: "tuple[Goal, ...]" = (),
    kept: Mapping[Date, Day] | None = None,
) -> Plan:
    """Plan some days from what is known; the kept ones are taken as they are."""
    plan = plan_days(asked.request(dates[0], known, goals), dates, kept)
    return replace(plan, scope=asked.scope)


def kept_days(asked: Asked, dates: Sequence[Date], log: PracticeLog) -> dict[Date, Plan]:
    """Those of the days that were printed before, each as a plan of its own.

    Raises:
        BookgenError: a day in the log is damaged.
    """
    name = asked.name or ""
    documents = {date: log.day(name, date) for date in dates}
    printed = log.named(name) if any(documents.values()) else {}
    find = finder(StudioFolder(asked.folder), asked.instrument)
    return {
        date: decode(text, f"{LOG_NAME}, {name}, {date}", find, printed)
        for date, text in documents.items()
        if text is not None
    }


def keep(log: PracticeLog | None, printing: Printing, now: datetime) -> None:
    """Have the log know that the new days are printed, once their pages are written.

    now: with its time zone.
    """
    player = printing.plan.player
    if log is None or player is None:
        return
    plan = replace(printing.plan, binding=None)
    new = [
        day
        for day in printing.new_days
        if log.day(player, day.date) != day_document(plan, day).encode()
    ]
    if new:
        log.keep(replace(plan, days=tuple(new)), now)


def refuse_other(kept: Mapping[Date, Plan], asked: Asked, wish: Wish) -> None:
    """Refuse to print kept days where something else is asked for now.

    Raises:
        BookgenError: options or the roster differ; each difference is told once.
    """
    findings: dict[object, Finding] = {}
    for date, plan in kept.items():
        differences = *other_options(date, plan, asked, wish), *other_roster(date, plan, asked)
        for key, finding in differences:
            findings.setdefault(key, finding)
    if findings:
        raise BookgenError(*findings.values())


def other_options(
    date: Date, kept: Plan, asked: Asked, wish: Wish
) -> Iterator[tuple[str, Finding]]:
    """A finding for each option with which a kept day was not printed."""
    same = {
        "--instrument": kept.instrument == asked.instrument.key,
        "--size": kept.size == asked.size,
        "--minutes": all(as_long(day, asked) for day in kept.days),
        "--seed": kept.seed == asked.seed,
        **dict.fromkeys(wish.today.says, all(day.wish == asked.wished for day in kept.days)),
    }
    if not same["--instrument"] and "--instrument" not in wish.says:
        yield "--instrument", printed_for(kept.instrument, date, asked.name)
    for option, value in wish.says.items():
        if not same[option]:
            problem = told(
                "the pages of {player} for {date} were printed otherwise",
                player=asked.name,
                date=date,
            )
            mend = told("add --anew to plan them again, or leave the option out")
            yield option, Finding(f"{option} {value}".rstrip(), problem, mend)


def printed_for(instrument: str, date: Date, player: str | None) -> Finding:
    """That a kept day is one of another instrument than the player has."""
    problem = told(
        "the pages of {player} for {date} were printed for the {instrument}",
        player=player,
        date=date,
        instrument=instrument,
    )
    mend = told(
        "add --instrument {instrument} to print that day as it was, or --anew to plan it again",
        instrument=instrument,
    )
    return Finding(told("{file}, {player}", file=LOG_NAME, player=player), problem, mend)


def as_long(day: Day, asked: Asked) -> bool:
    """Whether a day has the minutes of now; one for which something was wished may have fewer."""
    if day.wish is not None:
        return day.minutes <= asked.minutes
    return day.minutes == minutes_then(day, asked)


def minutes_then(day: Day, asked: Asked) -> float:
    """The minutes that a day of that character has now."""
    return minutes_on(day.character, asked.minutes, read_weights().shares)


def other_roster(date: Date, kept: Plan, asked: Asked) -> Iterator[tuple[str, Finding]]:
    """A finding for everything in the roster that was not so when a day was planned.

    Another size changes no drill: the same day is drawn in the millimetres of now. Days of older
    bookgens do not tell what the roster said; of these the drills are looked at.
    """
    mend = told("add --anew to plan them again, or choose days that are not printed yet")
    scope, now = kept.scope, asked.scope
    if scope is None:
        for entry in outside(kept, asked):
            problem = told(
                "No. {number} on the pages for {date} lies outside it ({drill})",
                number=entry.number,
                date=date,
                drill=entry.key,
            )
            yield entry.key, Finding(place_of(asked.roster, "positions"), problem, mend)
        return
    for key in (key for key in Scope.__struct_fields__ if key != "size"):
        before = getattr(scope, key)
        if now is not None and before != getattr(now, key):
            problem = told(
                "the pages for {date} were planned with {before}", date=date, before=words(before)
            )
            yield key, Finding(place_of(asked.roster, KEYS.get(key, key)), problem, mend)


def outside(kept: Plan, asked: Asked) -> Iterator[DrillEntry]:
    """The drills of a kept day that the player's area does not hold."""
    if kept.instrument != asked.instrument.key:
        return
    area = asked.area
    for _, item, entry in kept.items():
        of_the_area = item.role in OF_THE_AREA and item.towards is None
        if of_the_area and not area.holds(entry.drill, asked.instrument):
            yield entry


def words(value: object) -> str:
    """A value of the roster as it is written there."""
    return ", ".join(map(str, value)) if isinstance(value, tuple) else str(value)
