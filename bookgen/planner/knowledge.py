"""What a player knows, from the log and from the days that are already planned."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from operator import attrgetter
from typing import TYPE_CHECKING

from bookgen.model.drill import Drill
from bookgen.model.spacing import Frame
from bookgen.model.units import Semitones
from bookgen.plan.document import Kind
from bookgen.plan.record import Record, Result
from bookgen.planner.graph import Graph
from bookgen.planner.review import Memory, first_memory

if TYPE_CHECKING:
    from bookgen.model.move import Move

Hand = tuple[Frame, Semitones]
"""A frame and its place, in semitones from the nut to the lowest finger."""


@dataclass(frozen=True, slots=True)
class Printed:
    """Where a drill was printed last.

    planned: on an earlier day of the plan that is being made, not before.
    """

    number: int
    date: Date
    planned: bool


class Knowledge:
    """What counts as known on a day.

    secure: drills whose last result is secure, that the player is said to know, or that stand
        on an earlier day of the plan.
    presumed: those of them that only stand earlier in the plan.
    failed: drills whose last result is not yet, with its day.
    met: every drill with a result, and all that are secure.
    secured: the last day on which a drill was secure.
    covered: moves of all drills that were met.
    hands: frames with the places at which the player has met them.
    memories: how well each drill with a result, or presumed, is kept in mind.
    printed: where each drill was printed last, met or not.
    openings: what opened each day so far, in the order of the days.
    """

    def __init__(self, graph: Graph) -> None:
        self.graph = graph
        self.secure: dict[Drill, None] = {}
        self.presumed: set[Drill] = set()
        self.failed: dict[Drill, Date] = {}
        self.met: set[Drill] = set()
        self.secured: dict[Drill, Date] = {}
        self.covered: set[Move] = set()
        self.hands: set[Hand] = set()
        self.memories: dict[Drill, Memory] = {}
        self.printed: dict[Drill, Printed] = {}
        self.openings: list[Drill] = []

    def trust(self, drills: Iterable[Drill]) -> None:
        """Take drills as secure of which no result is known."""
        for drill in drills:
            self.secure[drill] = None
            self.meet(drill)

    def read(self, records: Iterable[Record], before: Date) -> None:
        """Take in what was printed before a day and the results up to it.

        What was played on another instrument tells nothing: its stops are others.
        """
        own = [r for r in records if r.drill.instrument == self.graph.instrument.key]
        known = [record for record in own if record.date < before]
        for record in sorted(known, key=attrgetter("date", "number")):
            self.printed[record.drill] = Printed(record.number, record.date, planned=False)
        self.openings.extend(openings_in(known))
        marked = [(r.marked, r.number, r) for r in own if r.marked and r.marked <= before]
        for date, _, record in sorted(marked, key=lambda entry: entry[:2]):
            if record.result is not None:
                self.take(record.drill, record.result, date)

    def take(self, drill: Drill, result: Result, date: Date) -> None:
        """Take in one result."""
        self.meet(drill)
        self.remember(drill, result, date)
        if result is Result.SECURE:
            self.secure[drill] = None
            self.secured[drill] = date
            self.failed.pop(drill, None)
        else:
            self.secure.pop(drill, None)
            self.failed[drill] = date

    def presume(self, drill: Drill, number: int, date: Date) -> None:
        """Go on as if a drill of an earlier planned day were secure."""
        if drill not in self.secure:
            self.presumed.add(drill)
        self.take(drill, Result.SECURE, date)
        self.printed[drill] = Printed(number, date, planned=True)

    def meet(self, drill: Drill) -> None:
        """Note that the player has played a drill."""
        self.met.add(drill)
        self.hands.add(hand_of(drill))
        self.covered.update(self.graph.moves(drill))

    def remember(self, drill: Drill, result: Result, date: Date) -> None:
        """Let a result count for when the drill is due again."""
        memory = self.memories.get(drill)
        retention = self.graph.weights.retention
        self.memories[drill] = (
            first_memory(date, result, retention) if memory is None else memory.after(date, result)
        )

    def is_new_hand(self, drill: Drill) -> bool:
        """The player has met the drill's frame nowhere or in other places only."""
        return hand_of(drill) not in self.hands

    def lateness(self, drill: Drill, date: Date) -> float:
        """How far the time to a drill's next review has run: 1 when it is due."""
        memory = self.memories.get(drill)
        if memory is None:
            return 1.0
        return (date - memory.last).days / max((memory.due - memory.last).days, 1)

    def passed(self, drill: Drill) -> bool:
        """The same drill is secure at the next stage or on more strings: that includes it."""
        following = self.graph.following(drill)
        if following is not None and following in self.secure:
            return True
        return any(wider in self.secure for wider in self.graph.wider(drill))


def hand_of(drill: Drill) -> Hand:
    """How the hand is laid, on whatever strings."""
    return drill.frame, drill.place


def openings_in(records: Iterable[Record]) -> list[Drill]:
    """The drill that opened each day, in the order of the days."""
    first: dict[Date, Record] = {}
    for record in sorted(records, key=attrgetter("number")):
        if record.kind in {Kind.OPENING, Kind.TEST}:
            first.setdefault(record.date, record)
    return [first[date].drill for date in sorted(first)]
