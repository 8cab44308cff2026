"""The hard spots of a passage: its hardest sounds, each with what belongs to it."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from math import ceil

from bookgen.model.spot_weights import SpotWeights
from bookgen.model.stop import Stop
from bookgen.passage.points import Point
from bookgen.passage.sounds import Sounds
from bookgen.plan.passage import Spot

Struck = tuple[Stop | None, ...]


@dataclass(slots=True)
class Grown:
    """A spot while it is looked for."""

    first: int
    last: int
    peak: Point

    def near(self, index: int) -> bool:
        """A sound lies in it or right beside it."""
        return self.first - 1 <= index <= self.last + 2

    def overlaps(self, first: int, last: int) -> bool:
        """It shares a sound with a run."""
        return self.first <= last and first <= self.last


@dataclass(slots=True)
class Search:
    """The choice of spots.

    most: how many there may be. easier: sounds that would have been spots with more room.
    """

    sounds: Sounds
    points: Sequence[Point]
    table: SpotWeights
    most: int
    found: list[Grown] = field(default_factory=list)
    kinds: Counter[str] = field(default_factory=Counter)
    easier: set[frozenset[Struck]] = field(default_factory=set)

    def run(self) -> None:
        """Take the hardest sounds first; of no kind more than its share."""
        for point in sorted(self.points, key=lambda point: (-point.score, point.index)):
            if self.found and point.score < self.floor:
                break
            if point.score < self.table.chosen.least or self.belongs(point):
                continue
            first, last = self.grown(point)
            if any(one.overlaps(first, last) for one in self.found) or self.known(first, last):
                continue
            if len(self.found) == self.most or self.kinds[point.kind] >= self.kind_most:
                self.easier.add(frozenset(point.key))
                continue
            self.found.append(Grown(first, last, point))
            self.kinds[point.kind] += 1
        for one in self.found:
            self.filled(one)

    @property
    def floor(self) -> float:
        """The least score of a spot."""
        chosen = self.table.chosen
        return max(chosen.least, chosen.share * self.found[0].peak.score)

    @property
    def kind_most(self) -> int:
        """Spots that one kind of difficulty may have."""
        return ceil(self.table.chosen.kind_share * self.most)

    def belongs(self, point: Point) -> bool:
        """A sound is no spot of its own: the same thing is one, or it lies beside one."""
        if point.index == 0 and len(point.key[1]) == 1:
            return True
        if any(frozenset(one.peak.key) == frozenset(point.key) for one in self.found):
            return True
        near = next((one for one in self.found if one.near(point.index)), None)
        if near is None:
            return False
        first, last = min(near.first, point.index - 1), max(near.last, point.index)
        others = (one for one in self.found if one is not near)
        if self.holds(first, last) and not any(one.overlaps(first, last) for one in others):
            near.first, near.last = first, last
        return True

    def holds(self, first: int, last: int) -> bool:
        """A spot may reach so far: it is not too long and no rest stands in it."""
        if first < 0 or last >= len(self.points) or last - first >= self.table.chosen.widest:
            return False
        return not any(self.silent(at) for at in range(first + 1, last + 1))

    def silent(self, index: int) -> bool:
        """A rest stands before a sound."""
        return self.sounds.rests(index, Fraction(self.table.time.rest))

    def grown(self, point: Point) -> tuple[int, int]:
        """A sound with the one before it and with hard neighbours."""
        last = point.index
        alone = point.struck or not last or self.silent(last)
        first = last if alone else last - 1
        least = self.table.chosen.grows * point.score
        while True:
            right = self.points[last + 1].score if self.holds(first, last + 1) else 0.0
            left = self.points[first].score if self.holds(first - 1, last) else 0.0
            if max(left, right) < least:
                break
            first, last = (first, last + 1) if right >= left else (first - 1, last)
        if first == last and self.holds(first - 1, last):
            first -= 1
        return first, last

    def known(self, first: int, last: int) -> bool:
        """The sounds of a run, in whatever order, are those of a spot."""
        own = {self.stops(at) for at in range(first, last + 1)}
        return any(own <= {self.stops(at) for at in range(o.first, o.last + 1)} for o in self.found)

    def stops(self, index: int) -> Struck:
        """What is played at a sound."""
        return self.sounds.placed[index].stops

    def filled(self, one: Grown) -> None:
        """Enough sounds to be music, but none of another spot's, and none that comes twice."""
        while one.last - one.first + 1 < self.table.chosen.fewest:
            ways = [
                (self.together(to, at), at)
                for to, at in ((one.last, one.last + 1), (one.first, one.first - 1))
                if self.free(one, to, at)
            ]
            if not ways:
                return
            _, at = max(ways)
            one.first, one.last = min(one.first, at), max(one.last, at)

    def free(self, one: Grown, to: int, at: int) -> bool:
        """A sound may join the end of a spot."""
        if not 0 <= at < len(self.points) or self.silent(max(at, to)):
            return False
        others = (other for other in self.found if other is not one)
        return self.stops(at) != self.stops(to) and not any(
            other.overlaps(at - 1, at + 1) for other in others
        )

    def together(self, to: int, at: int) -> float:
        """How well a sound goes with the one beside it: in the same bar, and soon."""
        placed, events = self.sounds.placed, self.sounds.events
        return 2 * (placed[at].bar == placed[to].bar) - float(events[min(at, to)].lasts)

    def spots(self) -> tuple[Spot, ...]:
        """The spots in the order of the passage."""
        rising = sorted(self.found, key=lambda one: one.first)
        return tuple(
            Spot(
                number=number,
                first=one.first,
                last=one.last,
                peak=one.peak.index,
                parts=one.peak.parts,
                score=one.peak.score,
                others=tuple(self.again(one)),
            )
            for number, one in enumerate(rising, start=1)
        )

    def again(self, one: Grown) -> list[int]:
        """Where the same sounds come once more."""
        long = one.last - one.first + 1
        own = [self.stops(at) for at in range(one.first, one.last + 1)]
        starts = range(len(self.points) - long + 1)
        return [
            start
            for start in starts
            if start != one.first and [self.stops(start + at) for at in range(long)] == own
        ]
