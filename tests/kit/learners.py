"""Simulated players: each answers a day's drills by a stated model, and the log grows.

The learner's chance that a drill is secure is 1/(1 + exp(-x)) with

x = 0.6 + 2.0 (1 - exp(-m/3)) + 1.5 (1 - exp(-r/2)) - 0.6 (difficulty - 1)

m: how often the drill's moves were played before, on average over them; r: how often the drill
itself was. Every repetition counts half after 198 days. The shape: gains that shrink
exponentially fit single learners better than a power law (Heathcote, Brown & Mewhort 2000); the
half-life: after about 6.5 months without use half of what was gained is lost (Tatel & Ackerman,
meta-analysis of skill retention). The other figures are our own choice: an easy first drill is
secure two times in three, one that was played twice nine times in ten.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from datetime import date, timedelta
from math import exp, log
from random import Random

from bookgen.model.drill import Drill
from bookgen.model.move import moves_of
from bookgen.plan.document import Day, Item
from bookgen.plan.record import Played, Printed, Record, Result
from bookgen.planner.graphs import graph_of
from bookgen.planner.month import Planner
from bookgen.planner.request import Request

FIRST_DAY = date(2026, 12, 1)
HALF_LIFE_DAYS = 198.0
PLAYERS = ("always", "80 %", "50 %", "learns", "never logs", "skips weeks")

Answer = Callable[[Drill, date, float], Result | None]
"""How a drill of some difficulty goes on a day; None where nobody says."""


class Learner:
    """Someone who gets better at what is played."""

    def __init__(self, dice: Random) -> None:
        self.dice = dice
        self.played: dict[object, tuple[float, date]] = {}

    def kept(self, thing: object, day: date) -> float:
        """What is left of the repetitions of a move or a drill."""
        count, last = self.played.get(thing, (0.0, day))
        return count * exp(-log(2) * (day - last).days / HALF_LIFE_DAYS)

    def __call__(self, drill: Drill, day: date, difficulty: float) -> Result:
        moves = moves_of(drill)
        m = sum(self.kept(move, day) for move in moves) / len(moves)
        r = self.kept(drill, day)
        x = 0.6 + 2.0 * (1 - exp(-m / 3)) + 1.5 * (1 - exp(-r / 2)) - 0.6 * (difficulty - 1)
        for thing in (*moves, drill):
            self.played[thing] = (self.kept(thing, day) + 1, day)
        return Result.SECURE if self.dice.random() < 1 / (1 + exp(-x)) else Result.NOT_YET


def answers(player: str, seed: int) -> Answer:
    """How a player answers."""
    dice = Random(f"{player}/{seed}")
    if player == "learns":
        return Learner(dice)
    chances = {"always": 1.0, "80 %": 0.8, "50 %": 0.5, "skips weeks": 0.8}
    chance = chances.get(player)

    def answer(*_: object) -> Result | None:
        if chance is None:
            return None
        return Result.SECURE if dice.random() < chance else Result.NOT_YET

    return answer


@dataclass(frozen=True)
class Lesson:
    """A practice day, counted from 1: its items with their drills and how they went."""

    number: int
    day: Day
    items: tuple[tuple[Item, Drill], ...]
    results: tuple[Result | None, ...]

    @property
    def drills(self) -> list[Drill]:
        return [drill for _, drill in self.items]


@dataclass
class Log:
    """What a simulated player has printed and played."""

    records: dict[int, Record]

    def keep(self, planner: Planner, lesson: Lesson) -> None:
        """Print a day and note how it went."""
        on = lesson.day.date
        went = zip(lesson.items, lesson.results, strict=True)
        for order, ((item, drill), result) in enumerate(went):
            link = planner.numbering.links[drill]
            record = self.records.get(item.number) or Record(item.number, drill, (), (), link)
            self.records[item.number] = replace(
                record,
                printed=(*record.printed, Printed(on, item.role, order)),
                results=(*record.results, *([Played(on, result)] if result else ())),
            )

    def asked(self, request: Request) -> Request:
        """The request with what is known by now."""
        number = max(self.records, default=0) + 1
        return replace(request, records=tuple(self.records.values()), first_number=number)


def practise(
    request: Request, player: str, days: int, *, span: int = 1, seed: int = 0
) -> Iterator[Lesson]:
    """Days one after the other, printed as many at a time as a book holds; each is played.

    span: days of a book; 1 prints a sheet a day. Results are known on the day itself.
    """
    answer, told = answers(player, seed), Log({})
    graph = graph_of(request.instrument, request.area, request.weights)
    dates = [FIRST_DAY + timedelta(offset) for offset in range(days)]
    dates = [day for day in dates if player != "skips weeks" or (day - FIRST_DAY).days // 7 % 2 < 1]
    for at in range(0, len(dates), span):
        planner = Planner(told.asked(replace(request, seed=seed)), dates[at])
        for number, on in enumerate(dates[at : at + span], at + 1):
            day = planner.plan(on)
            items = tuple((item, planner.numbering.drill(item.number)) for item in day.items)
            went = [answer(drill, on, graph.difficulty(drill)) for _, drill in items]
            lesson = Lesson(number, day, items, tuple(went))
            told.keep(planner, lesson)
            yield lesson
