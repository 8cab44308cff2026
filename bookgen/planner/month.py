"""A run of days, planned as if every day before were played and secure."""

from collections.abc import Iterator, Sequence
from datetime import date as Date  # noqa: N812
from datetime import timedelta
from math import ceil
from operator import attrgetter
from random import Random
from typing import TYPE_CHECKING, Final

from bookgen.model.instrument import Instrument
from bookgen.model.music import play
from bookgen.plan.document import Character, Day, Kind, place_label
from bookgen.planner.arrange import arranged, ends_in_twins
from bookgen.planner.draft import Draft
from bookgen.planner.echo import Echo, Echoes
from bookgen.planner.frontier import Frontier
from bookgen.planner.graph import Graph
from bookgen.planner.knowledge import Knowledge
from bookgen.planner.outline import Aim, Item, Outline
from bookgen.planner.page import day_of
from bookgen.planner.request import Request
from bookgen.planner.rhythm import character_of, minutes_on, new_hands_on, new_minutes_on

if TYPE_CHECKING:
    from bookgen.model.drill import Drill

REMEMBERED: Final = 100
"""Drills whose sound is recalled; a number from long ago helps nobody."""

MINUTES_A_HAND: Final = 4
"""Time for a hand on the sheet of a stranger; own choice."""

TRIES: Final = 8
"""Times that a day is chosen anew because it ended in two near-twins."""


def plan_days(request: Request, dates: Sequence[Date]) -> tuple[Day, ...]:
    """Plan these days one after the other.

    What stands on an earlier day counts as secure on a later one, and the later drill says
    "only if"; what is on record counts as it is, and what nobody marked was not played. The
    same request and dates give the same days.

    dates: rising, each of them a day to practise.

    Raises:
        ValueError: there are no dates, or they do not rise.
    """
    if not dates or sorted(set(dates)) != list(dates):
        msg = "dates to plan for rise, and there is at least one"
        raise ValueError(msg)
    planner = Planner(request, dates[0])
    return tuple(planner.plan(date) for date in dates)


class Planner:
    """Plans day after day and remembers what it has planned."""

    def __init__(self, request: Request, first: Date) -> None:
        self.request = request
        ahead = [goal for goal in request.goals if goal.ready_by >= first]
        besides = [drill for goal in ahead for drill in goal.drills]
        self.graph = Graph(request.instrument, request.area, request.weights, besides)
        self.knowledge = Knowledge(self.graph)
        self.knowledge.trust(request.secure)
        self.knowledge.read(request.records, first)
        name = f"{request.instrument.key}/{request.player}/{request.seed}/{first.isoformat()}"
        self.frontier = Frontier(self.knowledge, Random(name))
        self.echoes = echoes_of(self.knowledge, request.instrument)
        self.number = request.first_number

    def plan(self, date: Date) -> Day:
        """Plan the next day, and go on as if it were secure."""
        outline = self.outline(date)
        items = self.chosen(outline)
        day = day_of(items, outline, self.knowledge, self.echoes, self.number)
        self.number += len(items)
        self.keep(day)
        return day

    def outline(self, date: Date) -> Outline:
        """What sort of a day it is, and what it has room for."""
        request, shares = self.request, self.request.weights.shares
        character = character_of(date, request.practice_days)
        return Outline(
            date,
            character,
            minutes_on(character, request.minutes, shares),
            self.new_minutes(character),
            self.new_hands(),
            tuple(self.aims(date)),
        )

    def aims(self, date: Date) -> Iterator[Aim]:
        """What the day does towards the goals that are still ahead, the nearest first."""
        for goal in sorted(self.request.goals, key=attrgetter("ready_by")):
            left = tuple(drill for drill in goal.drills if drill not in self.knowledge.met)
            days = practice_days_between(date, goal.ready_by, self.request.practice_days)
            if left and days:
                yield Aim(goal.name, left, ceil(len(left) / days))

    def new_minutes(self, character: Character) -> float:
        """The most minutes of new drills: where nothing is known yet, all that any day may.

        A stranger may know all of it, so there they may take the whole day.
        """
        request, shares = self.request, self.request.weights.shares
        if request.stranger:
            return float(request.minutes)
        if not self.knowledge.met and character is not Character.LIGHT:
            return shares.new_most_minutes
        return new_minutes_on(character, request.minutes, shares)

    def new_hands(self) -> int:
        """Hands that a day may bring; for a stranger as many as there is time for."""
        if self.request.stranger:
            return max(int(self.request.minutes // MINUTES_A_HAND), 1)
        return new_hands_on(self.request.minutes)

    def chosen(self, outline: Outline) -> list[Item]:
        """The day's drills in order; one that would end it as a near-twin is left out."""
        items: list[Item] = []
        banned: frozenset[Drill] = frozenset()
        for _ in range(TRIES):
            draft = Draft(self.frontier, self.request.start, outline, banned)
            items = arranged(draft.fill(), self.knowledge)
            if not ends_in_twins(items):
                break
            banned |= {items[-1].drill}
        while ends_in_twins(items):
            items.pop()
        return items

    def keep(self, day: Day) -> None:
        """Go on as if the day had been played and all of it were secure."""
        for entry in day.drills:
            if entry.kind is Kind.VARIANT and not self.frontier.known_wider(entry.drill):
                stage = entry.drill.stage
                self.frontier.taken[stage] = self.frontier.taken.get(stage, 0) + 1
            self.knowledge.presume(entry.drill, entry.number, day.date)
        self.knowledge.openings.append(day.drills[0].drill)
        for entry in day.drills:
            self.frontier.open(entry.drill)


def practice_days_between(first: Date, last: Date, practice_days: frozenset[int]) -> int:
    """How many days there are to practise from a day to another, both included.

    practice_days: weekdays, 0 is Monday; where nobody says which, all of them.

    >>> practice_days_between(Date(2026, 12, 7), Date(2026, 12, 13), frozenset({0, 2}))
    2
    """
    days = (first + timedelta(offset) for offset in range((last - first).days + 1))
    return sum(not practice_days or day.weekday() in practice_days for day in days)


def echoes_of(knowledge: Knowledge, instrument: Instrument) -> Echoes:
    """How the drills sound that were printed last, as far as the player has met them."""
    echoes = Echoes()
    met = [
        (printed, drill) for drill, printed in knowledge.printed.items() if drill in knowledge.met
    ]
    for printed, drill in sorted(met, key=lambda entry: entry[0].number)[-REMEMBERED:]:
        if drill.refusal(instrument) is None:
            echo = Echo(printed.number, drill, place_label(drill, instrument))
            echoes.add(echo, play(drill, instrument))
    return echoes
