"""The drills that a player has never played and could meet on a day, and which comes first."""

from collections.abc import Callable, Iterable, Iterator
from datetime import date as Date  # noqa: N812
from functools import cached_property, lru_cache
from itertools import pairwise
from typing import Final
from zlib import crc32

from bookgen.model.drill import CROSS_ON_EVERY_NOTE, Drill
from bookgen.model.move import EVERY_DRILL
from bookgen.model.spacing import Frame
from bookgen.model.units import Semitones
from bookgen.planner.difficulty import hand_place
from bookgen.planner.knowledge import Knowledge
from bookgen.planner.progress import Hand, hand_of
from bookgen.planner.sparing import leading
from bookgen.planner.way import ways_to

Rank = tuple[float, int]
"""How late a first time comes, and a tie that the seed breaks."""

PAIR: Final = 2

LATER: Final = 100.0
"""More than difficulties can differ: what counts before them."""

OLD_DAYS: Final = 3
"""Days after which an opposite presses, and a drill is tried again where nothing moves."""

WEEK: Final = 7
"""Days after which an opposite presses no more than it does then."""

SOON: Final = LATER / 2
"""Below it lie the ranks of what comes first."""


class Frontier:
    """What could come on a day: the stage before is firm, and hope does not run ahead.

    It follows from what is known, the date and the seed; nothing is counted within a run.

    seed: breaks ties, the same way on every day.
    """

    def __init__(self, knowledge: Knowledge, date: Date, seed: str) -> None:
        self.knowledge = knowledge
        self.graph = knowledge.graph
        self.progress = knowledge.progress
        self.pace = knowledge.graph.weights.pace
        self.date = date
        self.seed = seed
        self.last_stage = self.graph.area.highest_stage
        self.on_the_way = min(CROSS_ON_EVERY_NOTE, self.last_stage)
        self.rests = self.progress.idle >= self.pace.rest_days
        near = (other for one in knowledge.secure for _, other in self.graph.neighbours(one))
        self.ahead = self.openable(near)
        self.ranked = sorted((*self.rank(drill), drill) for drill in self.ahead)

    def openable(self, drills: Iterable[Drill]) -> dict[Drill, None]:
        """Those of some drills that were never played and may come."""
        met = self.knowledge.met
        return {
            drill: None for drill in dict.fromkeys(drills) if drill not in met and self.opens(drill)
        }

    # Gates

    def opens(self, drill: Drill) -> bool:
        """Whether a drill may be played for the first time.

        A hand begins when it is ready for. A later stage comes when the one before is firm; where
        that rests on hope alone, some days after the hand met the stage before.
        """
        gate, hand = self.graph.gate(drill), hand_of(drill)
        reached = self.progress.reached
        if gate is None:
            return hand in self.progress.top or self.is_ready(hand)
        if not self.firm(gate):
            return False
        if gate not in self.knowledge.presumed or (hand, drill.stage) in reached:
            return True
        return (self.date - reached[hand, gate.stage]).days >= self.pace.hope_days

    def firm(self, drill: Drill) -> bool:
        """Secure, and on as many days as the next stage asks for; one is enough after a rest."""
        enough = 1 if self.rests else self.pace.firm_days
        return drill in self.knowledge.secure and self.progress.secure_days[drill] >= enough

    def is_ready(self, hand: Hand) -> bool:
        """A hand may begin: the ordinary one before a low first finger, pairs before frames.

        An extension begins after the closed hand of its position, and after itself higher up the
        string, where it is shorter.
        """
        frame, place = hand
        pairs = [one for one in pairs_in(frame, place) if self.graph.lays(*one)]
        if any(self.progress.top.get(one, 0) < self.on_the_way for one in pairs):
            return False
        if self.graph.instrument.extension(*hand) and not self.is_led_to(hand):
            return False
        if not self.is_low(hand) or self.settled:
            return True
        return all(self.is_low(other) for other in self.graph.places)

    def is_led_to(self, hand: Hand) -> bool:
        """What leads to an extension has been met, as far as the area has it and leads there."""
        top = self.progress.top
        ways = leading(hand, self.graph.places, self.graph.instrument)
        return all(not way or any(one in top for one in way) for way in ways)

    @cached_property
    def settled(self) -> bool:
        """Some hand crosses on every note."""
        return any(top >= self.on_the_way for top in self.progress.top.values())

    def is_low(self, hand: Hand) -> bool:
        """The first finger would stand below its ordinary place."""
        effort = self.graph.weights.effort.place
        at = hand_place(hand[0].fingers[0], hand[1], self.graph.instrument.hand)
        return at < effort.home - effort.near

    # Ranks

    def rank(self, drill: Drill) -> Rank:
        """How late a first time comes for what is known on the morning.

        An opposite that is owed comes before all else, after a rest whatever leads to something
        novel; then the easiest, sooner for each stage that its line has reached and each move
        that it brings, later where frame or hand have the stage already, or the line ends early.
        """
        order, progress = self.pace.order, self.progress
        hand, stage = hand_of(drill), drill.stage
        effort = self.graph.difficulty(drill)
        effort -= order.depth * (stage - 1) + order.move * self.gain(drill)
        owed, novel = progress.is_owed(drill), progress.is_novel(drill)
        if (hand, stage) in progress.reached:
            effort += order.known_way * (1 if owed or novel else 2)
        elif (drill.frame, stage) in progress.frames:
            effort += order.known_frame
        line = (drill, *self.later(drill))
        effort += order.known_way * (line[-1].stage < self.last_stage)
        if owed:
            effort -= order.owed_day * min(progress.days_since(hand, self.date), WEEK)
        first = owed or (self.rests and any(map(progress.is_novel, line)))
        return round(effort + LATER * (not first), 3), tie(self.seed, drill)

    def gain(self, drill: Drill) -> int:
        """Moves of a drill that the player has not met."""
        return len(self.graph.moves(drill) - self.knowledge.covered)

    def later(self, drill: Drill) -> Iterator[Drill]:
        """The further stages of a drill's line."""
        while (after := self.graph.following(drill)) is not None:
            yield after
            drill = after

    def is_step(self, drill: Drill) -> bool:
        """A stage that its frame has met at no place.

        After a day that brought nothing novel, one that its hand has not met.
        """
        if self.progress.idle:
            return drill.stage > 1 and (hand_of(drill), drill.stage) not in self.progress.reached
        return drill.stage > 1 and (drill.frame, drill.stage) not in self.progress.frames

    def steps(self) -> list[Drill]:
        """What moves a player on, the best first: next stages; after a rest all that is novel.

        A stage that no hand has met comes before all others.
        """
        top = max(self.progress.top.values(), default=0)
        found = [
            drill
            for rank, _, drill in self.ranked
            if (rank < SOON if self.rests else self.is_step(drill))
        ]
        return sorted(found, key=lambda drill: drill.stage <= top)

    # Opposites that wait

    def is_pressing(self, drill: Drill) -> bool:
        """An opposite that has been owed for some days."""
        progress = self.progress
        waited = progress.days_since(hand_of(drill), self.date)
        return waited >= OLD_DAYS and progress.is_owed(drill)

    def unanswered(self, asked: Callable[[Drill], bool]) -> Iterator[tuple[Drill, Drill]]:
        """Drills that were not yet secure, each with an opposite that its hand owes.

        The hand that was begun first comes first.

        asked: only with these opposites.
        """
        begun, failed = self.progress.begun, self.knowledge.failed
        for drill in sorted(failed, key=lambda one: (begun[hand_of(one)], tie(self.seed, one))):
            for _, other in self.graph.neighbours(drill):
                if hand_of(other) == hand_of(drill) and asked(other) and self.opens(other):
                    yield drill, other

    # Where nothing has moved for some days

    def ways_on(self) -> list[list[Drill]]:
        """The nearest ways to something novel that the player may have, each first step once.

        The fewest steps come first; what was not yet secure in the last days comes after the rest.
        """
        failed = self.knowledge.failed

        def novel(drill: Drill) -> bool:
            hand = hand_of(drill)
            ready = hand in self.progress.top or self.is_ready(hand)
            return ready and self.progress.is_novel(drill)

        def order(way: list[Drill]) -> tuple[int, bool, Date, int]:
            since = failed.get(way[0], Date.min)
            young = (self.date - since).days < OLD_DAYS
            return len(way), young, since, tie(self.seed, way[0])

        known = [drill for drill in self.knowledge.secure if self.graph.holds(drill)]
        ways = sorted(ways_to(self.graph, known, novel), key=order)
        return list({way[0]: way for way in reversed(ways)}.values())[::-1]


@lru_cache(maxsize=EVERY_DRILL)
def tie(seed: str, drill: Drill) -> int:
    """What the seed says between equals: the same on every day and in every run."""
    return crc32(f"{seed}/{drill.key}".encode())


@lru_cache(maxsize=EVERY_DRILL)
def pairs_in(frame: Frame, place: Semitones) -> tuple[Hand, ...]:
    """The pairs of neighbouring fingers of a frame of three or four; none of a pair."""
    if len(frame.fingers) == PAIR:
        return ()
    return tuple(
        (
            Frame(pair, (spacing,), back=frame.back and pair[0] == frame.fingers[0]),
            Semitones(place + frame.offset(pair[0])),
        )
        for pair, spacing in zip(pairwise(frame.fingers), frame.spacings, strict=True)
    )
