"""Practice logs for the tests: what was printed for whom, in a line."""

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

from bookgen.model.drill import Drill
from bookgen.plan.document import Day, Item, Link, Plan, Role
from bookgen.plan.entry import entry_of
from bookgen.plan.record import Result
from bookgen.readers.instrument import read_instrument
from bookgen.studio.practice_log import PracticeLog, open_log

TUESDAY = date(2026, 12, 1)
EVENING = datetime(2026, 12, 1, 18, tzinfo=UTC)
"""When results of the first day are entered; it was printed the day before."""

DRILLS = [
    Drill.parse_key(f"violin-12-whole-place{place}-strings4321-stage{stage}-low-same")
    for place in range(1, 9)
    for stage in range(1, 6)
]
VIOLIN = read_instrument("violin")
START_HERE = Link(to=None, changes=None)


@contextmanager
def empty_log() -> Iterator[PracticeLog]:
    """A log without a file."""
    with open_log(Path("there-is-no-such-file"), make=False) as log:
        yield log


def plan_for(
    log: PracticeLog,
    *days: Sequence[Drill],
    player: str = "Ines",
    first: date = TUESDAY,
    seed: int = 0,
) -> Plan:
    """A plan of these drills day by day, under the numbers that the log gives them."""
    numbers = log.reserve(player, (drill for day in days for drill in day))
    return Plan(
        instrument="violin",
        size="4/4",
        player=player,
        seed=seed,
        drills=tuple(
            entry_of(drill, VIOLIN, number, START_HERE) for drill, number in numbers.items()
        ),
        days=tuple(
            Day(
                date=first + timedelta(at),
                minutes=10.0,
                items=tuple(
                    Item(number=numbers[drill], role=Role.NEW if turn else Role.START, minutes=2.0)
                    for turn, drill in enumerate(day)
                ),
            )
            for at, day in enumerate(days)
        ),
    )


def kept(
    log: PracticeLog,
    *days: Sequence[Drill],
    player: str = "Ines",
    first: date = TUESDAY,
    seed: int = 0,
    printed: datetime = EVENING - timedelta(1),
) -> Plan:
    """Print these drills day by day."""
    plan = plan_for(log, *days, player=player, first=first, seed=seed)
    log.keep(plan, printed)
    return plan


def writes(log: PracticeLog) -> list[Callable[[], object]]:
    """What a studio writes, one transaction each, after the log's first day of four drills."""
    new = [DRILLS[start : start + 4] for start in range(2, 26, 4)]
    plan: list[Plan] = []
    return [
        lambda: plan.append(plan_for(log, *new)),
        lambda: log.keep(plan[0], EVENING),
        lambda: log.enter("Ines", [1, 2, 3, 4], Result.SECURE, TUESDAY, EVENING),
        lambda: log.enter("Ines", [2], Result.NOT_YET, TUESDAY, EVENING),
        lambda: log.undo("Ines", None, EVENING),
    ]
