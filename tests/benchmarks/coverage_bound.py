"""How many moves a book of four weeks covers, beside a proven upper bound for the same weeks.

Run by hand from the top folder: `.venv/bin/python -m tests.benchmarks.coverage_bound`, with the
extra `benchmarks` installed. Words on the command line choose cases by their names.

The bound comes from CP-SAT, which chooses from every drill of the area the set that holds the
most moves, under these rules of the planner:

- the minutes of new drills (those that bring a move not yet met) fit the days, each day with its
  own most minutes for new drills, none on a lighter day;
- a day brings no more new hands (a frame at a place) than it may;
- only drills that links join to the start are played;
- a stage comes only where the stage before it is played too: as a new drill, or as a variant
  where all its moves are met.

It leaves out what RELAXED names, so no plan that keeps all rules is better, and a bound need not
be within reach. No two pairs of fingers, spacings or places share a move, so each hand is a block
of its own: first CP-SAT finds the most moves of a block for any numbers of short and long drills,
then it shares the days among the blocks. Both are solved to the proven end. The column `wide`
is the bound without the rule of new hands, and how much of it the plan reaches. The bound counts
moves alone; the plan takes hands to double stops as well, which bring none, so it stays below.
"""

import sys
import time
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date as Date  # noqa: N812
from datetime import timedelta
from itertools import count, takewhile
from pathlib import Path
from typing import Final

from kit.planning import ordinary_pairs
from ortools.sat.python import cp_model

from bookgen.model.drill import CROSS_ON_EVERY_NOTE, Drill
from bookgen.model.instrument import Instrument
from bookgen.model.move import Move, moves_of
from bookgen.plan.document import Plan, Role
from bookgen.planner.area import Area, string_sets
from bookgen.planner.coverage import area_moves
from bookgen.planner.graph import Graph
from bookgen.planner.minutes import STEP_MINUTES, minutes_of
from bookgen.planner.month import plan_days
from bookgen.planner.request import Request
from bookgen.planner.rhythm import character_of, new_hands_on, new_minutes_on
from bookgen.planner.staging import next_stage
from bookgen.planner.start import starts
from bookgen.readers.instrument import parse_instrument, read_instrument
from bookgen.readers.weights import read_weights

MONDAY: Final = Date(2026, 12, 7)
WEEKS: Final = 4
SECONDS: Final = 120.0
RELAXED: Final = (
    "links, order, openings, reviews, cold tests, near-twins, easiest first, minutes of variants"
)
SPECIMENS: Final = Path(__file__).parents[1] / "specimens" / "instruments"
VIOLIN: Final = read_instrument("violin")
VIOLA: Final = read_instrument("viola")

Counts = tuple[int, ...]
"""How many drills of each length are new, in the order of the lengths."""


@dataclass(frozen=True, slots=True)
class Case:
    """An area with its days and minutes."""

    name: str
    instrument: Instrument
    area: Area
    minutes: int
    weekdays: frozenset[int]

    def plan(self) -> Plan:
        """The planner's days for a player who knows nothing yet."""
        request = Request(
            instrument=self.instrument,
            size=self.instrument.sizes[0].name,
            area=self.area,
            minutes=self.minutes,
            practice_days=self.weekdays,
            start=self.start,
            weights=read_weights(),
        )
        return plan_days(request, self.dates())

    @property
    def start(self) -> Drill:
        """Where the player begins."""
        return starts(self.instrument, self.area)[0]

    def dates(self) -> list[Date]:
        """The days to practise in four weeks."""
        days = (MONDAY + timedelta(day) for day in range(7 * WEEKS))
        return [day for day in days if day.weekday() in self.weekdays]

    def new_steps(self) -> list[int]:
        """The time for new drills on each day, by the planner's own rule.

        On the first day that is all it may, besides an opening that is new as well.

        What opens a day takes the time of the shortest drill at least; so it does on the day of a
        cold test, which is opened as others while too little is secure.
        """
        shares = read_weights().shares
        shortest = min(self.drills(), key=minutes_of)
        opening = minutes_of(shortest)
        characters = [character_of(day, self.weekdays) for day in self.dates()[1:]]
        later = [
            steps(min(new_minutes_on(one, self.minutes, shares), self.minutes - opening))
            for one in characters
        ]
        first = shares.new_most_minutes + minutes_of(max(self.drills(), key=minutes_of))
        return [steps(min(first, self.minutes)), *later]

    def new_hands(self) -> int:
        """The hands that the days may bring; the very first opening is one more."""
        return 1 + new_hands_on(self.minutes) * sum(most > 0 for most in self.new_steps())

    def drills(self) -> list[Drill]:
        """What links join to the start; stages 4 and 5 have the moves of stage 3."""
        graph = Graph(self.instrument, self.area, read_weights())
        found = {self.start: None}
        ahead = [self.start]
        while ahead:
            joined = [other for _, other in graph.neighbours(ahead.pop()) if other not in found]
            found.update(dict.fromkeys(joined))
            ahead += joined
        return [drill for drill in found if drill.stage <= CROSS_ON_EVERY_NOTE]


