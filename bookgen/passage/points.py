"""How hard each sound of a passage is for a player, part by part."""

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from itertools import pairwise, product
from math import log2
from typing import Final

from bookgen.model.move import Move
from bookgen.model.spacing import Spacing
from bookgen.model.spot_weights import SpotWeights
from bookgen.model.stop import Stop
from bookgen.model.units import Semitones
from bookgen.model.weights import Effort
from bookgen.passage.secure import Secure
from bookgen.passage.sounds import Sounds
from bookgen.plan.passage_facts import Change, changes_of
from bookgen.planner.difficulty import hand_place, place_effort

SIXTHS: Final = frozenset({8, 9})
GRACE: Final = 1 / 32
"""Whole notes that a grace note is taken to last."""

WIDE_PAIR, ONE_PLACE = 0.4, 1.0
"""What 1 to 4 costs where the difficulty table has no word for it, and two fingers that stand at
one height or in the wrong order; own choice."""

PAIR_ACROSS: Final = 3
"""Fingers 1 and 4 are that far apart."""

Part = tuple[str, float]
"""A part of the score by its name."""


@dataclass(frozen=True, slots=True)
class Point:
    """What is hard at a sound.

    key: all stops before and here; sounds with one key are the same thing to learn.
    moves: from the sound before, or within it. score: speed and repetition counted in.
    """

    index: int
    parts: dict[str, float]
    key: tuple[tuple[Stop | None, ...], ...]
    moves: tuple[Move, ...]
    score: float

    @property
    def kind(self) -> str:
        """Its largest part; "" where nothing is hard."""
        return max(self.parts, key=lambda part: self.parts[part], default="")

    @property
    def struck(self) -> bool:
        """Most of it is that strings sound together: the sound before has no part in it."""
        return self.parts.get("together", 0.0) > sum(self.parts.values()) / 2


