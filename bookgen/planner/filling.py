"""A day as it fills up: what stands on it, what room is left, and what may still come."""

from collections.abc import Iterable
from itertools import chain
from typing import TYPE_CHECKING, Final

from bookgen.model.drill import Drill
from bookgen.plan.document import Role
from bookgen.planner.knowledge import Hand, Knowledge, hand_of
from bookgen.planner.outline import Outline, Pick, most_minutes

if TYPE_CHECKING:
    from bookgen.model.move import Move

FEWEST_DRILLS: Final = 4
MINUTES_A_DRILL: Final = 2.5
"""A day of ten minutes has four drills at least, a shorter one fewer; own choice."""

AWAY: Final = 0.3
"""What a link to another day counts as, in difficulty; own choice."""


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

    def unmet(self, best: Iterable[Drill]) -> list[Drill]:
        """The frontier's drills and what the day's own drills lead to, if they can be taken."""
        beside = (other for drill in self.placed for _, other in self.graph.neighbours(drill))
        return [
            drill
            for drill in dict.fromkeys(chain(best, beside))
            if drill not in self.knowledge.met and self.allowed(drill) and self.reachable(drill)
        ]

    def gain(self, drill: Drill) -> int:
        """Moves that neither the player nor the day has met."""
        return len(self.graph.moves(drill) - self.knowledge.covered - self.covered)

    def is_new_hand(self, drill: Drill) -> bool:
        """Neither the player nor the day has met the drill's frame at its place."""
        return self.knowledge.is_new_hand(drill) and hand_of(drill) not in self.hands

    def allowed(self, drill: Drill) -> bool:
        """The day does not have the drill and may have it."""
        return drill not in self.placed and drill not in self.banned

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

    def meets(self, drill: Drill) -> bool:
        """The player has met it before, or meets it on the day."""
        return drill in self.knowledge.met or drill in self.placed

    def effort(self, drill: Drill) -> float:
        """Difficulty, and something for a link that lies on another day."""
        here = any(other in self.placed for _, other in self.graph.neighbours(drill))
        return self.graph.difficulty(drill) + (0 if here else AWAY)