def steps(minutes: float) -> int:
    """Minutes in the planner's smallest steps."""
    return round(minutes / STEP_MINUTES)


def length_of(drill: Drill) -> int:
    """The steps of time that a drill takes."""
    return steps(minutes_of(drill))


def bound_of(case: Case, most_hands: int | None) -> int:
    """No plan of the case's days covers more moves than this.

    most_hands: how many hands it may meet at the most; None leaves that rule out too.
    """
    drills = case.drills()
    lengths = sorted({length_of(drill) for drill in drills})
    offers = [(best_of(block, lengths), hands) for block, hands in blocks(drills)]
    model = cp_model.CpModel()
    room = rooms(model, lengths, case.new_steps())
    used: list[list[cp_model.LinearExprT]] = [[] for _ in lengths]
    moves: list[cp_model.LinearExprT] = []
    met: list[cp_model.LinearExprT] = []
    for best, hands in offers:
        taken = {counts: model.new_int_var(0, hands, "") for counts in best}
        model.add(sum(taken.values()) <= hands)
        met += [var for counts, var in taken.items() if any(counts)]
        for counts, var in taken.items():
            moves.append(best[counts] * var)
            for index, number in enumerate(counts):
                used[index].append(number * var)
    for mine, theirs in zip(used, room, strict=True):
        model.add(sum(mine) <= sum(theirs))
    if most_hands is not None:
        model.add(sum(met) <= most_hands)
    model.maximize(sum(moves))
    return solved(model)


def rooms(
    model: cp_model.CpModel, lengths: Sequence[int], new: Sequence[int]
) -> list[list[cp_model.LinearExprT]]:
    """How many drills of each length the days take: each day one of the mixes it has room for.

    Days with the same room are alike, so only how many days take a mix counts.
    """
    room: list[list[cp_model.LinearExprT]] = [[] for _ in lengths]
    for most, days in Counter(new).items():
        mixes = full_mixes(lengths, most)
        taken = [model.new_int_var(0, days, "") for _ in mixes]
        model.add(sum(taken) == days)
        for mix, var in zip(mixes, taken, strict=True):
            for index, length in enumerate(lengths):
                room[index].append(mix.count(length) * var)
    return room


def full_mixes(lengths: Sequence[int], room: int) -> list[tuple[int, ...]]:
    """Every mix of lengths that fits the room and leaves no place for one more.

    >>> full_mixes([2, 3], 6)
    [(3, 3), (3, 2), (2, 2, 2)]
    """
    if not lengths:
        return [()]
    *smaller, largest = lengths
    found = []
    for times in takewhile(lambda times: times * largest <= room, count()):
        rest = room - times * largest
        found += [(*[largest] * times, *mix) for mix in full_mixes(smaller, rest)]
    fits = [mix for mix in found if room - sum(mix) < lengths[0]]
    return sorted(fits, reverse=True)


def blocks(drills: Sequence[Drill]) -> Iterator[tuple[list[Drill], int]]:
    """Hands that are alike but for fingers and place: the drills of one, and how many they are.

    Raises:
        ValueError: two hands share a move, so they are no blocks of their own.
    """
    hands: dict[object, list[Drill]] = {}
    for drill in drills:
        hands.setdefault((drill.frame, drill.place), []).append(drill)
    held = [frozenset[Move]().union(*map(moves_of, block)) for block in hands.values()]
    if sum(map(len, held)) != len(frozenset[Move]().union(*held)):
        msg = "two hands of this area share moves"
        raise ValueError(msg)
    alike: dict[object, list[list[Drill]]] = {}
    for block in hands.values():
        shape = frozenset((one.strings, one.ranks(), one.stage, one.back) for one in block)
        alike.setdefault(shape, []).append(block)
    for found in alike.values():
        yield found[0], len(found)


def best_of(block: Sequence[Drill], lengths: Sequence[int]) -> dict[Counts, int]:
    """The most moves of a block for any numbers of new drills, until all moves are met."""
    best: dict[Counts, int] = {}
    there = [sum(length_of(drill) == length for drill in block) for length in lengths]
    every = len(frozenset[Move]().union(*map(moves_of, block)))
    ahead = [(0,) * len(lengths)]
    while ahead:
        counts = ahead.pop(0)
        if counts not in best:
            best[counts] = most_moves(block, dict(zip(lengths, counts, strict=True)))
            if best[counts] < every:
                ahead += [
                    (*counts[:index], number + 1, *counts[index + 1 :])
                    for index, number in enumerate(counts)
                    if number < there[index]
                ]
    return best


