"""A few drills that lead from what is secure to a spot, and end on the spot's own frame."""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import groupby
from math import ceil
from typing import Final

from bookgen.model.drill import Drill
from bookgen.model.route import Return, route
from bookgen.model.units import StringNumber
from bookgen.passage.holding import holding, steps_below
from bookgen.passage.needs import needs_of, weight_of
from bookgen.passage.secure import Secure
from bookgen.passage.sounds import Sounds
from bookgen.plan.passage import Fingering, Ladder, Need, Spot
from bookgen.planner.graph import Graph

SHORT: Final = range(3, 6)
"""Notes of a drill that are neither nothing nor a whole line: three to five."""

NO_LIMIT: Final = 1_000_000
"""More drills than there are."""

LONG: Final = 8

LENGTH: Final = 0.5
"""From so many notes on each takes that much from a drill's worth; own choice."""


@dataclass(slots=True)
class Ladders:
    """The ladders of a passage; what one has the next ones share.

    graph: of an area that holds whatever the hand takes.
    most: drills of a spot; in_all: drills of all spots.
    taken: the drills of all ladders so far.
    """

    sounds: Sounds
    graph: Graph
    secure: Secure
    most: int
    in_all: int
    taken: dict[Drill, None] = field(default_factory=dict)

    def to_spots(self, spots: Sequence[Spot]) -> tuple[Ladder, ...]:
        """A ladder to every spot, in their order; the hardest choose first, each its share."""
        found = {}
        for done, spot in enumerate(sorted(spots, key=lambda spot: -spot.score)):
            needs = self.needs(range(spot.first, spot.last + 1))
            share = ceil((self.in_all - len(self.taken)) / (len(spots) - done))
            most = min(self.most, max(share, 1))
            found[spot.number] = self.ladder(needs, spot=spot.number, most=most)
        return tuple(shared_in([found[spot.number] for spot in spots]))

    def to_frames(self, before: Sequence[Ladder]) -> tuple[Ladder, ...]:
        """A ladder to every frame of the passage, as long as it has to be."""
        found = []
        self.in_all = NO_LIMIT
        for letter, indexes in sounds_by_letter(self.sounds.fingering).items():
            needs = self.needs(indexes)
            if needs:
                found.append(self.ladder(needs, letter=letter, most=len(needs) * 3))
        return tuple(shared_in([*before, *found]))[len(before) :]

    def needs(self, indexes: Collection[int]) -> list[Need]:
        """What some sounds ask, the hardest first."""
        return needs_of(indexes, self.sounds, self.graph.weights.effort)

    def ladder(
        self, needs: Sequence[Need], *, spot: int = 0, letter: str = "", most: int
    ) -> Ladder:
        """The drills for what is needed and not secure."""
        left = [need for need in needs if not self.secure.has(need)]
        options = holding(left, self.sounds.instrument, self.graph.weights.effort)
        ends = list(self.ends(left, options))
        picked = self.with_climbs(ends, options, most)
        met = frozenset(need for drill in picked for need in options.get(drill, ()))
        held = frozenset(need for some in options.values() for need in some)
        self.taken.update(dict.fromkeys(picked))
        return Ladder(
            spot=spot,
            letter=letter,
            drills=tuple(picked),
            missing=tuple(need for need in left if need not in held),
            crowded=tuple(need for need in left if need in held and need not in met),
        )

    def ends(self, needs: Sequence[Need], options: dict[Drill, frozenset[Need]]) -> Iterator[Drill]:
        """The drills that have everything, that with the most first.

        Of equal ones one that an earlier ladder has, then one of about four notes, for it stands
        beside its chart; then the easiest.
        """
        left = set(needs)
        weights = {need: weight_of(need, self.graph.weights.effort) for need in needs}

        def worth(drill: Drill) -> tuple[float, bool, int, float, str]:
            own = round(sum(weights[need] for need in options[drill] & left), 6)
            notes = written_notes(drill)
            long = max(0, SHORT[0] - notes, notes - SHORT[-1])
            own -= LENGTH * max(0, notes - LONG)
            return own, drill in self.taken, -long, -self.graph.difficulty(drill), drill.key

        while left and options:
            best = max(options, key=worth)
            if not options[best] & left:
                return
            yield best
            left -= options[best]

    def with_climbs(
        self, ends: Sequence[Drill], options: Mapping[Drill, frozenset[Need]], most: int
    ) -> list[Drill]:
        """The first of the ends with all that leads to it, of the others what there is room for.

        String by string comes first, double stops last, and of one stage the drill that has the
        most. An end whose needs are met on the way to
        another is left out.
        """
        picked: dict[Drill, Drill] = {}
        for end in ends:
            met = {need for drill in picked for need in options.get(drill, ())}
            if options[end] <= met:
                continue
            strings = {one.string for need in options[end] for one in (need.first, need.then)}
            steps = [*self.steps(end, strings, picked), end]
            new = [step for step in steps if step not in picked]
            if len(picked) + len(new) <= most and self.has_room([*picked, *new]):
                picked |= dict.fromkeys(new, end)
            elif len(picked) < most and end not in picked and self.has_room([*picked, end]):
                picked[end] = end
        by_end = {end: [step for step, of in picked.items() if of == end] for end in ends}
        rising = [step for end in reversed(ends) for step in by_end[end]]
        return sorted(rising, key=lambda step: step.stage)

    def steps(
        self, end: Drill, strings: Collection[StringNumber], picked: Collection[Drill]
    ) -> Iterator[Drill]:
        """What leads to a drill and is not secure; a hand has one drill string by string.

        strings: that are played.
        """
        for step in steps_below(end, strings):
            if not self.known(step):
                yield next((one for one in (*picked, *self.taken) if alike(one, step)), step)

    def has_room(self, drills: Iterable[Drill]) -> bool:
        """The pages have room for these drills besides those that stand there."""
        return len({*drills, *self.taken}) <= self.in_all

    def known(self, drill: Drill) -> bool:
        """Every move of a drill is secure."""
        return self.graph.moves(drill) <= self.secure.moves


def written_notes(drill: Drill) -> int:
    """Notes of a drill as it is written: the way up alone where the way back mirrors it."""
    found = route(drill.strings, drill.order, drill.stage, drill.back)
    mirrors = drill.back is Return.MIRROR or drill.turns_alike
    ways = found.up if mirrors else (*found.up, *found.down)
    return sum(map(len, ways))


def alike(one: Drill, other: Drill) -> bool:
    """Two drills of one hand at one stage.

    Order and way back make no other drill of it, nor do the strings where none is crossed soon.
    """
    same = (one.frame, one.place, one.stage) == (other.frame, other.place, other.stage)
    return same and (one.stage == 1 or one.strings == other.strings)


def shared_in(ladders: Sequence[Ladder]) -> Iterator[Ladder]:
    """The ladders with what an earlier one has already."""
    met: set[Drill] = set()
    for ladder in ladders:
        shared = tuple(drill for drill in ladder.drills if drill in met)
        yield Ladder(
            ladder.spot, ladder.drills, shared, ladder.missing, ladder.crowded, ladder.letter
        )
        met.update(ladder.drills)


def sounds_by_letter(fingering: Fingering) -> dict[str, list[int]]:
    """The sounds of every frame, passing ones left out."""
    found: dict[str, list[int]] = {}
    for letter, groups in groupby(
        sorted(fingering.groups, key=lambda group: (len(group.letter), group.letter)),
        key=lambda group: group.letter,
    ):
        found[letter] = sorted(
            index
            for group in groups
            for index in range(group.first, group.last + 1)
            if index not in group.passing
        )
    return found
