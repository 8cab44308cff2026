"""The drills of a day for which something is wished: what is secure of it, then one new."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

from msgspec.structs import replace

from bookgen.model.drill import Drill
from bookgen.model.place import place_label
from bookgen.plan.document import Day, Role
from bookgen.plan.wished import Wished
from bookgen.planner.filling import Filling
from bookgen.planner.knowledge import Knowledge
from bookgen.planner.ladder import rungs
from bookgen.planner.outline import Outline, Pick
from bookgen.planner.progress import Hand, hand_of
from bookgen.planner.sparing import comes_after, has_room, tires
from bookgen.planner.way import Wanted, way_to


class WishedDay(Filling):
    """The choice of a wished day's drills.

    start: where somebody begins who knows nothing.
    stranger: nobody can say what is new, so the day has as much of it as it can hold.
    """

    def __init__(
        self,
        knowledge: Knowledge,
        wished: Wished,
        start: Drill,
        day: Outline,
        *,
        stranger: bool,
    ) -> None:
        super().__init__(knowledge, day, frozenset())
        self.wished = wished
        self.start = start
        self.stranger = stranger

    def fill(self) -> list[Pick]:
        """What is secure of the wish, what leads there where the day has room, then one new.

        Where nothing is secure yet, the start and as much of the way there as a day may have.
        """
        new = self.new()
        waiting = [drill for drill in self.secure_ones(new) if not (new and drill == new.drill)]
        while not self.full():
            secure = next((drill for drill in waiting if self.comes(drill, waiting, new)), None)
            if secure is None:
                break
            role = Role.AGAIN if self.picks else Role.START
            self.put(Pick(secure, role, self.graph.minutes(secure)))
        if not self.picks:
            self.put(Pick(self.start, Role.START, min(self.graph.minutes(self.start), self.left)))
        if new is not None and new.minutes <= self.left and self.rests(new.drill):
            self.put(new)
        while self.stranger and not self.full():
            further = self.step_on() or self.resting()
            if further is None:
                break
            self.put(further)
        return self.picks

    def comes(self, drill: Drill, waiting: Sequence[Drill], new: Pick | None) -> bool:
        """Whether a secure drill may come now, and leaves its time and its rest to the new one."""
        if drill in self.placed or not self.rests(drill):
            return False
        if self.graph.minutes(drill) > self.left - (new.minutes if new else 0.0):
            return False
        if new is None or comes_after(new.drill, drill, self.graph):
            return True
        fresh = (one for one in waiting if one not in self.placed)
        rest = next((one for one in fresh if not tires(one, self.graph.instrument)), None)
        return rest is not None and has_room(new.drill, [*self.placed, drill, rest], self.graph)

    def rests(self, drill: Drill) -> bool:
        """Whether a drill may come next without tiring the hand."""
        last = self.picks[-1].drill if self.picks else None
        return comes_after(drill, last, self.graph) and self.allowed(drill)

    def holds(self, drill: Drill) -> bool:
        """Whether a drill is what is wished."""
        return self.wished.holds(drill, self.graph.instrument)

    def secure_ones(self, new: Pick | None) -> Iterator[Drill]:
        """Secure drills of the wish, the longest at rest first; then what leads to it.

        First of all comes what the new one hangs on, where nothing of the wish is secure.
        """
        graph = self.graph
        own = [drill for drill in self.knowledge.secure if graph.holds(drill)]
        wished = [drill for drill in own if self.holds(drill)]
        if not wished and new is not None:
            gate = graph.gate(new.drill)
            near = [gate, *(other for _, other in graph.neighbours(new.drill))]
            yield from [one for one in near if one in self.knowledge.secure][:1]
        yield from self.rested(wished)
        yield from self.rested(
            drill for drill in own if any(self.holds(one) for _, one in graph.neighbours(drill))
        )

    def rested(self, drills: Iterable[Drill]) -> list[Drill]:
        """One of each hand by turns, those first that have rested longest; what is passed last.

        What the wish means first of all comes before the rest of it.
        """
        date, passed = self.day.date, self.knowledge.passed
        late = {drill: -self.knowledge.lateness(drill, date) for drill in drills}
        order = sorted(late, key=lambda one: (passed(one), late[one], one.key))
        turns: Counter[Hand] = Counter()
        turn = {}
        for drill in order:
            turn[drill] = turns[hand_of(drill)]
            turns[hand_of(drill)] += 1
        after = {drill: not self.wished.foremost(drill) for drill in order}
        return sorted(order, key=lambda one: (passed(one), after[one], turn[one]))

    def new(self) -> Pick | None:
        """One step on: towards what was not yet secure, to what is open, or on the way there."""
        for rung, goal in rungs(self.knowledge, self.fits):
            if self.holds(goal):
                return Pick(rung, Role.STEP_BACK, self.graph.minutes(rung), goal)
        return self.step_on()

    def step_on(self) -> Pick | None:
        """The next drill on the shortest way to something of the wish that is not met.

        What the wish means first of all comes before the rest of it.
        """
        return self.step_to(self.is_foremost) or self.step_to(self.is_unmet)

    def resting(self) -> Pick | None:
        """Something new at the same place of the hand, between two drills that tire it."""
        label = place_label(self.picks[-1].drill, self.graph.instrument)
        return self.step_to(
            lambda drill: (
                drill not in self.knowledge.met
                and not tires(drill, self.graph.instrument)
                and place_label(drill, self.graph.instrument) == label
            )
        )

    def step_to(self, wanted: Wanted) -> Pick | None:
        """The next drill on the shortest way to what is wanted, if it may come now."""
        known = [*self.knowledge.secure, *self.placed] or [self.start]
        way = way_to(self.graph, known, wanted)
        if not way or self.graph.minutes(way[0]) > self.left:
            return None
        drill = way[0]
        if self.picks and not self.rests(drill):
            return None
        role = Role.NEW if self.gain(drill) else Role.OTHER_WAY
        return Pick(drill, role, self.graph.minutes(drill))

    def is_foremost(self, drill: Drill) -> bool:
        """Whether a drill is what the wish means first of all, and the player has not met it."""
        return self.is_unmet(drill) and self.wished.foremost(drill)

    def is_unmet(self, drill: Drill) -> bool:
        """Whether a drill is wished, and the player has not met it."""
        return drill not in self.knowledge.met and self.holds(drill)

    def fits(self, drill: Drill) -> bool:
        """Whether there is time for a rung, and its link and stage before are there."""
        return self.graph.minutes(drill) <= self.left and self.reachable(drill)


def as_wished(day: Day, wished: Wished) -> Day:
    """A day that says what was wished for it, and is as long as what there is to play."""
    minutes = sum(item.minutes for item in day.items)
    return replace(day, wish=wished, minutes=minutes)
