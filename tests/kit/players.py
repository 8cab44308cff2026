"""Players with an area, a log and days to plan, for the planner's laws."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from functools import cached_property

from hypothesis import strategies as st
from kit.planning import WEEKDAYS, area_of, request_for
from kit.shorthand import VIOLA, VIOLIN

from bookgen.model.dimension import Dimension
from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.plan.document import Day, DrillEntry, Item, Plan, Role
from bookgen.plan.record import Played, Printed, Record, Result
from bookgen.planner.area import Area
from bookgen.planner.graphs import graph_of
from bookgen.planner.minutes import minutes_of
from bookgen.planner.month import plan_days
from bookgen.planner.pool import pool
from bookgen.planner.request import Request

MONDAY = date(2026, 11, 30)
POSITIONS = ("half", "1st", "2nd", "3rd", "4th", "5th")


@dataclass(frozen=True)
class Row:
    """An item of a day with its drill, as a player finds them together."""

    day: Day
    item: Item
    entry: DrillEntry

    @property
    def drill(self) -> Drill:
        return self.entry.drill

    @property
    def number(self) -> int:
        return self.item.number

    @property
    def role(self) -> Role:
        return self.item.role

    @property
    def minutes(self) -> float:
        return self.item.minutes


def by_day(plan: Plan) -> list[list[Row]]:
    """The rows of each day."""
    rows = [Row(*found) for found in plan.items()]
    return [[row for row in rows if row.day is day] for day in plan.days]


class Player:
    """A player's past and what is planned next."""

    def __init__(self, request: Request) -> None:
        self.request = request
        self.dates: list[date] = []
        self.kept: dict[date, Day] = {}

    def __repr__(self) -> str:
        """Return what one needs to see of a counterexample."""
        r = self.request
        area = (len(r.area.frames), *sorted(r.area.positions or ()), r.area.highest_stage)
        log = "; ".join(
            f"{one.number} {one.drill.key}"
            f" {[f'{day.date:%d} {day.role}' for day in one.printed]}"
            f" {[f'{day.date:%d} {day.result}' for day in one.results]}"
            for one in r.records
        )
        return f"{r.start.key}, {area}, {r.minutes} min, {self.dates[:1]}+{len(self.dates)}; {log}"

    @classmethod
    def beginner(cls, instrument: Instrument, minutes: int = 10) -> "Player":
        """Someone who has played nothing yet."""
        return cls(request_for(instrument, minutes=minutes, practice_days=frozenset()))

    @cached_property
    def planned(self) -> Plan:
        """What is planned."""
        return plan_days(self.request, self.dates)

    @property
    def days(self) -> list[list[Row]]:
        """What is planned, day by day."""
        return by_day(self.planned)

    def plan(self, dates: Sequence[date]) -> list[list[Row]]:
        """Plan some days without keeping them."""
        return by_day(plan_days(self.request, dates))

    def play(self, on: date, result: Result | None) -> list[Row]:
        """Plan a day, keep it, and give all its drills one result."""
        (rows,) = self.plan([on])
        self.keep(rows, result)
        return rows

    def keep(self, rows: Sequence[Row], result: Result | None) -> None:
        """Print a day, and give all its drills one result."""
        self.kept[rows[0].day.date] = rows[0].day
        records = {record.number: record for record in self.request.records}
        for order, row in enumerate(rows):
            on = row.day.date
            old = records.get(row.number)
            made = (*(old.printed if old else ()), Printed(on, row.role, order))
            told = (Played(on, result),) if result else ()
            records[row.number] = Record(
                row.number,
                row.drill,
                tuple(sorted(made, key=lambda one: one.date)),
                tuple(sorted((*(old.results if old else ()), *told), key=lambda one: one.date)),
                row.entry.link,
            )
        numbers = sorted(records)
        self.request = replace(
            self.request,
            records=tuple(records[number] for number in numbers),
            first_number=numbers[-1] + 1,
        )

    def mark(self, number: int, result: Result, on: date) -> None:
        """Give one drill a result; it stands for what was told of that day before."""
        self.request = replace(
            self.request,
            records=tuple(
                replace(
                    record,
                    results=tuple(
                        sorted(
                            (
                                *(one for one in record.results if one.date != on),
                                Played(on, result),
                            ),
                            key=lambda one: one.date,
                        )
                    ),
                )
                if record.number == number
                else record
                for record in self.request.records
            ),
        )

    # What is true of the log, worked out the slow way

    def results(self, until: date) -> list[tuple[Drill, Played]]:
        """Results up to a day, in the order of their days; a day without any was all secure."""
        told = [
            (record.drill, played)
            for record in self.request.records
            for played in record.results
            if played.date <= until
        ]
        hoped = [
            (record.drill, Played(page.date, Result.SECURE))
            for record in self.request.records
            for page in record.printed
            if page.date < self.dates[0] and not self.heard(page.date, until)
        ]
        return sorted(told + hoped, key=lambda one: one[1].date)

    def heard(self, on: date, until: date) -> bool:
        """Something is told of the page of a day: it is the last page that had the drill."""
        return any(
            max((page.date for page in record.printed if page.date <= played.date), default=None)
            == on
            for record in self.request.records
            for played in record.results
            if played.date <= until
        )

    def sure_before(self, until: date) -> set[Drill]:
        """Drills that are secure by a result, or are said to be."""
        told = {
            (record.drill, played.date)
            for record in self.request.records
            for played in record.results
        }
        sure = set(self.request.secure)
        for drill, one in self.results(until):
            if (drill, one.date) in told:
                (sure.add if one.result is Result.SECURE else sure.discard)(drill)
        return self.secure_before(until) & sure

    def last_results(self, until: date) -> dict[Drill, Played]:
        """The last result of each drill."""
        return dict(self.results(until))

    def secure_before(self, until: date) -> set[Drill]:
        """Drills that count as secure."""
        last = self.last_results(until)
        trusted = {drill for drill in self.request.secure if drill not in last}
        return trusted | {drill for drill, one in last.items() if one.result is Result.SECURE}

    def failed_before(self, until: date) -> dict[Drill, date]:
        """Drills whose last result is not yet, with its day."""
        last = self.last_results(until).items()
        return {drill: one.date for drill, one in last if one.result is Result.NOT_YET}

    def met(self) -> set[Drill]:
        """Drills with any result, or said to be secure."""
        return {drill for drill, _ in self.results(self.dates[0])} | set(self.request.secure)

    def last_opening(self) -> Drill | None:
        """What opened the last printed day."""
        before = [
            (one.date, one.order, record.drill)
            for record in self.request.records
            for one in record.printed
            if one.date < self.dates[0] and one.role in {Role.START, Role.COLD}
        ]
        last = max((date for date, *_ in before), default=None)
        firsts = [(order, drill) for date, order, drill in before if date == last]
        return min(firsts, key=lambda one: one[0])[1] if firsts else None

    def beginnings(self) -> set[Drill]:
        """The start's hand in other leads, returns and strings."""
        start = self.request.start
        alike = {Dimension.LEAD, Dimension.RETURN, Dimension.STRINGS}
        return {d for d in self.pool if set(start.changes_to(d)) <= alike}

    @cached_property
    def pool(self) -> list[Drill]:
        """All drills of the area."""
        return list(pool(self.request.instrument, self.request.area))

    def easier(self, drill: Drill, near: Drill | None = None) -> list[Drill]:
        """Neighbours in the area that are less difficult; near: another drill's than its own."""
        graph = graph_of(self.request.instrument, self.request.area, self.request.weights)
        limit = graph.difficulty(drill)
        beside = [other for other in self.pool if next_to(near or drill, other)]
        return [other for other in beside if graph.difficulty(other) < limit]

    def has_easier(self, drill: Drill) -> bool:
        """The area has an easier neighbour."""
        return bool(self.easier(drill))

    def easier_secure_since(self, drill: Drill, since: date) -> bool:
        """Something easier, up to three steps away from a drill, was secure after a day."""
        good = {
            other
            for other, played in self.results(self.dates[0])
            if played.result is Result.SECURE and played.date > since
        }
        easier = {*self.easier(drill)}
        for _ in range(2):
            easier |= {other for one in easier for other in self.easier(drill, one)} - easier
            if easier & good:
                break
        return bool(easier & good)

    def exhausted(self, rows: Sequence[Row]) -> bool:
        """Nothing more could stand on a day: all that fits is there or may not come yet."""
        day = rows[0].day
        used = sum(row.minutes for row in rows)
        here = {row.drill for row in rows}
        failed = self.failed_before(self.dates[0])
        known = (self.secure_before(self.dates[0]) | self.planned_before(day)) - set(failed)
        open_to = [
            drill
            for drill in self.pool
            if drill in known
            and drill not in here
            and used + minutes_of(drill) <= day.minutes
            and any(next_to(drill, other) for other in known | here)
            and (drill.stage == 1 or gate_of(drill) in known | here)
        ]
        return not open_to

    def planned_before(self, day: Day) -> set[Drill]:
        """Drills of the days before."""
        return {row.drill for rows in self.days for row in rows if row.day.date < day.date}


