"""What a player has secure, as moves: what need not be drilled any more, and what counts less."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass

from bookgen.model.drill import Drill
from bookgen.model.move import Move, moves_of
from bookgen.model.spot_weights import Secure as Shares
from bookgen.plan.passage import Need

CROSSES, OVERLAP = 2, 4
"""The first stages at which the player crosses soon, and at which two strings sound at once."""

Shape = tuple[int, int, int, int]
"""Two fingers, how many strings up, how many half steps further: a move without its place."""


@dataclass(frozen=True, slots=True)
class Secure:
    """What is secure.

    moves: of all secure drills; crossed: of those that cross before a string is done with.
    together: of those in which two strings sound at once.
    shapes: of all moves, wherever they were played.
    """

    moves: frozenset[Move]
    crossed: frozenset[Move]
    together: frozenset[Move]
    shapes: frozenset[Shape]

    @classmethod
    def of(cls, drills: Iterable[Drill]) -> "Secure":
        """What these drills have."""
        found = list(drills)
        moves, crossed, together = (
            frozenset(move for drill in found if drill.stage >= stage for move in moves_of(drill))
            for stage in (1, CROSSES, OVERLAP)
        )
        return cls(moves, crossed, together, frozenset(map(shape_of, moves)))

    def has(self, need: Need) -> bool:
        """A secure drill has what is needed."""
        crosses = need.first.string != need.then.string
        known = self.together if need.together else self.crossed if crosses else self.moves
        return bool(ways(need) & known)

    def share(self, moves: Collection[Move], shares: Shares) -> float:
        """Times what a sound with these moves scores."""
        if moves and all(move in self.moves for move in moves):
            return shares.all
        if moves and all(shape_of(move) in self.shapes for move in moves):
            return shares.elsewhere
        return 1.0


def shape_of(move: Move) -> Shape:
    """A move without its place."""
    one, other = move.first, move.then
    return one.finger, other.finger, one.string - other.string, other.semitones - one.semitones


def ways(need: Need) -> frozenset[Move]:
    """The moves that meet a need: a double stop has no order."""
    one, other, shifts = need.first, need.then, bool(need.shift)
    if need.together:
        return frozenset({Move(one, other), Move(other, one)})
    return frozenset({Move(one, other, shifts)})
