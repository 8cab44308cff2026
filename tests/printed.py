"""Practice logs for the tests: what was printed for whom, in a line."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

from drills import TUESDAY, VIOLIN, plan_of

from bookgen.plan.document import Plan
from bookgen.plan.record import Result
from bookgen.studio.practice_log import PracticeLog, open_log

KEYS = [f"12-whole-place2-strings4321-stage{stage}-low-same" for stage in range(1, 6)]
EVENING = datetime(2026, 12, 1, 18, tzinfo=UTC)
"""When results of the first day are entered; it was printed the day before."""


@contextmanager
def empty_log() -> Iterator[PracticeLog]:
    """A log without a file."""
    with open_log(Path("there-is-no-such-file"), make=False) as log:
        yield log


def sheet(
    count: int, first: int = 1, *, player: str = "Ines", day: date = TUESDAY, seed: int = 0
) -> Plan:
    """A plan of one day with that many drills, numbered from the first."""
    plan = plan_of(*(KEYS[index % len(KEYS)] for index in range(count)), player=player)
    (only,) = plan.days
    drills = tuple(replace(drill, number=first + at) for at, drill in enumerate(only.drills))
    return replace(plan, seed=seed, days=(replace(only, date=day, drills=drills),))


def days(count: int, drills: int, player: str = "Ines") -> Plan:
    """A plan of that many days from the first on, with running numbers."""
    sheets = [
        sheet(drills, 1 + drills * at, player=player, day=TUESDAY + timedelta(at))
        for at in range(count)
    ]
    return replace(sheets[0], days=tuple(each.days[0] for each in sheets))


def kept(log: PracticeLog, plan: Plan, printed: datetime = EVENING - timedelta(1)) -> None:
    """Keep a plan for the violin."""
    log.keep(plan, VIOLIN, printed)


def writes(log: PracticeLog) -> list[Callable[[], object]]:
    """What a studio writes, one transaction each, after the log's first day."""
    return [
        lambda: kept(log, renumbered(days(6, 4), log.next_number("Ines"))),
        lambda: log.enter("Ines", [1, 2, 3, 4], Result.SECURE, TUESDAY, EVENING),
        lambda: log.enter("Ines", [2], Result.NOT_YET, TUESDAY, EVENING),
        lambda: log.undo("Ines", None, EVENING),
    ]


def renumbered(plan: Plan, first: int) -> Plan:
    """The plan with its numbers running on from another first one."""
    by = first - plan.days[0].drills[0].number
    moved = [
        replace(day, drills=tuple(replace(each, number=each.number + by) for each in day.drills))
        for day in plan.days
    ]
    return replace(plan, days=tuple(moved))