def next_to(drill: Drill, other: Drill) -> bool:
    """The two differ in one thing: a place by a half or a whole step, a stage by one."""
    changes = drill.changes_to(other)
    if changes == (Dimension.PLACE,):
        return abs(drill.place - other.place) <= 2
    if changes == (Dimension.STAGE,):
        low, high = sorted((drill, other), key=lambda one: one.stage)
        return gate_of(high) == low
    return len(changes) == 1


def gate_of(drill: Drill) -> Drill:
    """The same drill at the stage before; on two strings stage 3 follows on stage 1."""
    skipped = drill.stage == 3 and len(drill.strings) == 2
    return replace(drill, stage=drill.stage - 1 - skipped)


def areas(instrument: Instrument) -> st.SearchStrategy[Area]:
    """Areas with first position in them."""
    whole = area_of(instrument)
    return st.builds(
        lambda frames, positions, fewest, stage: replace(
            area_of(instrument, frozenset(positions) | {"1st"}, fewest, stage),
            frames=tuple(frame for frame in whole.frames if frame in frames),
        ),
        st.sets(st.sampled_from(whole.frames), min_size=1),
        st.sets(st.sampled_from(POSITIONS)),
        st.integers(2, 4),
        st.integers(1, 5),
    )


@st.composite
def players(draw: st.DrawFn) -> Player:
    """A player with a log of some days, some of it marked, and days to plan."""
    instrument = draw(st.sampled_from([VIOLIN, VIOLA]))
    area = draw(areas(instrument))
    whole = request_for(instrument, area_of(instrument))
    starts = [d for d in pool(instrument, area) if d.stage == 1]
    start = draw(st.sampled_from(starts))
    practice = draw(st.sampled_from([WEEKDAYS, frozenset(range(7)), frozenset({1, 3, 5})]))
    request = replace(
        whole,
        area=area,
        start=start,
        minutes=draw(st.integers(3, 60)),
        practice_days=practice,
        seed=draw(st.integers(0, 99)),
    )
    player = Player(request)
    chances = st.sampled_from([Result.SECURE, Result.SECURE, Result.NOT_YET, None])
    for offset in range(draw(st.integers(0, 4))):
        on = MONDAY + timedelta(offset)
        for row in player.play(on, None):
            result = draw(chances)
            if result is not None:
                player.mark(row.number, result, on + timedelta(draw(st.integers(0, 1))))
    first = MONDAY + timedelta(4 + draw(st.integers(0, 9)))
    count = draw(st.integers(1, 8))
    player.dates = [first + timedelta(offset) for offset in range(count)]
    return player
