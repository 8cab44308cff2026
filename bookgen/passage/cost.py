"""What it costs to lay the hand for a note, and to come there from the note before."""

from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from bookgen.model.costs import Costs, Preference
from bookgen.model.stop import Stop
from bookgen.model.units import Semitones
from bookgen.passage.event import Event
from bookgen.passage.placement import Pose
from bookgen.passage.shape import Shape
from bookgen.passage.timing import Gap, Leap, Limits, Manner

Part = tuple[str, float]
"""A part of the cost by its name, before the player's preference."""

STEP = 2
"""Semitones of a melodic step at the most."""


@dataclass(slots=True)
class Tariff:
    """The cost table laid over an instrument and a preference.

    Every amount is at least 0; the search in `lattice` rests on that.
    """

    shape: Shape
    costs: Costs
    prefer: Preference | None
    positions: Collection[str] | None = None
    scale: dict[str, float] = field(init=False)
    limits: "Limits" = field(init=False)
    bows: dict[int, tuple[float, float]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Look up how many times each part counts."""
        self.scale = self.costs.scale(self.prefer)
        self.limits = Limits.of(self.costs)

    def total(self, parts: Iterable[Part]) -> float:
        """The sum of parts as the player would have them count."""
        scale = self.scale
        return sum(scale[name] * amount for name, amount in parts)

    def told(self, parts: Iterable[Part]) -> dict[str, float]:
        """The same by parts, those that cost nothing left out."""
        found: dict[str, float] = {}
        for name, amount in parts:
            if amount * self.scale[name] > 0:
                found[name] = found.get(name, 0.0) + amount * self.scale[name]
        return found

    # --- the hand by itself -----------------------------------------------------------------

    def own(self, pose: Pose, event: Event) -> Iterator[Part]:
        """What a pose costs wherever the hand comes from."""
        yield from self.opens(pose, event)
        yield "double", self.costs.sound.crossed * crossings(pose.stops)
        stopped = pose.stopped
        if not stopped:
            return
        yield "stretch", (self.stretched(pose) + self.squeezed(pose)) * shrink(pose.place)
        yield from self.lies(pose)
        yield "fourth", self.costs.finger.fourth * sum(stop.finger == 4 for stop in stopped)  # noqa: PLR2004
        sound = self.costs.sound
        if len(stopped) > 1:
            yield "double", sound.double
            bars = len(stopped) - len({stop.finger for stop in stopped})
            yield "double", sound.bar * bars

    def opens(self, pose: Pose, event: Event) -> Iterator[Part]:
        """Open strings."""
        string = self.costs.string
        count = len(pose.stops) - len(pose.stopped)
        if count:
            yield "open", string.open_note * count
            if event.lasts >= self.limits.open_note:
                yield "open", string.open_long * count

    def stretched(self, pose: Pose) -> float:
        """How far the hand opens, at the nut."""
        if pose.opening:
            return self.wide(pose.opening)
        return self.costs.stretch.drawn_back if pose.drawn else 0.0

    def squeezed(self, pose: Pose) -> float:
        """How far fingers are drawn together, at the nut: each counts that stands too near 1."""
        hand = (1, pose.place)
        near = [self.shape.narrow(hand, (stop.finger, stop.semitones)) for stop in pose.stopped]
        return self.costs.stretch.together * sum(near)

    def wide(self, opening: int) -> float:
        """What an opening costs at the nut."""
        stretch = self.costs.stretch
        return stretch.opened + stretch.each * (opening - 1) if opening else 0.0

    def lies(self, pose: Pose) -> Iterator[Part]:
        """Where on the strings the hand lies."""
        place = self.costs.place
        yield "place", place.each * max(0.0, pose.place - place.home)
        if pose.place == 1:
            yield "place", place.half
        if self.is_beyond(pose):
            yield "beyond", place.beyond
        for stop in pose.stopped:
            past = max(0.0, stop.semitones - place.high_from)
            yield "high", place.high_each * past * (stop.string - 1)

    def is_beyond(self, pose: Pose) -> bool:
        """Whether the hand lies in a position that is not among the player's."""
        if self.positions is None or not pose.place:
            return False
        rule = self.shape.instrument.position_rule
        return rule.at(1, Semitones(pose.place)) not in self.positions

    # --- along the string -------------------------------------------------------------------

    def gap(self, before: Event, event: Event) -> Gap:
        """What the time between two events does to a shift there."""
        cover, limits = self.costs.cover, self.limits
        least = 1.0
        if event.silence >= limits.rest:
            least = min(least, cover.rest)
        if event.silence >= limits.long_rest:
            least = min(least, cover.long_rest)
        if before.lasts >= limits.long_note:
            least = min(least, cover.long_note)
        hurry = cover.grace if before.quick or event.quick else 1.0
        return Gap(least, hurry * (cover.slur if event.slurred else 1.0))

    def manner(self, before: Event | None, event: Event) -> Manner:
        """How an event comes after another one, or first of all."""
        return Manner(
            sings=event.lasts >= self.limits.timbre,
            slurred=event.slurred,
            quick=before is not None and not event.silence and before.lasts <= self.limits.quick,
        )

    def shift(self, semitones: int, gap: Gap, leap: Leap) -> float:
        """What the way of the hand costs, the preference counted in."""
        shift, cover = self.costs.shift, self.costs.cover
        factor = gap.cover
        if leap.free:
            factor = min(factor, cover.open_string)
        if leap.harmonic:
            factor = min(factor, cover.harmonic)
        if leap.many:
            factor *= shift.double
        return self.scale["shift"] * shift.of(semitones) * factor * gap.hurry

    # --- from one pose to the next ----------------------------------------------------------

    def change(self, before: Pose, pose: Pose, manner: Manner, *, stays: bool) -> Iterator[Part]:
        """What the fingers and the bow do between two poses, the shift itself left out.

        stays: the hand keeps its place.
        """
        yield from self.bowed(before, pose, sings=manner.sings)
        if not before.place or not pose.place:
            return
        yield from self.same_fingers(before, pose, stays=stays, quick=manner.quick)
        hurry = self.costs.cover.slur if manner.slurred else 1.0
        if stays:
            opening = self.shape.together(before.stopped, pose.stopped)
            if opening is None:
                yield "shift", self.costs.shift.half_step * hurry
            else:
                yield "stretch", self.widened(before, pose, opening) * shrink(pose.place)
        elif not guided(before, pose):
            yield "shift", self.costs.shift.unguided * hurry

    def widened(self, before: Pose, pose: Pose, opening: int) -> float:
        """What two poses in turn ask of the hand beyond what each of them does, at the nut.

        opening: of the fingers of both.
        """
        known = max(self.stretched(before), self.stretched(pose))
        more = max(0.0, self.wide(opening) - known)
        if self.shape.near(before.stopped, pose.stopped):
            more += max(
                0.0, self.costs.stretch.together - self.squeezed(before) - self.squeezed(pose)
            )
        return more

    def bowed(self, before: Pose, pose: Pose, *, sings: bool) -> Iterator[Part]:
        """The way of the bow over the strings."""
        way = abs(self.bow(before)[1] - self.bow(pose)[0])
        if way:
            string = self.costs.string
            yield "string", string.following * min(way, 1.0) + string.further * max(0.0, way - 1.0)
            if sings and self.step(before, pose):
                yield "timbre", string.step

    def bow(self, pose: Pose) -> tuple[float, float]:
        """Where the bow begins and ends a sound, as a string number.

        A chord of three or four notes is broken: it begins on the lowest two strings and ends
        on the highest two.
        """
        known = self.bows.get(pose.layout)
        if known is None:
            numbers = sorted(stop.string for stop in pose.stops)
            known = (sum(numbers[-2:]) / len(numbers[-2:]), sum(numbers[:2]) / len(numbers[:2]))
            self.bows[pose.layout] = known
        return known

    def step(self, before: Pose, pose: Pose) -> bool:
        """Whether a single note goes a step away from a single note."""
        if len(before.stops) > 1 or len(pose.stops) > 1:
            return False
        way = self.height(before.stops[0]) - self.height(pose.stops[0])
        return abs(way) <= STEP

    def height(self, stop: Stop) -> int:
        """The MIDI number of a stop."""
        return self.shape.instrument.open_pitch(stop.string).midi + stop.semitones

    def same_fingers(self, before: Pose, pose: Pose, *, stays: bool, quick: bool) -> Iterator[Part]:
        """Fingers that play in both poses but not on the same spot."""
        finger = self.costs.finger
        for stop in pose.stopped:
            came = [other for other in before.stopped if other.finger == stop.finger]
            if not came or stop in came:
                continue
            if all(other.string != stop.string for other in came):
                level = any(other.semitones == stop.semitones for other in came)
                yield "finger", finger.fifth if level else finger.elsewhere
            elif stays:
                yield "finger", finger.quick_slide if quick else finger.slide


def guided(before: Pose, pose: Pose) -> bool:
    """Whether a finger stays on its string to guide the shift."""
    return any(
        stop.finger == other.finger and stop.string == other.string
        for stop in pose.stopped
        for other in before.stopped
    )


def crossings(stops: Sequence[Stop]) -> int:
    """How many notes of a chord lie on a higher string than the note above them.

    stops: in the order of their notes, from low to high.
    """
    return sum(low.string < high.string for low, high in pairwise(stops))


def shrink(place: int) -> float:
    """How much smaller the spacings are at a place than at the nut.

    >>> round(shrink(12), 3)
    0.5
    """
    return float(2.0 ** (-place / 12.0))
