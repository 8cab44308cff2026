"""Which drills a day gets: what is chosen, before it is put in order."""

from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from itertools import chain
from typing import Final

from bookgen.model.drill import Drill
from bookgen.plan.document import Character, Role
from bookgen.planner.filling import Filling
from bookgen.planner.frontier import Frontier
from bookgen.planner.ladder import rungs
from bookgen.planner.minutes import cold_minutes_of
from bookgen.planner.mix import Room, Sort, best_mix
from bookgen.planner.opening import cold_items, openings
from bookgen.planner.outline import Outline, Pick

CHOICE: Final = 24
"""Best drills of each sort that are looked at more closely."""

OPENING_SHARE: Final = 0.3
LADDER_SHARE: Final = 0.4
"""The most of a day that its opening, or its ladders, take; own choice."""

LADDER_LEAST: Final = 2.0
"""Minutes for a ladder on the shortest day: one rung."""

ENOUGH: Final = 0.9
"""Part of its minutes from which a day is full; own choice, 0.8 is the least that is asked."""


class Draft(Filling):
    """The choice of a day's drills; nothing that it is made from changes."""

    def __init__(
        self,
        frontier: Frontier,
        start: Drill,
        day: Outline,
        banned: frozenset[Drill] = frozenset(),
    ) -> None:
        super().__init__(frontier.knowledge, day, banned)
        self.frontier = frontier
        self.start = start

    def fill(self) -> list[Pick]:
        """Choose the day's drills; each is linked to a secure one or to one before it."""
        self.begin()
        self.climb()
        if self.day.new_minutes >= self.day.minutes:
            self.cross_sooner()
        self.renew()
        light = self.day.character is Character.LIGHT
        only_known = light and bool(self.knowledge.secure)
        if not light:
            self.bridge()
            self.vary(self.graph.weights.shares.variant_share * self.day.minutes)
        self.take_all(Role.AGAIN, self.due)
        if not only_known and not self.full():
            self.vary(self.left)
        self.take_all(Role.AGAIN, self.rested, until_full=True)
        if not only_known:
            self.eke_out()
        return self.picks

    # What is taken, in this order

    def begin(self) -> None:
        """The cold test, or the opening."""
        if self.day.character is Character.TEST:
            count = self.graph.weights.shares.test_items
            for drill in cold_items(self.knowledge, self.day.date, count):
                minutes = cold_minutes_of(drill)
                if minutes <= self.left and (not self.picks or self.linked(drill)):
                    self.put(Pick(drill, Role.COLD, minutes))
        if not self.picks:
            most = max(OPENING_SHARE * self.day.minutes, 2.0)
            found = openings(self.knowledge, self.start, self.day.date, most)
            fits = [drill for drill in found if drill not in self.banned] or found
            drill = fits[0]
            self.put(Pick(drill, Role.START, min(self.graph.minutes(drill), self.left)))

    def climb(self) -> None:
        """Rungs towards what was not yet secure, and steps towards what is to be ready."""
        kept = max(self.left - max(self.day.minutes * LADDER_SHARE, LADDER_LEAST), 0.0)

        def fits(drill: Drill) -> bool:
            room = self.left - kept
            if self.gain(drill):
                room = min(room, self.new_left)
            too_many = self.is_new_hand(drill) and self.hands_left < 1
            short = self.graph.minutes(drill) <= room
            return short and not too_many and self.allowed(drill) and self.reachable(drill)

        for drill, goal in rungs(self.knowledge, fits):
            self.put(Pick(drill, Role.STEP_BACK, self.graph.minutes(drill), goal))
        for aim in self.day.aims:
            before = len(self.picks)
            for drill in aim.drills:
                if len(self.picks) - before < aim.steps and fits(drill):
                    minutes = self.graph.minutes(drill)
                    role = Role.NEW if self.gain(drill) else Role.OTHER_WAY
                    self.put(Pick(drill, role, minutes, aim=aim.towards))

    def cross_sooner(self) -> None:
        """A stranger's opening at its next stage, so that the sheet shows where it leads."""
        drill = self.graph.following(self.picks[0].drill)
        if drill is None or self.graph.minutes(drill) > self.left or not self.reachable(drill):
            return
        role = Role.NEW if self.gain(drill) else Role.OTHER_WAY
        self.put(Pick(drill, role, self.graph.minutes(drill)))

    def renew(self) -> None:
        """New drills, as many moves as their minutes allow; of those as useful, the easiest."""
        useful = self.graph.weights.shares.useful
        while True:
            offers = [
                (Sort(self.graph.minutes(drill), self.is_new_hand(drill)), gain, drill)
                for drill in self.unmet(self.frontier.best_fresh(CHOICE))
                if (gain := self.gain(drill))
            ]
            room = Room(min(self.new_left, self.left), self.hands_left)
            best = best_mix([offer[:2] for offer in offers], room)
            if best is None:
                return
            found = [
                drill
                for sort, gain, drill in offers
                if sort == best[0] and gain >= useful * best[1]
            ]
            drill = min(found, key=self.step)
            self.put(Pick(drill, Role.NEW, self.graph.minutes(drill)))

    def bridge(self) -> None:
        """A variant that leads to new drills of a length of which there are no others."""
        found = self.frontier.best_bridge()
        if found is None:
            return
        drill, beyond = found
        there = self.graph.minutes(beyond)
        new_hand = self.knowledge.is_new_hand(beyond)
        fits = self.graph.minutes(drill) <= self.left and self.allowed(drill)
        if fits and self.reachable(drill) and not self.frontier.offers(there, new_hand=new_hand):
            self.put(Pick(drill, Role.OTHER_WAY, self.graph.minutes(drill)))

    def vary(self, room: float) -> None:
        """Known moves in a form not yet played, of each stage in turn."""
        taken = Counter(self.frontier.taken)
        stages = range(1, self.graph.area.highest_stage + 1)
        while True:
            best = (self.frontier.best_variants(stage, CHOICE) for stage in stages)
            offers = self.variants(chain.from_iterable(best), min(room, self.left))
            if not offers:
                return
            drill = min(offers, key=lambda drill: self.turn(drill, taken))
            self.put(Pick(drill, Role.OTHER_WAY, self.graph.minutes(drill)))
            room -= self.graph.minutes(drill)
            taken[drill.stage] += 1
            if self.full():
                return

    def eke_out(self) -> None:
        """Known moves on fewer strings, or a stage more, where the day would else be short."""
        enough = ENOUGH * self.day.minutes
        while self.reach() < enough or len(self.picks) < self.fewest:
            stages = range(1, self.graph.area.highest_stage + 1)
            pools = [self.frontier.best_variants(stage, CHOICE) for stage in stages]
            best = self.unmet(chain(self.frontier.best_narrower(CHOICE), *pools))
            offers = [drill for drill in best if self.graph.minutes(drill) <= self.left]
            offers = [drill for drill in offers if not self.gain(drill)]
            if not offers:
                return
            drill = min(offers, key=self.step)
            self.put(Pick(drill, Role.OTHER_WAY, self.graph.minutes(drill)))

    def variants(self, best: Iterable[Drill], room: float) -> list[Drill]:
        """Variants that fit the room.

        None is known on more strings, and none has the stage before on the same day: a night
        comes between two stages.
        """
        return [
            drill
            for drill in self.unmet(best)
            if self.graph.minutes(drill) <= room
            and not self.gain(drill)
            and self.graph.gate(drill) not in self.placed
            and not any(
                self.meets(self.graph.first_stage(wider)) for wider in self.graph.wider(drill)
            )
        ]

    def turn(self, drill: Drill, taken: Counter[int]) -> tuple[int, float]:
        """When a variant comes: each stage by turns, the easiest first."""
        return (taken[drill.stage], self.effort(drill))

    def step(self, drill: Drill) -> tuple[bool, float]:
        """When a first time comes: not two stages a day, then the easiest first."""
        return (self.graph.gate(drill) in self.placed, self.effort(drill))

    def take_all(
        self, role: Role, found: Callable[[], Iterable[Drill]], *, until_full: bool = False
    ) -> None:
        """Put in what fits, in the order in which it is found."""
        for drill in found():
            if until_full and self.full():
                return
            minutes = self.graph.minutes(drill)
            if minutes <= self.left and self.allowed(drill) and self.reachable(drill):
                self.put(Pick(drill, role, minutes))

    def due(self) -> list[Drill]:
        """Secure drills whose review is due, those first that wait longest for their span."""
        date = self.day.date
        late = [(self.knowledge.lateness(drill, date), drill) for drill in self.secure()]
        late = [(by, drill) for by, drill in late if by >= 1 and not self.knowledge.passed(drill)]
        return [drill for _, drill in sorted(late, key=lambda entry: -entry[0])]

    def rested(self) -> list[Drill]:
        """Secure drills, those first that have rested longest for their span."""
        date = self.day.date
        order = [
            (self.knowledge.passed(drill), -self.knowledge.lateness(drill, date), drill)
            for drill in self.secure()
        ]
        return [drill for *_, drill in sorted(order, key=lambda entry: entry[:2])]

    def secure(self) -> Iterator[Drill]:
        """Secure drills of the area."""
        return (drill for drill in self.knowledge.secure if self.graph.holds(drill))
