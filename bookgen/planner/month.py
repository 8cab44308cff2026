"""A run of days, planned as if every day before of which nothing is said were secure."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from datetime import date as Date  # noqa: N812
from math import ceil
from operator import attrgetter
from typing import Final

from bookgen.errors import RefusedError
from bookgen.model.drill import Drill
from bookgen.model.music import play
from bookgen.model.naming import Names
from bookgen.plan.calendar import practice_days_of
from bookgen.plan.document import Character, Day, Plan, Towards
from bookgen.plan.earlier import earlier_of
from bookgen.plan.entry import entry_of
from bookgen.plan.wished import Wished
from bookgen.planner.arrange import arranged, ends_in_twins
from bookgen.planner.draft import Draft
from bookgen.planner.echo import REMEMBERED, Echoes
from bookgen.planner.frontier import Frontier
from bookgen.planner.graphs import graph_of
from bookgen.planner.knowledge import Knowledge, results
from bookgen.planner.numbering import Numbering
from bookgen.planner.outline import Aim, Outline, Pick
from bookgen.planner.page import Page, day_of
from bookgen.planner.request import Request
from bookgen.planner.rhythm import character_of, minutes_on, new_hands_on, new_minutes_on
from bookgen.planner.wishing import WishedDay, as_wished

MINUTES_A_HAND: Final = 4
"""Time for a hand on the sheet of a stranger; own choice."""

TRIES: Final = 8
"""Times that a day is chosen anew because it ended in two near-twins."""


def plan_days(
    request: Request, dates: Sequence[Date], kept: Mapping[Date, Day] | None = None
) -> Plan:
    """Plan these days one after the other.

    A day of which nothing is said, of this plan or an older one, counts as played and secure,
    and what rests on that says "only if". So a day planned by itself is that day of a run, as
    far as the log agrees: it follows from log, date and seed. A drill that has a number and a
    link keeps both.

    dates: rising, each of them a day to practise.
    kept: days that are taken as they are; their drills have numbers. The others are planned
        around them: what was played counts as it went, the rest as if it were secure.

    Raises:
        RefusedError: there are no dates, or they do not rise, or a kept day names a number
            that no drill has.
    """
    if not dates or sorted(set(dates)) != list(dates):
        raise RefusedError("plan-dates")
    planner = Planner(request, dates[0], kept)
    return planner.document([planner.plan(date) for date in dates])


class Planner:
    """Plans day after day and remembers what it has planned."""

    def __init__(
        self, request: Request, first: Date, kept: Mapping[Date, Day] | None = None
    ) -> None:
        self.request = request
        self.kept = dict(kept or {})
        ahead = [goal for goal in request.goals if goal.ready_by >= first]
        besides = frozenset(drill for goal in ahead for drill in goal.drills)
        self.graph = graph_of(request.instrument, request.area, request.weights, besides)
        self.knowledge = Knowledge(self.graph)
        self.knowledge.trust(request.secure)
        self.knowledge.read(request.records, first)
        self.seed = f"{request.instrument.key}/{request.player}/{request.seed}"
        self.numbering = Numbering(request.numbered, request.first_number, request.records)
        self.echoes = echoes_of(self.knowledge)
        own = [one for one in request.records if one.drill.instrument == request.instrument.key]
        self.played = [one for one in results(own) if one[0].date > first]

    def plan(self, date: Date) -> Day:
        """Plan the next day, or take a kept one, and go on as if it were secure."""
        self.catch_up(date)
        if date in self.kept:
            return self.keep(self.kept[date])
        self.played.clear()
        outline = self.outline(date)
        wished = self.request.wished
        picks = self.wished(outline, wished) if wished else self.chosen(outline)
        day = day_of(picks, outline, self.knowledge, self.echoes, self.numbering)
        if wished is not None:
            day = as_wished(day, wished)
        self.go_on(date, [pick.drill for pick in picks])
        return day

    def document(self, days: Sequence[Day]) -> Plan:
        """The planned days with each of their drills once, in the order of the numbers."""
        request, numbering = self.request, self.numbering
        numbers = sorted({item.number for day in days for item in day.items})
        drills = [numbering.drill(number) for number in numbers]
        entries = tuple(
            entry_of(drill, request.instrument, number, numbering.links[drill], self.names(drill))
            for number, drill in zip(numbers, drills, strict=True)
        )
        return Plan(
            instrument=request.instrument.key,
            size=request.size,
            player=request.player,
            seed=request.seed,
            drills=entries,
            earlier=earlier_of(entries, days, numbering.drills),
            days=tuple(days),
        )

    def names(self, drill: Drill) -> Names | None:
        """The names of a drill's notes by the first piece to which it leads; None without one."""
        found = (goal.names(drill, self.request.instrument) for goal in self.request.goals)
        return next(filter(None, found), None)

    def keep(self, day: Day) -> Day:
        """Take a day as it was printed; what was played on it counts as it went."""
        page = Page(self.knowledge, self.echoes, self.numbering)
        for item in day.items:
            page.keep(item)
        known = self.knowledge.memories
        told = [one for one in page.here if one in known and known[one].last == day.date]
        self.go_on(day.date, list(page.here), told)
        return day

    def catch_up(self, date: Date) -> None:
        """Take in the results up to a day; after the first one that is planned none is known."""
        while self.played and self.played[0][0].date <= date:
            played, drill = self.played.pop(0)
            self.knowledge.take(drill, played.result, played.date)

    def go_on(self, date: Date, drills: Sequence[Drill], told: Collection[Drill] = ()) -> None:
        """Go on as if a day had been played; where nothing is told all of it was secure.

        told: drills whose result is known; then the others were not played.
        """
        for drill in drills:
            self.knowledge.stand(drill)
            if not told:
                self.knowledge.presume(drill, date)
        self.knowledge.openings.append(drills[0])

    def outline(self, date: Date) -> Outline:
        """What sort of a day it is, and what it has room for."""
        request, shares = self.request, self.request.weights.shares
        character = character_of(date, request.practice_days)
        if request.wished is not None:
            character = Character.ORDINARY
        return Outline(
            date,
            character,
            minutes_on(character, request.minutes, shares),
            self.new_minutes(character),
            self.new_hands(),
            tuple(self.aims(date)),
            request.stranger,
        )

    def aims(self, date: Date) -> Iterator[Aim]:
        """What the day does towards the goals that are still ahead, the nearest first."""
        request = self.request
        for goal in sorted(request.goals, key=attrgetter("ready_by")):
            left = tuple(drill for drill in goal.drills if drill not in self.knowledge.met)
            days = practice_days_of(date, goal.ready_by, request.practice_days, request.calendar)
            if left and days:
                towards = Towards(title=goal.title, bars=goal.bars)
                yield Aim(towards, left, ceil(len(left) / len(days)))

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

    def chosen(self, outline: Outline) -> list[Pick]:
        """The day's drills in order; one that would end it as a near-twin is left out."""
        picks: list[Pick] = []
        banned = self.ahead(outline.date)
        frontier = Frontier(self.knowledge, outline.date, self.seed)
        for _ in range(TRIES):
            draft = Draft(frontier, self.request.start, outline, banned)
            picks = arranged(draft.fill(), self.knowledge)
            if not ends_in_twins(picks):
                break
            banned |= {picks[-1].drill}
        while ends_in_twins(picks):
            picks.pop()
        return picks

    def wished(self, outline: Outline, wished: Wished) -> list[Pick]:
        """The drills of a day for which something is wished."""
        request = self.request
        day = WishedDay(self.knowledge, wished, request.start, outline, stranger=request.stranger)
        return day.fill()

    def ahead(self, date: Date) -> frozenset[Drill]:
        """Drills that a later kept day brings for the first time."""
        return frozenset(
            self.numbering.drill(item.number)
            for day in self.kept.values()
            for item in day.items
            if day.date > date and item.role.first_time
        )


def echoes_of(knowledge: Knowledge) -> Echoes:
    """How the drills sound that were printed last, as far as the player has met them."""
    echoes, instrument = Echoes(), knowledge.graph.instrument
    met = [drill for drill in knowledge.printed if drill in knowledge.met]
    for drill in met[-REMEMBERED:]:
        if drill.refusal(instrument) is None:
            echoes.add(drill, play(drill, instrument))
    return echoes
