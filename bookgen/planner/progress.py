"""How far each hand has come: its stages, its orders there and back, and what would be novel."""

from collections.abc import Iterable
from datetime import date as Date  # noqa: N812
from typing import TYPE_CHECKING

from bookgen.model.drill import Drill
from bookgen.model.route import Return
from bookgen.model.spacing import Frame
from bookgen.model.units import Semitones
from bookgen.planner.graph import Graph
from bookgen.planner.pool import pool
from bookgen.planner.request import Request

if TYPE_CHECKING:
    from bookgen.model.move import Move

Hand = tuple[Frame, Semitones]
"""A frame and its place, in semitones from the nut to the lowest finger."""

Way = tuple[tuple[int, ...], Return]
"""The order of the fingers, and how the way back runs."""


class Progress:
    """What the player's hands have met, in the order of the days.

    covered: moves of all drills that were met.
    reached: the first day of each stage of a hand; frames: stages by frame, at whatever place.
    top: the highest stage of each hand; ways: its orders with their ways back.
    secure_days: on how many days each drill was secure; secure_on: the last of them.
    idle: practice days up to the last one without a new move, stage or order of a hand.
    last: the last practice day.
    begun: the first day of each hand that was played.
    """

    def __init__(self, graph: Graph) -> None:
        self.graph = graph
        self.covered: set[Move] = set()
        self.reached: dict[tuple[Hand, int], Date] = {}
        self.frames: set[tuple[Frame, int]] = set()
        self.top: dict[Hand, int] = {}
        self.ways: dict[Hand, set[Way]] = {}
        self.secure_days: dict[Drill, int] = {}
        self.secure_on: dict[Drill, Date] = {}
        self.idle = 0
        self.last = Date.min
        self.begun: dict[Hand, Date] = {}

    def trust(self, drill: Drill, days: int) -> None:
        """Note a drill that was secure on so many days before all others."""
        self.meet(drill, Date.min)
        self.secure_days[drill] = days

    def play(self, drill: Drill, date: Date, *, secure: bool) -> None:
        """Note that a drill was played."""
        if date != self.last:
            self.idle += 1
            self.last = date
        self.begun.setdefault(hand_of(drill), date)
        if self.is_novel(drill):
            self.idle = 0
        self.meet(drill, date)
        if secure and self.secure_on.get(drill) != date:
            self.secure_days[drill] = self.secure_days.get(drill, 0) + 1
            self.secure_on[drill] = date

    def meet(self, drill: Drill, date: Date) -> None:
        """Note what a hand has met."""
        hand = hand_of(drill)
        self.covered.update(self.graph.moves(drill))
        self.reached.setdefault((hand, drill.stage), date)
        self.frames.add((drill.frame, drill.stage))
        self.top[hand] = max(self.top.get(hand, 0), drill.stage)
        self.ways.setdefault(hand, set()).add((drill.order, drill.back))

    def is_novel(self, drill: Drill) -> bool:
        """A new move, a new stage of its hand, or a new order of its fingers there and back."""
        hand = hand_of(drill)
        return (
            (hand, drill.stage) not in self.reached
            or (drill.order, drill.back) not in self.ways[hand]
            or not self.covered.issuperset(self.graph.moves(drill))
        )

    def is_owed(self, drill: Drill) -> bool:
        """Its hand has met the opposite of the drill's lead or way back, but not that itself."""
        ways = self.ways.get(hand_of(drill))
        if ways is None:
            return False
        orders = {order for order, _ in ways}
        lead = drill.order not in orders and drill.order[::-1] in orders
        return lead or drill.back not in {back for _, back in ways}

    def days_since(self, hand: Hand, date: Date) -> int:
        """Days since a hand was begun; 0 where it is only said to be known."""
        return (date - self.begun.get(hand, date)).days

    def owes(self, hand: Hand) -> bool:
        """A hand has met one lead only, or one way back."""
        ways = self.ways.get(hand)
        return ways is not None and any(len({way[at] for way in ways}) == 1 for at in (0, 1))

    def under_way(self, stage: int) -> int:
        """How many hands were begun and have not come to a stage."""
        return sum(top < stage for top in self.top.values())


def anything_novel(request: Request, met: Iterable[Drill]) -> bool:
    """Whether the area has anything novel for who has met some drills and knows some."""
    progress = Progress(Graph(request.instrument, request.area, request.weights))
    for drill in (*request.secure, *met):
        if drill.instrument == request.instrument.key:
            progress.meet(drill, Date.min)
    return any(map(progress.is_novel, pool(request.instrument, request.area)))


def hand_of(drill: Drill) -> Hand:
    """How the hand is laid, on whatever strings."""
    return drill.frame, drill.place