def most_moves(block: Sequence[Drill], counts: Mapping[int, int]) -> int:
    """The most moves of a block with so many new drills of each length.

    fresh: drills played as new; known: drills whose moves are all met, which open a stage.
    """
    model = cp_model.CpModel()
    fresh = {drill: model.new_bool_var("") for drill in block}
    known = {drill: model.new_bool_var("") for drill in block}
    met: dict[Move, cp_model.IntVar] = {}
    for move in sorted(frozenset[Move]().union(*map(moves_of, block))):
        met[move] = model.new_bool_var("")
        model.add_bool_or([*(fresh[d] for d in block if move in moves_of(d)), ~met[move]])
    for drill, var in known.items():
        for move in moves_of(drill):
            model.add_implication(var, met[move])
    for drill, var in (*fresh.items(), *known.items()):
        stage = next_stage(drill.strings, drill.order, drill.stage, -1)
        if stage:
            gate = replace(drill, stage=stage)
            model.add_bool_or([fresh[gate], known[gate], ~var])
    for length, number in counts.items():
        model.add(sum(var for drill, var in fresh.items() if length_of(drill) == length) <= number)
    model.maximize(sum(met.values()))
    return solved(model)


def solved(model: cp_model.CpModel) -> int:
    """The proven best value; where time runs out the proven bound, which is no smaller.

    Raises:
        RuntimeError: nothing was found in time.
    """
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = SECONDS
    solver.parameters.num_workers = 1
    status = solver.solve(model)
    if status not in {cp_model.OPTIMAL, cp_model.FEASIBLE}:
        msg = f"no bound: {solver.status_name(status)}"
        raise RuntimeError(msg)
    return int(solver.best_objective_bound + 1e-6)


def keeps_to_minutes(case: Case, plan: Plan) -> bool:
    """Whether the plan's new drills keep to the minutes that bind the bound as well.

    Within a day what was chosen as new counts first: a variant's moves are all met by then,
    wherever it stands on the page.
    """
    met: set[Move] = set()
    for day, most in zip(plan.days, case.new_steps(), strict=True):
        spent = 0
        for item in sorted(day.items, key=lambda item: item.role is Role.OTHER_WAY):
            drill = plan.by_number[item.number].drill
            spent += length_of(drill) if moves_of(drill) - met else 0
            met |= moves_of(drill)
        if spent > most:
            return False
    return True


def cases() -> list[Case]:
    """The areas that are compared."""
    cello_file = SPECIMENS / "cello.toml"
    cello = parse_instrument("cello", cello_file.read_text(encoding="utf-8"), cello_file.name)
    school, daily, every = (frozenset(range(days)) for days in (5, 6, 7))
    first = frozenset({"1st"})
    low = first | {"half", "2nd", "3rd"}
    all_up = low | {f"{number}th" for number in range(4, 20)}

    def area(instrument: Instrument, positions: frozenset[str], fewest: int, stage: int) -> Area:
        strings = string_sets(instrument, fewest)
        return Area(ordinary_pairs(instrument), positions, strings, stage)

    beginner = replace(area(VIOLIN, first, 2, 2), frames=ordinary_pairs(VIOLIN)[:4])
    return [
        Case("beginner, 1st", VIOLIN, beginner, 5, school),
        Case("violin, 1st", VIOLIN, area(VIOLIN, first, 2, 5), 10, school),
        Case("violin, half to 3rd", VIOLIN, area(VIOLIN, low, 3, 4), 10, daily),
        Case("viola, half to 3rd", VIOLA, area(VIOLA, low, 2, 5), 15, frozenset({0, 2, 4, 5})),
        Case("violin, all", VIOLIN, area(VIOLIN, all_up, 2, 5), 20, daily),
        Case("violin, all, long", VIOLIN, area(VIOLIN, all_up, 2, 5), 45, every),
        Case("cello, neck", cello, area(cello, low, 2, 4), 10, school),
    ]


def compare(case: Case) -> bool:
    """Print one row, and say whether the plan keeps to the minutes for new drills."""
    begin = time.perf_counter()
    plan = case.plan()
    planning = time.perf_counter() - begin
    moves = {move for entry in plan.drills for move in moves_of(entry.drill)}
    bound, wide = bound_of(case, case.new_hands()), bound_of(case, None)
    ratio = len(moves) / bound
    kept = keeps_to_minutes(case, plan)
    sys.stdout.write(
        f"{case.name:22}{len(area_moves(case.instrument, case.area)):>5}{len(plan.days):>5}"
        f"{case.minutes:>9}{len(moves):>7}{bound:>7}{ratio:>8.1%}"
        f"{wide:>7}{len(moves) / wide:>8.1%} (planned in {planning:.2f} s)"
        f"{'' if kept else ' but the plan BREAKS the minutes for new drills'}\n"
    )
    sys.stdout.flush()
    return kept


def main(words: Sequence[str]) -> int:
    """All cases, or those whose names hold one of the words; 0 where all keep the minutes."""
    sys.stdout.write(
        f"Moves covered in a book of {WEEKS} weeks, beside a proven upper bound.\n"
        f"The bound relaxes: {RELAXED}.\n\n"
        f"{'area':22}{'all':>5}{'days':>5}{'minutes':>9}{'moves':>7}{'bound':>7}{'ratio':>8}"
        f"{'wide':>7}{'ratio':>8}\n"
    )
    chosen = [case for case in cases() if not words or any(word in case.name for word in words)]
    met = [compare(case) for case in chosen]
    return 0 if all(met) else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
