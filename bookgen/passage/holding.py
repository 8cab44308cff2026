"""Drills that hold what is needed: of all that the hand takes, those with one of these moves."""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import combinations, pairwise, permutations, product
from typing import Final

from bookgen.model.drill import Drill
from bookgen.model.finger import LEFT_HAND
from bookgen.model.instrument import Instrument
from bookgen.model.move import Move, moves_of
from bookgen.model.route import Return
from bookgen.model.spacing import MOST_FINGERS, Frame, Spacing
from bookgen.model.stop import Stop
from bookgen.model.units import Semitones, StringNumber
from bookgen.model.weights import Effort
from bookgen.passage.secure import ways
from bookgen.plan.passage import Need
from bookgen.planner.area import string_sets
from bookgen.planner.containing import containing

FEWEST: Final = 2
"""Strings of a drill."""

TOGETHER: Final = 5
"""The stage of double stops."""

SECOND_NOTE: Final = 2
"""The stage that crosses on the second note."""

EVERY_ORDER: Final = 3
"""Up to so many fingers play in every order; four of them up or down the hand."""


def holding(
    needs: Sequence[Need], instrument: Instrument, effort: Effort
) -> dict[Drill, frozenset[Need]]:
    """Every drill that has something of what is needed, with what it has."""
    found: dict[Drill, frozenset[Need]] = {}
    in_place = [need for need in needs if not need.shift]
    for place in dict.fromkeys(need.place for need in in_place):
        found |= holding_there([need for need in in_place if need.place == place], instrument)
    held = {need for some in found.values() for need in some}
    for need in needs:
        if need not in held and (drill := asked_for(need, instrument, effort)):
            found[drill] = found.get(drill, frozenset()) | {need}
    return found


def asked_for(need: Need, instrument: Instrument, effort: Effort) -> Drill | None:
    """The easiest drill for what no ordinary one has: a shift, one finger, a skipped string."""
    move = Move(need.first, need.then, bool(need.shift))
    return containing(move, instrument, effort, together=need.together)


def holding_there(needs: Sequence[Need], instrument: Instrument) -> dict[Drill, frozenset[Need]]:
    """The same for one place of the hand.

    Where no frame of the fingers that play has a name, others stand between them.
    """
    stops = {stop for need in needs for stop in (need.first, need.then)}
    found = dict(among(needs, frames_in(heights_of(stops)), instrument))
    held = {need for some in found.values() for need in some}
    for need in needs:
        if need not in held:
            found |= among(needs, frames_in(between(need)), instrument)
    return found


def among(
    needs: Sequence[Need], frames: Iterable[tuple[Frame, Semitones]], instrument: Instrument
) -> Iterator[tuple[Drill, frozenset[Need]]]:
    """The drills of some frames that have something, with what they have."""
    wanted = [(need, stages_of(need), ways(need)) for need in needs]
    stages = sorted({stage for _, about, _ in wanted for stage in about})
    for frame, lowest in frames:
        for drill in drills_of(frame, lowest, stages, instrument):
            moves = moves_of(drill)
            met = frozenset(
                need for need, about, by in wanted if drill.stage in about and by & moves
            )
            if met and drill.refusal(instrument) is None and not crosses_sooner(drill):
                yield drill, met


def crosses_sooner(drill: Drill) -> bool:
    """A drill crosses on the second note where it could cross on every note."""
    return drill.stage == SECOND_NOTE and len(drill.strings) >= len(drill.order)


def stages_of(need: Need) -> tuple[int, ...]:
    """The stages that are about it: double stops, crossings, or what lies along a string."""
    if need.together:
        return (TOGETHER,)
    return (2, 3) if need.first.string != need.then.string else (1, 2)


Heights = Mapping[int, Collection[Semitones]]
"""By finger where it can stand."""


def heights_of(stops: Iterable[Stop]) -> Heights:
    """Where each finger stands."""
    found: dict[int, set[Semitones]] = {}
    for stop in stops:
        found.setdefault(stop.finger, set()).add(stop.semitones)
    return found


def between(need: Need) -> Heights:
    """The two fingers of a need, and those between them wherever they have room."""
    low, high = sorted((need.first, need.then), key=lambda stop: stop.finger)
    room = [Semitones(at) for at in range(low.semitones + 1, high.semitones)]
    inner = dict.fromkeys((one for one in LEFT_HAND if low.finger < one < high.finger), room)
    return {low.finger: [low.semitones], **inner, high.finger: [high.semitones]}


def frames_in(heights: Heights) -> Iterator[tuple[Frame, Semitones]]:
    """Every frame of two to four of these fingers, each at one height, with its place."""
    for count in range(2, MOST_FINGERS + 1):
        for fingers in combinations(sorted(heights), count):
            for chosen in product(*(sorted(heights[finger]) for finger in fingers)):
                for spacings in named(chosen):
                    yield Frame(fingers, spacings), chosen[0]


def named(heights: Sequence[int]) -> Iterator[tuple[Spacing, ...]]:
    """Every way to name the distances of fingers; none where one has no name."""
    apart = [high - low for low, high in pairwise(heights)]
    return product(*([one for one in Spacing if one.semitones == by] for by in apart))


def drills_of(
    frame: Frame, place: Semitones, stages: Sequence[int], instrument: Instrument
) -> Iterator[Drill]:
    """Every drill of a frame at these stages, on all runs of strings."""
    if instrument.refused_place(frame, place) is not None:
        return
    fingers = frame.fingers
    few = len(fingers) <= EVERY_ORDER
    orders = list(permutations(fingers)) if few else [fingers, fingers[::-1]]
    for strings, stage, order in product(string_sets(instrument, FEWEST), stages, orders):
        for back in Return:
            yield Drill(instrument.key, frame, order, place, strings, stage, back)


def steps_below(drill: Drill, strings: Collection[StringNumber]) -> Iterator[Drill]:
    """The same hand string by string, then crossing on every note: what comes before a drill.

    Back as it came where that is another way: so it is shortest to write and to read.

    strings: that are played; string by string no others are needed.
    """
    few = tuple(string for string in drill.strings if min(strings) <= string <= max(strings))
    for stage in BELOW[drill.stage]:
        laid = few if stage == 1 and len(few) >= FEWEST else drill.strings
        for back in (Return.MIRROR, Return.SAME):
            lower = replace(drill, strings=laid, stage=stage, back=back)
            if not (lower.left_out() or lower.doubled() or lower.out_of_stage()):
                yield lower
                break


BELOW: Final[Mapping[int, tuple[int, ...]]] = {1: (), 2: (1,), 3: (1,), 4: (1, 3), 5: (1, 3)}
"""The stages that lead to one on a page with little room; own choice."""
