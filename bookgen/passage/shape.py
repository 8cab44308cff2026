"""How far the fingers of one hand lie apart, and how far it has to open for that."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from bookgen.model.finger import THUMB
from bookgen.model.hand import Extension, Hand, Reach
from bookgen.model.instrument import Instrument
from bookgen.model.position import HAND
from bookgen.model.spacing import Frame
from bookgen.model.stop import Stop
from bookgen.model.units import Semitones

FINGERS = range(1, HAND + 1)
SKIP = 2
"""Fingers with one between them are that many apart."""

Spot = tuple[int, int]
"""A finger and its semitones above the open string, on whatever string."""


@dataclass(slots=True)
class Shape:
    """What the hand of an instrument can hold, looked up once for each question.

    A finger lies right above another when the reaches of the instrument file lead from the one
    to the other, over fingers that stand ready between them or not, but no farther than the file
    has those two by themselves.
    """

    instrument: Instrument
    openings: dict[tuple[Spot, Spot], int | None] = field(default_factory=dict)
    least: dict[tuple[int, int], int] = field(default_factory=dict)
    reaches: tuple[Reach, ...] = field(init=False)

    def __post_init__(self) -> None:
        """Leave out the hand extended back: its fingers stand as in the one extended forward."""
        every = self.hand.reaches
        self.reaches = tuple(one for one in every if one.extends is not Extension.BACK)

    @property
    def hand(self) -> Hand:
        """What the instrument file says of the hand."""
        return self.instrument.hand

    def opening(self, low: Spot, high: Spot) -> int | None:
        """How wide two fingers open the hand; None where it cannot hold them.

        0 is the ordinary hand, 1 a spacing that the file calls a stretch, and every semitone
        past the ordinary span adds 1 to that.
        """
        known = self.openings.get((low, high), -1)
        if known != -1:
            return known
        found = self.opened(low, high)
        self.openings[low, high] = found
        return found

    def opened(self, low: Spot, high: Spot) -> int | None:
        """The opening, found out."""
        span = high[1] - low[1]
        spans = self.hand.span(low[1])
        if not 0 < span <= spans.widest:
            return None
        stretched = self.stretched(low, high)
        if stretched is None:
            return None
        past = max(0, span - spans.ordinary)
        return past + int(stretched or past > 0)

    def stretched(self, low: Spot, high: Spot) -> bool | None:
        """Whether every way from finger to finger takes a stretch; None where there is none."""
        if low == high:
            return False
        found = [
            reach.stretch or further
            for reach in self.reaches
            if reach.low == low[0] and reach.lowest <= low[1] <= reach.highest
            for next_spot in [(reach.high, low[1] + reach.spacing.semitones)]
            if next_spot[0] <= high[0] and next_spot[1] <= high[1]
            for further in [self.stretched(next_spot, high)]
            if further is not None
        ]
        stretch = all(found)
        span = high[1] - low[1]
        widened = self.hand.widens(low[0], high[0], span, low[1], stretch=stretch)
        return stretch if found and not widened else None

    def hold(self, spots: Sequence[Spot]) -> int | None:
        """How wide the hand opens for all these fingers at once; None where it cannot.

        spots: with rising fingers.
        """
        openings = [self.opening(low, high) for low, high in pairwise(spots)]
        if len(spots) > 1:
            openings.append(self.opening(spots[0], spots[-1]))
        known = [opening for opening in openings if opening is not None]
        return max(known, default=0) if len(known) == len(openings) else None

    def laid(self, spots: Sequence[Spot]) -> list[tuple[int, int]]:
        """Every place of the hand from which these fingers can lie so, with its opening.

        The place is that of finger 1. Where finger 1 plays it may also lie behind the place,
        as far as the instrument file lets it be drawn back; the other fingers are then still
        within reach of the place.
        """
        if spots[0][0] == THUMB:
            return self.over_thumb(spots[0], spots[1:])
        if spots[0][0] == 1:
            opening = self.hold(spots)
            first, others = spots[0][1], spots[1:]
            places = range(first, min(first + self.hand.drawn_back, self.highest) + 1)
            return [
                (place, opening)
                for place in places
                if opening is not None and self.hold([(1, place), *others]) is not None
            ]
        lowest = max(1, spots[0][1] - self.hand.span(spots[0][1]).widest)
        held = ((place, self.hold([(1, place), *spots])) for place in range(lowest, spots[0][1]))
        return [(place, opening) for place, opening in held if opening is not None]

    def over_thumb(self, thumb: Spot, others: Sequence[Spot]) -> list[tuple[int, int]]:
        """The same for a hand whose thumb stops a string: where finger 1 stands or could stand."""
        placed = [spot for spot in others if spot[0] == 1]
        above = range(thumb[1] + 1, self.highest + 1)
        firsts = placed or [(1, place) for place in above]
        held = (
            (one, self.hold([thumb, one, *(spot for spot in others if spot != one)]))
            for one in firsts
        )
        return [(one[1], opening) for one, opening in held if opening is not None]

    def together(self, before: Sequence[Stop], then: Sequence[Stop]) -> int | None:
        """How wide the hand opens to have all these stops in turn without moving.

        None where fingers would have to cross: then the hand is laid anew.
        """
        widest = 0
        for stop in then:
            for other in before:
                if stop.finger == other.finger:
                    continue
                low, high = (stop, other) if stop.finger < other.finger else (other, stop)
                opening = self.opening((low.finger, low.semitones), (high.finger, high.semitones))
                if opening is None:
                    return None
                widest = max(widest, opening)
        return widest

    def narrow(self, low: Spot, high: Spot) -> bool:
        """Whether two fingers stand nearer than the file has them stand by themselves.

        Fingers with one between them have their nearest spacing in the file, where it names
        one; with 1-4 the one of 1-3 and a half step more.
        """
        span = high[1] - low[1]
        return 0 < span < self.nearest(low[0], high[0])

    def nearest(self, low: int, high: int) -> int:
        """Semitones between two fingers that need no drawing together; 0 where all are fine."""
        key = (low, high)
        if key not in self.least:
            own = [
                reach.spacing.semitones
                for reach in self.reaches
                if (reach.low, reach.high) == key and not reach.stretch
            ]
            inner = self.nearest(low, high - 1) + 1 if high - low > SKIP else 0
            self.least[key] = min(own, default=inner) if high - low > 1 else 0
        return self.least[key]

    def near(self, before: Sequence[Stop], then: Sequence[Stop]) -> bool:
        """Whether a finger comes too near to one that was down before."""
        return any(
            self.narrow((low.finger, low.semitones), (high.finger, high.semitones))
            for stop in then
            for other in before
            if stop.finger != other.finger
            for low, high in [sorted((stop, other), key=finger_of)]
        )

    def stays(self, before: Sequence[Stop], then: Sequence[Stop]) -> bool:
        """Whether no finger has to cross another where the hand keeps its place."""
        return self.together(before, then) is not None

    @property
    def highest(self) -> int:
        """Semitones above the open string of the last stop."""
        return self.instrument.highest_stop

    def frame(self, spots: Mapping[int, int]) -> Frame | None:
        """These fingers as a frame with named spacings; None where the hand has no such frame.

        Where the instrument file has no name for the distance of two fingers, those that stand
        ready between them are named too: 1-4 a fourth apart is told as 1-2-4.

        spots: semitones by finger.
        """
        fingers = sorted(spots)
        ways = [
            self.named((low, spots[low]), (high, spots[high])) for low, high in pairwise(fingers)
        ]
        if not ways or None in ways:
            return None
        frames = [way for way in ways if way is not None]
        spacings = tuple(spacing for way in frames for spacing in way.spacings)
        between = tuple(finger for way in frames for finger in way.fingers[1:])
        return Frame((fingers[0], *between), spacings)

    def named(self, low: Spot, high: Spot) -> Frame | None:
        """Two fingers and as few between them as the names of their spacings need.

        Of equal ways one without a stretch comes first, then the one with the lower fingers,
        then the one whose lower spacings are the wider ones.
        """
        ways = self.ways(low, high)
        return min(ways, key=lambda way: self.plain(way, low[1]), default=None)

    def plain(self, way: Frame, place: int) -> tuple[int, bool, tuple[int, ...], tuple[int, ...]]:
        """How plainly a way names two fingers; the least is the plainest."""
        stretched = self.instrument.stretches(way, Semitones(place))
        widths = tuple(-spacing.semitones for spacing in way.spacings)
        return len(way.fingers), stretched, way.fingers, widths

    def ways(self, low: Spot, high: Spot) -> list[Frame]:
        """Every chain of reaches from one finger to the other."""
        found: list[Frame] = []
        for reach in self.reaches:
            if reach.low != low[0] or not reach.lowest <= low[1] <= reach.highest:
                continue
            over = (reach.high, low[1] + reach.spacing.semitones)
            if over == high:
                found.append(Frame.pair(low[0], high[0], reach.spacing))
            elif over[0] < high[0] and over[1] < high[1]:
                found.extend(
                    Frame((low[0], *rest.fingers), (reach.spacing, *rest.spacings))
                    for rest in self.ways(over, high)
                )
        return found


def finger_of(stop: Stop) -> int:
    """The finger of a stop."""
    return stop.finger
