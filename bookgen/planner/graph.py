"""The drills of an area, joined where two differ in one dimension; quick to ask again and again."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from functools import cached_property
from itertools import combinations, product
from typing import Final

from bookgen.model.dimension import Dimension
from bookgen.model.drill import OCTAVE, Drill
from bookgen.model.instrument import Instrument
from bookgen.model.move import Move, moves_of
from bookgen.model.route import STAGES, Return
from bookgen.model.spacing import Frame
from bookgen.model.units import Semitones, StringNumber
from bookgen.model.weights import Weights
from bookgen.planner.area import Area
from bookgen.planner.bridges import bridges
from bookgen.planner.difficulty import hand_parts, way_parts
from bookgen.planner.framing import framed, joined, nested, nested_by, places_of
from bookgen.planner.minutes import minutes_of
from bookgen.planner.sparing import spared
from bookgen.planner.staging import SECOND_NOTE, crosses_always, next_stage

Neighbours = tuple[tuple[Dimension, Drill], ...]
Strings = tuple[StringNumber, ...]
Hand = tuple[Frame, Semitones, Strings]
Way = tuple[int, tuple[int, ...], Return]
"""Stage, order of the fingers, way back."""

TWO: Final = 2
"""Fingers of a pair."""

STEPS: Final = (1, -1, 2, -2)
"""A change of place is a half or a whole step."""


class Graph:
    """All drills of an area and what the planner asks of them.

    besides: drills that count as if they lay in the area, if the hand takes them.

    The same question has the same answer; a drill that comes out is always the same object.
    """

    def __init__(
        self,
        instrument: Instrument,
        area: Area,
        weights: Weights,
        besides: Iterable[Drill] = (),
    ) -> None:
        self.instrument: Final = instrument
        self.area: Final = area
        self.weights: Final = weights
        self.besides: Final = frozenset(besides)
        frames = dict.fromkeys((*area.frames, *(drill.frame for drill in self.besides)))
        self.frames: Final = {frame: framed(frame, tuple(frames)) for frame in frames}
        self.nests: Final = any(nested_by(*two) for two in combinations(frames, 2))
        self.asked_for: Final = any(f.shift or len(f.fingers) == 1 for f in self.frames)
        strings = (*area.strings, *sorted(drill.strings for drill in self.besides))
        self.strings: Final = tuple(dict.fromkeys(strings))
        self.drills: dict[tuple[Hand, Way], Drill | None] = {}
        self.hands: dict[Hand, bool] = {}
        self.widened: dict[Drill, tuple[Drill, ...]] = {}
        self.gates: dict[Drill, Drill | None] = {}
        self.firsts: dict[Drill, Drill] = {}
        self.nexts: dict[Drill, Drill | None] = {}
        self.held: dict[Drill, bool] = {}
        self.joined: dict[Drill, Neighbours] = {}
        self.lengths: dict[Drill, float] = {}
        self.minutes_by_way: dict[tuple[int, bool, Way], float] = {}
        self.efforts: dict[Drill, float] = {}
        self.hand_efforts: dict[Hand, float] = {}
        self.way_efforts: dict[tuple[Frame, Strings, Way], float] = {}

    def holds(self, drill: Drill) -> bool:
        """Whether the drill lies in the area and the hand takes it without a stretch."""
        if drill not in self.held:
            here = drill.instrument == self.instrument.key
            self.held[drill] = here and self.drill(hand_of(drill), way_of(drill)) is not None
        return self.held[drill]

    def neighbours(self, drill: Drill) -> Neighbours:
        """All drills of the area that differ from this one in one dimension, in a fixed order.

        A change of place is a half or a whole step; a stage is the next or the one before; a
        change of fingers keeps the place of the lower one or of a finger that both have. The
        drill itself may lie outside.
        """
        found = self.joined.get(drill)
        if found is None:
            found = tuple(
                (dimension, other)
                for dimension, hand, way in self.changed(drill)
                if (other := self.drill(hand, way)) is not None and other != drill
            )
            self.joined[drill] = found
        return found

    def wider(self, drill: Drill) -> tuple[Drill, ...]:
        """The same drill on these strings and others besides, as far as the area holds it."""
        found = self.widened.get(drill)
        if found is None:
            hand, way = hand_of(drill), way_of(drill)
            more = (one for one in self.area.strings if set(drill.strings) < set(one))
            others = (self.drill((*hand[:2], strings), way) for strings in more)
            found = self.widened[drill] = tuple(other for other in others if other is not None)
        return found

    def gate(self, drill: Drill) -> Drill | None:
        """The same drill at the stage before; None at stage 1."""
        if drill not in self.gates:
            stage = next_stage(drill.strings, drill.order, drill.stage, -1)
            before = self.at_stage(drill, stage) if stage else None
            self.gates[drill] = None if before is None or before.out_of_stage() else before
        return self.gates[drill]

    def at_stage(self, drill: Drill, stage: int) -> Drill:
        """The same drill at another stage: the graph's own object, if the area holds it."""
        own = self.drill(hand_of(drill), (stage, drill.order, drill.back))
        return replace(drill, stage=stage) if own is None else own

    def first_stage(self, drill: Drill) -> Drill:
        """The same drill at stage 1."""
        if drill not in self.firsts:
            self.firsts[drill] = self.at_stage(drill, 1)
        return self.firsts[drill]

    def following(self, drill: Drill) -> Drill | None:
        """The same drill at the next stage; None where the area has none."""
        if drill not in self.nexts:
            stage = next_stage(drill.strings, drill.order, drill.stage, 1)
            self.nexts[drill] = self.drill(hand_of(drill), (stage, drill.order, drill.back))
        return self.nexts[drill]

    def minutes(self, drill: Drill) -> float:
        """Minutes for the drill; they hang on the way, the number of strings, and the hand."""
        if drill not in self.lengths:
            key = (len(drill.strings), bool(drill.frame.shift), way_of(drill))
            if key not in self.minutes_by_way:
                self.minutes_by_way[key] = minutes_of(drill)
            self.lengths[drill] = spared(self.minutes_by_way[key], drill, self.instrument)
        return self.lengths[drill]

    def moves(self, drill: Drill) -> frozenset[Move]:
        """Every move of the drill."""
        return moves_of(drill)

    def difficulty(self, drill: Drill) -> float:
        """The sum over the difficulty table."""
        found = self.efforts.get(drill)
        if found is None:
            found = self.hand_effort(hand_of(drill)) + self.way_effort(drill)
            self.efforts[drill] = found
        return found

    def drill(self, hand: Hand, way: Way) -> Drill | None:
        """The drill of a hand and a way, or None where the area does not hold it."""
        key = (hand, way)
        if key in self.drills:
            return self.drills[key]
        self.drills[key] = found = self.sought(hand, way)
        return found

    def sought(self, hand: Hand, way: Way) -> Drill | None:
        """The drill, built anew, if the area holds it."""
        stage = way[0]
        if stage not in STAGES:
            return None
        if hand[1] >= 1 and self.besides:
            asked = drill_of(self.instrument, hand, way)
            if asked in self.besides:
                return None if asked.refusal(self.instrument) else asked
        if stage > self.area.highest_stage or not self.lies(hand):
            return None
        if stage == SECOND_NOTE and crosses_always(hand[2], way[1]):
            return None
        drill = drill_of(self.instrument, hand, way)
        return None if drill.left_out() or drill.doubled() or drill.for_passages else drill

    def lies(self, hand: Hand) -> bool:
        """Whether area and hand allow the frame there, asked with the simplest drill."""
        if hand not in self.hands:
            _, place, strings = hand
            allowed = place >= 1 and strings in self.area.strings and hand[0] in self.frames
            self.hands[hand] = allowed and self.area.holds(
                drill_of(self.instrument, hand, (1, hand[0].fingers, Return.SAME)),
                self.instrument,
            )
        return self.hands[hand]

    def lays(self, frame: Frame, place: Semitones) -> bool:
        """Whether area and hand allow the frame there on some strings."""
        return any(self.lies((frame, place, strings)) for strings in self.area.strings)

    @cached_property
    def places(self) -> tuple[tuple[Frame, Semitones], ...]:
        """Every frame at every place where the area has it."""
        places = map(Semitones, range(1, self.instrument.highest_stop + 1))
        return tuple(hand for hand in product(self.area.frames, places) if self.lays(*hand))

    @cached_property
    def bridges(self) -> Mapping[tuple[Frame, Semitones], list[Semitones]]:
        """Places beyond a gap of the area, for hands that nothing else leads over it."""
        return bridges(self.places, self.instrument)

    def changed(self, drill: Drill) -> Iterator[tuple[Dimension, Hand, Way]]:
        """Hands and ways that change one thing, whether or not the area holds them."""
        hand, way = hand_of(drill), way_of(drill)
        frame, place, strings = hand
        stage, order, back = way
        for step in (1, -1):
            yield Dimension.STAGE, hand, (next_stage(strings, order, stage, step), order, back)
        yield Dimension.LEAD, hand, (stage, order[::-1], back)
        other_back = Return.MIRROR if back is Return.SAME else Return.SAME
        yield Dimension.RETURN, hand, (stage, order, other_back)
        ranks = drill.ranks()
        for dimension, other in self.frames.get(frame) or framed(frame, tuple(self.frames)):
            fingers = tuple(other.fingers[rank] for rank in ranks)
            for at in places_of(frame, other, place):
                yield dimension, (other, at, strings), (stage, fingers, back)
        yield from self.nesting(drill)
        yield from self.joining(drill)
        yield from self.to_what_is_asked_for(drill)
        beside = (Semitones(place + step) for step in STEPS)
        for at in (*beside, *self.bridges.get((frame, place), ())):
            yield Dimension.PLACE, (frame, at, strings), way
        for step in (OCTAVE, -OCTAVE):
            yield Dimension.OCTAVE, (frame, Semitones(place + step), strings), way
        for others in self.strings:
            if others != strings:
                yield Dimension.STRINGS, (frame, place, others), way

    def nesting(self, drill: Drill) -> Iterator[tuple[Dimension, Hand, Way]]:
        """Pairs within the drill's, and those within which it lies; the hand stays."""
        (frame, place, strings), (stage, _, back) = hand_of(drill), way_of(drill)
        frames, ranks = self.frames if self.nests else (), drill.ranks()
        for other, at in nested(frame, place, frames, self.instrument):
            fingers = tuple(other.fingers[rank] for rank in ranks)
            yield Dimension.PAIR, (other, at, strings), (stage, fingers, back)

    def joining(self, drill: Drill) -> Iterator[tuple[Dimension, Hand, Way]]:
        """Hands that one finger joins, or leaves; it runs on as the others do."""
        (frame, place, strings), (stage, order, back) = hand_of(drill), way_of(drill)
        for other in self.frames if len({len(one.fingers) for one in self.frames}) > 1 else ():
            at = joined(frame, place, other)
            if at is not None and drill.plain_order:
                way = other.fingers if order == frame.fingers else other.fingers[::-1]
                yield Dimension.FINGERS, (other, at, strings), (stage, way, back)

    def to_what_is_asked_for(self, drill: Drill) -> Iterator[tuple[Dimension, Hand, Way]]:
        """Hands that shift, or shift farther, and hands of one finger alone; and the other way.

        Where a finger of a pair is left alone, or joined by another, it stays where it is.
        """
        (frame, place, strings), (stage, _, back) = hand_of(drill), way_of(drill)
        for other in self.frames if self.asked_for or drill.for_passages else ():
            if other.shift != frame.shift and other.still == frame.still:
                yield Dimension.SHIFT, (other, place, strings), way_of(drill)
            counts = {len(frame.fingers), len(other.fingers)}
            shared = set(frame.fingers) & set(other.fingers)
            if counts != {1, TWO} or not shared or frame.shift != other.shift:
                continue
            (finger,) = shared
            at = Semitones(drill.height(finger) - other.offset(finger))
            for order in dict.fromkeys((other.fingers, other.fingers[::-1])):
                yield Dimension.PAIR, (other, at, strings), (stage, order, back)

    def hand_effort(self, hand: Hand) -> float:
        """What the hand adds to the difficulty."""
        if hand not in self.hand_efforts:
            parts = hand_parts(*hand, self.instrument, self.weights.effort)
            self.hand_efforts[hand] = sum(parts.values())
        return self.hand_efforts[hand]

    def way_effort(self, drill: Drill) -> float:
        """What the way adds to the difficulty."""
        key = (drill.frame, drill.strings, way_of(drill))
        if key not in self.way_efforts:
            parts = way_parts(drill, self.instrument, self.weights.effort)
            self.way_efforts[key] = sum(parts.values())
        return self.way_efforts[key]


def drill_of(instrument: Instrument, hand: Hand, way: Way) -> Drill:
    """Put hand and way together."""
    frame, place, strings = hand
    stage, order, back = way
    return Drill(instrument.key, frame, order, place, strings, stage, back)


def hand_of(drill: Drill) -> Hand:
    """Frame, place and strings."""
    return drill.frame, drill.place, drill.strings


def way_of(drill: Drill) -> Way:
    """Stage, order and way back."""
    return drill.stage, drill.order, drill.back
