"""The drills that a player has not met and could meet next: one step from what is secure."""

from collections.abc import Iterator
from heapq import heappop, heappush
from random import Random

from bookgen.model.drill import Drill
from bookgen.planner.knowledge import Hand, Knowledge, hand_of

Entry = tuple[float, float, float, Drill]
"""Rank, difficulty, tie, drill; a tie is broken by the seed, never by the drill."""


class Frontier:
    """Unmet drills that are linked to a secure one and whose stage before is secure.

    fresh: those that bring moves, by their minutes and whether the hand itself is new; the most
        moves first, then the easiest.
    variants: those whose moves are all known, by stage, the easiest first.
    narrower: those of them that are known on more strings already.
    bridges: variants with a neighbour that brings moves and that nothing else leads to, the
        most moves first.
    homes: the heap in which each drill counts, and its tie; what is left in others is stale.
    by_hand: the drills of each hand; when it is played they may belong elsewhere.
    taken: how many variants of each stage have been planned.
    """

    def __init__(self, knowledge: Knowledge, dice: Random) -> None:
        self.knowledge = knowledge
        self.graph = knowledge.graph
        self.dice = dice
        self.fresh: dict[tuple[float, bool], list[Entry]] = {}
        self.variants: dict[int, list[Entry]] = {}
        self.narrower: list[Entry] = []
        self.bridges: list[Entry] = []
        self.taken: dict[int, int] = {}
        self.seen: set[Drill] = set()
        self.homes: dict[Drill, tuple[list[Entry], float]] = {}
        self.by_hand: dict[Hand, list[Drill]] = {}
        for drill in knowledge.secure:
            self.open(drill)

    def open(self, drill: Drill) -> None:
        """Add what can be reached from a drill that has become secure."""
        for _, other in self.graph.neighbours(drill):
            if other in self.seen or not self.is_open(other):
                continue
            self.seen.add(other)
            if other not in self.met:
                self.by_hand.setdefault(hand_of(other), []).append(other)
                self.push(other, self.dice.random())
        self.sort_anew(hand_of(drill))

    def sort_anew(self, hand: Hand) -> None:
        """Put the drills of a hand that was played where they belong now."""
        left = [drill for drill in self.by_hand.get(hand, []) if drill not in self.met]
        self.by_hand[hand] = left
        for drill in left:
            home, tie = self.homes[drill]
            if self.place_of(drill)[0] is not home:
                self.push(drill, tie)

    def push(self, drill: Drill, tie: float) -> None:
        """Put a drill where its moves belong now."""
        heap, gain = self.place_of(drill)
        self.homes[drill] = heap, tie
        difficulty = self.graph.difficulty(drill)
        heappush(heap, (-gain, difficulty, tie, drill))
        if not gain and (beyond := self.beyond(drill)):
            heappush(self.bridges, (-self.gain(beyond), difficulty, tie, drill))

    def beyond(self, drill: Drill) -> Drill | None:
        """What brings the most moves of all that only this drill leads to, if anything does."""
        ahead = [
            other
            for _, other in self.graph.neighbours(drill)
            if other not in self.seen and self.is_open(other)
        ]
        best = max(ahead, key=self.gain, default=None)
        return best if best is not None and self.gain(best) else None

    def is_open(self, drill: Drill) -> bool:
        """The stage before is secure, or there is none."""
        gate = self.graph.gate(drill)
        return gate is None or gate in self.knowledge.secure

    def best_bridge(self) -> tuple[Drill, Drill] | None:
        """The variant that leads to the most moves, and what it leads to; None if none does."""
        while self.bridges:
            rank, difficulty, tie, drill = self.bridges[0]
            beyond = None if drill in self.met else self.beyond(drill)
            if beyond is not None and self.gain(beyond) == -rank:
                return drill, beyond
            heappop(self.bridges)
            if beyond is not None:
                heappush(self.bridges, (-self.gain(beyond), difficulty, tie, drill))
        return None

    def offers(self, minutes: float, *, new_hand: bool) -> bool:
        """Some new drill of that length is to be had."""
        return bool(self.best(self.fresh.get((minutes, new_hand), []), 1))

    def place_of(self, drill: Drill) -> tuple[list[Entry], int]:
        """The heap to which a drill belongs now, and the moves it brings."""
        gain = self.gain(drill)
        if gain:
            key = (self.graph.minutes(drill), self.knowledge.is_new_hand(drill))
            return self.fresh.setdefault(key, []), gain
        if self.known_wider(drill):
            return self.narrower, 0
        return self.variants.setdefault(drill.stage, []), 0

    def gain(self, drill: Drill) -> int:
        """Moves of a drill that the player has not met."""
        return len(self.graph.moves(drill) - self.knowledge.covered)

    def known_wider(self, drill: Drill) -> bool:
        """The player has met the hand and the way on these strings and others besides.

        The stage does not count: what is known on four strings goes on to the next stage there.
        """
        return any(self.graph.first_stage(wider) in self.met for wider in self.graph.wider(drill))

    @property
    def met(self) -> set[Drill]:
        """Every drill that the player has met."""
        return self.knowledge.met

    def best_fresh(self, count: int) -> Iterator[Drill]:
        """The best new drills of each length, of new hands and known ones, that many of each."""
        for key in sorted(self.fresh):
            yield from self.best(self.fresh[key], count)

    def best_variants(self, stage: int, count: int) -> list[Drill]:
        """The easiest variants at a stage, at most that many."""
        return self.best(self.variants.get(stage, []), count)

    def best_narrower(self, count: int) -> list[Drill]:
        """The easiest drills that are known on more strings, at most that many."""
        return self.best(self.narrower, count)

    def best(self, heap: list[Entry], count: int) -> list[Drill]:
        """The first entries of a heap; one that holds no longer goes where it belongs now.

        Moves only become fewer, so no entry stands too far back.
        """
        found: list[Entry] = []
        while heap and len(found) < count:
            entry = heappop(heap)
            rank, _, tie, drill = entry
            if drill in self.met or self.homes[drill][0] is not heap:
                continue
            home, gain = self.place_of(drill)
            if home is heap and gain == -rank:
                found.append(entry)
            else:
                self.push(drill, tie)
        for entry in found:
            heappush(heap, entry)
        return [drill for _, _, _, drill in found]