@dataclass(slots=True)
class Judge:
    """The table of spots laid over a passage and a player."""

    sounds: Sounds
    table: SpotWeights
    effort: Effort
    secure: Secure
    changes: dict[int, tuple[Change, ...]] = field(init=False)
    frames: dict[int, str] = field(init=False)

    def __post_init__(self) -> None:
        """Find out where fingers go low and high, and in which frame each sound lies."""
        fingering = self.sounds.fingering
        self.changes = changes_of(fingering)
        self.frames = {
            index: f"{group.letter} {index}" if index in group.passing else group.letter
            for group in fingering.groups
            for index in range(group.first, group.last + 1)
        }

    def points(self) -> list[Point]:
        """The score of every sound."""
        found = [self.point(index) for index in range(len(self.sounds))]
        times = Counter(point.key for point in found)
        again = self.table.time.again
        return [
            Point(
                point.index,
                point.parts,
                point.key,
                point.moves,
                point.score * (1 + again * log2(times[point.key])),
            )
            for point in found
        ]

    def point(self, index: int) -> Point:
        """The score of one sound, without how often it comes."""
        placed = self.sounds.placed
        moves = list(self.within(index))
        found = [*self.struck_together(index), *self.laid(index)]
        if index:
            came, along = self.arrived(index)
            found += [*came, *self.changed(index)]
            moves += along
        parts = summed(found)
        score = sum(parts.values()) * self.speed(index)
        score *= self.secure.share(moves, self.table.secure)
        key = (placed[index - 1].stops if index else (), placed[index].stops)
        return Point(index, parts, key, tuple(moves), score)

    def speed(self, index: int) -> float:
        """Times the score: how soon a sound comes after the one before."""
        time = self.table.time
        if not index:
            return time.slowest
        before = self.sounds.events[index - 1].lasts
        quick = self.sounds.events[index].quick or not before
        return time.speed(GRACE if quick else float(before))

    def struck_together(self, index: int) -> Iterator[Part]:
        """Two or more strings at once."""
        table = self.table.together
        for low, high in pairwise(self.sounds.played(index)):
            if not low.finger or not high.finger:
                yield "together", table.open
                continue
            yield "together", table.stopped + self.effort.crossing.of(self.apart(low, high))
            if low.finger != high.finger:
                yield "pair", table.pair * pair_effort(low, high, self.effort)

    def within(self, index: int) -> Iterator[Move]:
        """The moves within a sound, from the lower string."""
        for low, high in pairwise(self.sounds.stopped(index)):
            if low != high:
                yield Move(low, high)

    def arrived(self, index: int) -> tuple[list[Part], list[Move]]:
        """From the sound before: the easiest of its lines counts; all its moves are told."""
        before, here = self.sounds.played(index - 1), self.sounds.played(index)
        alike = len(before) == len(here)
        lines = [*zip(before, here, strict=True)] if alike else [*product(before, here)]
        ways = [list(self.line(one, other, index)) for one, other in lines]
        easiest = min(ways, key=lambda way: sum(amount for _, amount in way), default=[])
        cover = self.cover(index)
        stopped = [(one, other) for one, other in lines if one.finger and other.finger]
        moves = [Move(one, other) for one, other in stopped if one != other]
        return [(part, amount * cover) for part, amount in easiest], moves

    def cover(self, index: int) -> float:
        """Times a crossing or a change: less where a rest stands before it."""
        time = self.table.time
        return time.covered if self.sounds.events[index].silence >= time.rest else 1.0

    def changed(self, index: int) -> Iterator[Part]:
        """Fingers that stand low or high."""
        table, frames = self.table.change, self.frames
        for change in self.changes.get(index, ()):
            amount = table.same_string if change.same_string else table.other_string
            if not change.same_string and frames[index] == frames[change.since]:
                amount = table.in_frame
            yield "change", amount * self.cover(index) + table.further * (abs(change.by) - 1)

    def line(self, one: Stop, other: Stop, index: int) -> Iterator[Part]:
        """From one stop to the next."""
        table = self.table.crossing
        skipped = abs(one.string - other.string) - 1
        if skipped >= 0:
            yield "cross", table.any + table.skipped * skipped
        if not one.finger or not other.finger:
            if skipped >= 0:
                yield "cross", table.open_fast if self.speed(index) > 1 else table.open
            return
        if skipped == 0:
            apart = self.apart(one, other)
            yield "cross", max(self.effort.crossing.of(apart), table.sixth * (apart in SIXTHS))
        if one.finger != other.finger:
            yield "pair", self.table.hand.pair * pair_effort(one, other, self.effort)

    def laid(self, index: int) -> Iterator[Part]:
        """What the hand does: by the fingering's own cost, and by its place."""
        sounds, table = self.sounds, self.table.hand
        cost = sounds.placed[index].cost
        yield "shift", table.shift * cost.get("shift", 0.0)
        yield "hop", table.hop * cost.get("finger", 0.0)
        yield "stretch", table.stretch * cost.get("stretch", 0.0)
        place, stopped = sounds.place(index), sounds.stopped(index)
        if place is not None and stopped:
            at = hand_place(1, Semitones(place), sounds.instrument.hand)
            above = max(stop.string for stop in stopped) - 1
            yield "high", table.high * place_effort(at, above, self.effort.place)

    def apart(self, one: Stop, other: Stop) -> int:
        """Half steps between two stops, whichever is higher."""
        return abs(self.sounds.midi(one) - self.sounds.midi(other))


def pair_effort(one: Stop, other: Stop, effort: Effort) -> float:
    """The difficulty table's figure for two fingers, on one string or across."""
    low, high = sorted((one, other), key=lambda stop: stop.finger)
    apart = high.semitones - low.semitones
    if apart < 1:
        return ONE_PLACE
    for spacing in Spacing:
        known = effort.fingers.pairs.get((low.finger, high.finger, spacing))
        if spacing.semitones == apart and known is not None:
            return known
    return WIDE_PAIR if high.finger - low.finger == PAIR_ACROSS else effort.fingers.otherwise


def summed(parts: Iterable[Part]) -> dict[str, float]:
    """What each part comes to; those that come to nothing are left out."""
    found: dict[str, float] = {}
    for part, amount in parts:
        if amount > 0:
            found[part] = found.get(part, 0.0) + amount
    return found
