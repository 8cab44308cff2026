"""A day as it fills up: what stands on it, what room is left, and what may still come."""

from typing import TYPE_CHECKING, Final

from bookgen.model.drill import Drill
from bookgen.plan.document import Role
from bookgen.planner.knowledge import Knowledge
from bookgen.planner.outline import Outline, Pick, most_minutes
from bookgen.planner.progress import Hand, hand_of
from bookgen.planner.sparing import has_room

if TYPE_CHECKING:
    from bookgen.model.move import Move

FEWEST_DRILLS: Final = 4
MINUTES_A_DRILL: Final = 2.5
"""A day of ten minutes has four drills at least, a shorter one fewer; own choice."""


class Filling:
    """What stands on a day, and what is asked before a drill comes onto it.

    banned: drills that the day must do without.
    left, new_left, hands_left: minutes that are free, those of them that drills with new moves
        may take, and the new hands that they may lay.
    """

    def __init__(self, knowledge: Knowledge, day: Outline, banned: frozenset[Drill]) -> None:
        self.knowledge = knowledge
        self.graph = knowledge.graph
        self.day = day
        self.banned = banned
        self.picks: list[Pick] = []
        self.placed: dict[Drill, None] = {}
        self.covered: set[Move] = set()
        self.hands: set[Hand] = set()
        self.left = day.minutes
        self.new_left = day.new_minutes
        self.hands_left = day.new_hands

    @property
    def fewest(self) -> int:
        """Drills that a day has at least, if there are as many: one leads on to the next."""
        return min(FEWEST_DRILLS, int(self.day.minutes // MINUTES_A_DRILL))

    def full(self) -> bool:
        """The day's drills fill it when they are given all the minutes that they may get."""
        return self.reach() >= self.day.minutes and len(self.picks) >= self.fewest

    def reach(self) -> float:
        """Minutes that the day's drills fill at the most."""
        most = sum(most_minutes(pick, self.day, self.knowledge) for pick in self.picks)
        return min(most, self.day.minutes)

    def put(self, pick: Pick) -> None:
        """Take a drill into the day.

        An opening takes nothing from the room for new drills, even where it is new itself because
        nothing is secure yet: a day has to begin with something.
        """
        if pick.role is not Role.START:
            self.new_left -= pick.minutes if self.gain(pick.drill) else 0.0
            self.hands_left -= self.is_new_hand(pick.drill)
        self.left -= pick.minutes
        self.picks.append(pick)
        self.placed[pick.drill] = None
        self.hands.add(hand_of(pick.drill))
        self.covered |= self.graph.moves(pick.drill)

    def gain(self, drill: Drill) -> int:
        """Moves that neither the player nor the day has met."""
        return len(self.graph.moves(drill) - self.knowledge.covered - self.covered)

    def is_new_hand(self, drill: Drill) -> bool:
        """Neither the player nor the day has met the drill's frame at its place."""
        return self.knowledge.is_new_hand(drill) and hand_of(drill) not in self.hands

    def allowed(self, drill: Drill) -> bool:
        """The day does not have the drill and may have it.

        What tires the hand has something between itself and the next that does, and is little.
        """
        if drill in self.placed or drill in self.banned:
            return False
        return has_room(drill, self.placed, self.graph)

    def reachable(self, drill: Drill) -> bool:
        """Its stage before and something that it is linked to are known or on the day."""
        gate = self.graph.gate(drill)
        return (gate is None or self.known(gate)) and self.linked(drill)

    def linked(self, drill: Drill) -> bool:
        """It differs in one thing from a drill that is known or on the day."""
        return any(self.known(other) for _, other in self.graph.neighbours(drill))

    def known(self, drill: Drill) -> bool:
        """Secure, or on the day already."""
        return drill in self.knowledge.secure or drill in self.placed
