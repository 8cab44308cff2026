"""The drills of a day for which something is wished: what is secure of it, then one new."""

from collections import Counter
from collections.abc import Iterable, Iterator

from msgspec.structs import replace

from bookgen.model.drill import Drill
from bookgen.plan.document import Day, Role
from bookgen.plan.wished import Wished
from bookgen.planner.filling import Filling
from bookgen.planner.knowledge import Knowledge
from bookgen.planner.ladder import rungs
from bookgen.planner.outline import Outline, Pick
from bookgen.planner.progress import Hand, hand_of
from bookgen.planner.sparing import comes_after
from bookgen.planner.way import way_to


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
        kept = new.minutes if new else 0.0
        for drill in self.secure_ones(new):
            if not self.rests(drill) or (new and drill == new.drill):
                continue
            minutes = self.graph.minutes(drill)
            if minutes <= self.left - kept and self.allowed(drill) and not self.full():
                self.put(Pick(drill, Role.AGAIN if self.picks else Role.START, minutes))
        if not self.picks:
            self.put(Pick(self.start, Role.START, min(self.graph.minutes(self.start), self.left)))
        if new is not None and new.minutes <= self.left and self.rests(new.drill):
            self.put(new)
        while self.stranger and not self.full():
            further = self.step_on()
            if further is None or not self.rests(further.drill):
                break
            self.put(further)
        return self.picks

    def rests(self, drill: Drill) -> bool:
        """Whether a drill may come next without tiring the hand."""
        last = self.picks[-1].drill if self.picks else None
        return comes_after(drill, last, self.graph)

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
        """One of each hand by turns, those first that have rested longest; what is passed last."""
        date, passed = self.day.date, self.knowledge.passed
        late = {drill: -self.knowledge.lateness(drill, date) for drill in drills}
        order = sorted(late, key=lambda one: (passed(one), late[one], one.key))
        turns: Counter[Hand] = Counter()
        turn = {}
        for drill in order:
            turn[drill] = turns[hand_of(drill)]
            turns[hand_of(drill)] += 1
        return sorted(order, key=lambda one: (passed(one), turn[one]))

    def new(self) -> Pick | None:
        """One step on: towards what was not yet secure, to what is open, or on the way there."""
        for rung, goal in rungs(self.knowledge, self.fits):
            if self.holds(goal):
                return Pick(rung, Role.STEP_BACK, self.graph.minutes(rung), goal)
        return self.step_on()

    def step_on(self) -> Pick | None:
        """The next drill on the shortest way to something of the wish that is not met."""
        known = [*self.knowledge.secure, *self.placed] or [self.start]
        way = way_to(self.graph, known, self.is_unmet)
        if not way or self.graph.minutes(way[0]) > self.left:
            return None
        drill = way[0]
        role = Role.NEW if self.gain(drill) else Role.OTHER_WAY
        return Pick(drill, role, self.graph.minutes(drill))

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
