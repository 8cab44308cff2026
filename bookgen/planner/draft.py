"""Which drills a day gets: what is chosen, before it is put in order."""

from collections.abc import Callable, Iterable, Iterator
from math import inf
from typing import Final

from bookgen.model.drill import Drill
from bookgen.plan.document import Character, Role
from bookgen.planner.filling import Filling
from bookgen.planner.frontier import SOON, Frontier, tie
from bookgen.planner.ladder import Fits, rungs
from bookgen.planner.minutes import cold_minutes_of
from bookgen.planner.opening import cold_items, openings
from bookgen.planner.outline import Outline, Pick
from bookgen.planner.progress import Hand, hand_of
from bookgen.planner.rhythm import NEW_LEAST_MINUTES

OPENING_SHARE: Final = 0.3
LADDER_SHARE: Final = 0.25
"""The most of a day that its opening, or its ladders, take; own choice."""

LADDER_LEAST: Final = 2.0
"""Minutes for a ladder on the shortest day: one rung."""

NOTHING: Final = (True, True, 0)
"""How soon a drill comes on which nothing hangs."""


class Draft(Filling):
    """The choice of a day's drills; nothing that it is made from changes.

    first_left: minutes that first times may still take.
    stepped: hands that have had a first time today.
    """

    def __init__(
        self,
        frontier: Frontier,
        start: Drill,
        day: Outline,
        banned: frozenset[Drill] = frozenset(),
    ) -> None:
        super().__init__(frontier.knowledge, day, banned)
        self.frontier = frontier
        self.progress = frontier.progress
        self.start = start
        self.shares = self.graph.weights.shares
        half = min(self.shares.first_share * day.minutes, self.shares.first_most_minutes)
        half = max(half, NEW_LEAST_MINUTES)
        self.first_left = half if self.knowledge.secure else day.minutes
        self.stepped: set[Hand] = set()

    def fill(self) -> list[Pick]:
        """Choose the day's drills; each is linked to a secure one or to one before it."""
        light = self.day.character is Character.LIGHT
        only_known = light and bool(self.knowledge.secure)
        self.begin()
        if self.day.stranger:
            self.cross_sooner()
        if not light:
            self.step_on()
            self.answer(self.frontier.is_pressing)
        self.climb(1.0 if self.frontier.rests else LADDER_SHARE)
        if not light:
            self.answer(self.progress.is_owed)
        self.take_all(Role.AGAIN, self.waiting())
        if not light:
            self.go_on()
        self.take_all(Role.AGAIN, self.due())
        self.take_all(Role.AGAIN, self.rested(), until_full=True)
        if not only_known and not self.full():
            self.first_left = self.left
            self.go_on(until_full=True)
            if not self.full():
                self.climb(1.0)
            self.take_all(Role.AGAIN, self.rested(), until_full=True)  # what has a link only now
        return self.picks

    def put(self, pick: Pick) -> None:
        """Take a drill into the day; a first time uses up the room for first times."""
        super().put(pick)
        if pick.role is not Role.START and pick.drill not in self.knowledge.met:
            self.first_left -= pick.minutes
            self.stepped.add(hand_of(pick.drill))

    # What is taken, in this order

    def begin(self) -> None:
        """The cold test, or the opening."""
        if self.day.character is Character.TEST:
            count = self.shares.test_items
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

    def cross_sooner(self) -> None:
        """A stranger's opening at its next stage, so that the sheet shows where it leads."""
        drill = self.graph.following(self.picks[0].drill)
        if drill is not None and self.graph.minutes(drill) <= self.left and self.reachable(drill):
            self.put(self.first_time(drill))

    def step_on(self) -> None:
        """What moves a player: the next stage of a hand, after a rest whatever is novel."""
        drill = next(filter(self.fits, self.frontier.steps()), None)
        if drill is not None:
            self.put(self.first_time(drill))

    def answer(self, asked: Callable[[Drill], bool]) -> None:
        """An opposite that is owed, which may be linked to a rung.

        Where none has a link any more, what it is the opposite of is played once more before it.
        """
        drill = self.best(asked)
        if drill is not None:
            self.put(self.first_time(drill))
        else:
            self.take_up(asked)

    def take_up(self, asked: Callable[[Drill], bool]) -> None:
        """A drill that was not yet secure, once more, and then its opposite."""
        for drill, opposite in self.frontier.unanswered(asked):
            minutes, then = self.graph.minutes(drill), self.graph.minutes(opposite)
            first_left = min(self.first_left, self.new_left if self.gain(opposite) else inf)
            room = minutes + then <= self.left and then <= first_left
            if room and self.reachable(drill) and self.allowed(drill) and self.allowed(opposite):
                self.put(Pick(drill, Role.STEP_BACK, minutes, drill))
                self.put(self.first_time(opposite))
                return

    def climb(self, share: float = LADDER_SHARE) -> None:
        """Rungs towards what was not yet secure, and steps towards what is to be ready.

        share: of the day that they may take.
        """
        kept = max(self.left - max(self.day.minutes * share, LADDER_LEAST), 0.0)

        def fits(drill: Drill) -> bool:
            met = drill in self.knowledge.met
            room = min(self.left - kept, inf if met else self.first_left)
            if self.gain(drill):
                room = min(room, self.new_left)
            too_many = self.is_new_hand(drill) and self.hands_left < 1
            short = self.graph.minutes(drill) <= room
            return short and not too_many and self.allowed(drill) and self.reachable(drill)

        if self.frontier.rests:
            self.move_on(fits)
        for drill, goal in rungs(self.knowledge, fits, self.presses):
            self.put(Pick(drill, Role.STEP_BACK, self.graph.minutes(drill), goal))
        self.approach(fits)

    def move_on(self, fits: Fits) -> None:
        """Steps of the nearest ways to something novel, as many as there is time for.

        What was met before may follow its stage before on the same day; a first time may not.
        """
        failed = self.knowledge.failed
        for way in self.frontier.ways_on():
            goal = next(filter(failed.__contains__, reversed(way)), None)
            for drill in way:
                if drill in failed and fits(drill):
                    self.put(Pick(drill, Role.STEP_BACK, self.graph.minutes(drill), goal))
                elif drill == way[0] and fits(drill):
                    self.put(self.first_time(drill))
                elif drill not in self.placed:
                    break

    def approach(self, fits: Fits) -> None:
        """Steps towards what is to be ready."""
        for aim in self.day.aims:
            before = len(self.picks)
            for drill in aim.drills:
                slept = self.graph.gate(drill) not in self.placed  # a night between two stages
                if len(self.picks) - before < aim.steps and slept and fits(drill):
                    role = Role.NEW if self.gain(drill) else Role.OTHER_WAY
                    self.put(Pick(drill, role, self.graph.minutes(drill), aim=aim.towards))

    def go_on(self, *, until_full: bool = False) -> None:
        """First times, the best that fits again and again."""
        while not (until_full and self.full()):
            drill = self.best()
            if drill is None:
                return
            self.put(self.first_time(drill))

    def best(self, asked: Callable[[Drill], bool] | None = None) -> Drill | None:
        """The first time that comes next; a hand that had one today comes after all others.

        What is worth most on the morning is looked at until no other can be better.

        asked: only of these.
        """
        here = (other for one in self.placed for _, other in self.graph.neighbours(one))
        fresh = self.frontier.openable(one for one in here if one not in self.frontier.ahead)
        best: tuple[float, int, Drill] | None = None
        for rank, by, drill in (
            *((*self.frontier.rank(drill), drill) for drill in fresh),
            *self.frontier.ranked,
        ):
            if best is not None and rank > best[0] and drill not in fresh:
                break
            if self.fits(drill) and (asked is None or asked(drill)):
                found = (rank + self.later(drill), by, drill)
                best = found if best is None else min(best, found)
        return None if best is None else best[2]

    def later(self, drill: Drill) -> float:
        """How much later a drill comes for what stands on the day."""
        order, new_hand = self.graph.weights.pace.order, self.is_new_hand(drill)
        met = self.frontier.gain(drill) - self.gain(drill)
        away = not any(other in self.placed for _, other in self.graph.neighbours(drill))
        later = (
            order.move * met + order.away * away + 2 * order.known_way * (new_hand and self.crowded)
        )
        return later + SOON * (hand_of(drill) in self.stepped)

    @property
    def crowded(self) -> bool:
        """As many hands are under way as there should be."""
        pace = self.graph.weights.pace
        most = max(pace.least_width, round(pace.width_share * len(self.graph.places)))
        here = len(self.hands - self.progress.top.keys())
        return self.progress.under_way(self.frontier.on_the_way) + here >= most

    def first_time(self, drill: Drill) -> Pick:
        """A drill that was never played."""
        role = Role.NEW if self.gain(drill) else Role.OTHER_WAY
        return Pick(drill, role, self.graph.minutes(drill))

    def fits(self, drill: Drill) -> bool:
        """A first time has room, and something that it is linked to."""
        minutes = self.graph.minutes(drill)
        if minutes > min(self.first_left, self.left) or not self.allowed(drill):
            return False
        if self.hands_left < 1 and self.is_new_hand(drill):
            return False
        return (minutes <= self.new_left or not self.gain(drill)) and self.linked(drill)

    def waiting(self) -> Iterator[Drill]:
        """Secure drills for whose second day a next stage waits, those first with most behind."""
        room = self.shares.waiting_share * self.day.minutes
        young = [drill for drill in self.secure() if not self.frontier.firm(drill)]
        young = [drill for drill in young if self.hangs(drill) < NOTHING]
        for drill in self.in_order(young, self.hangs, self.graph.difficulty):
            if self.graph.minutes(drill) <= room:
                room -= self.graph.minutes(drill)
                yield drill

    def hangs(self, drill: Drill) -> tuple[bool, bool, int]:
        """How much hangs on a drill, the most first: something novel, a next stage, a far one."""
        after = self.graph.following(drill)
        if after is None or after in self.knowledge.met:
            return NOTHING
        return not self.progress.is_novel(after), False, -drill.stage

    def presses(self, goal: Drill) -> tuple[bool, bool, bool, int]:
        """How soon the way back to a drill comes: first if its hand owes an opposite."""
        return (not self.progress.owes(hand_of(goal)), *self.hangs(goal))

    def take_all(self, role: Role, found: Iterable[Drill], *, until_full: bool = False) -> None:
        """Put in what fits, in the order in which it is found."""
        for drill in found:
            if until_full and self.full():
                return
            minutes = self.graph.minutes(drill)
            if minutes <= self.left and self.allowed(drill) and self.reachable(drill):
                self.put(Pick(drill, role, minutes))

    def due(self) -> list[Drill]:
        """Secure drills whose review is due, those first that wait longest for their span."""
        late = {drill: self.knowledge.lateness(drill, self.day.date) for drill in self.secure()}
        due = [one for one, by in late.items() if by >= 1 and not self.knowledge.passed(one)]
        return self.in_order(due, lambda drill: -late[drill])

    def rested(self) -> list[Drill]:
        """Secure drills, those first that have rested longest for their span."""
        date, known = self.day.date, self.knowledge
        return self.in_order(self.secure(), known.passed, lambda one: -known.lateness(one, date))

    def in_order(self, drills: Iterable[Drill], *by: Callable[[Drill], object]) -> list[Drill]:
        """Drills in the order of several things; ties are broken by the seed."""
        seed = self.frontier.seed
        return sorted(drills, key=lambda one: (*(key(one) for key in by), tie(seed, one)))

    def secure(self) -> Iterator[Drill]:
        """Secure drills of the area."""
        return (drill for drill in self.knowledge.secure if self.graph.holds(drill))
