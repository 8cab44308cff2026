"""The shortest way from what is secure to the hands that a passage needs, one change a step."""

from collections.abc import Collection, Iterable, Iterator, Mapping
from heapq import heappop, heappush
from itertools import count, pairwise
from typing import Final

from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.model.move import Move
from bookgen.model.route import Return
from bookgen.model.spacing import Frame, Spacing
from bookgen.model.units import Semitones, StringNumber
from bookgen.plan.passage import Group, Ladder
from bookgen.planner.area import Area, string_sets
from bookgen.planner.graph import Graph

EVERYWHERE: Final = 2
"""The fewest strings that a drill crosses."""

STEP: Final = 1.0
"""What a step costs beside the difficulty of the drill it leads to; own choice."""

CROSS: Final = 3
TOGETHER: Final = 5
"""Stages at which every note crosses, and at which two strings sound together."""

BETWEEN: Final = {
    Spacing.MINOR_THIRD: (Spacing.WHOLE, Spacing.HALF),
    Spacing.MAJOR_THIRD: (Spacing.WHOLE, Spacing.WHOLE),
}
"""How a finger that does not play stands between two that do (common practice, no source)."""


def open_area(instrument: Instrument) -> Area:
    """Everything that the hand of an instrument takes, stretches too."""
    reaches = instrument.hand.reaches
    frames = (Frame.pair(reach.low, reach.high, reach.spacing) for reach in reaches)
    return Area(
        tuple(dict.fromkeys(frames)),
        None,
        string_sets(instrument, EVERYWHERE),
        TOGETHER,
        stretches=True,
    )


def ladders(
    needs: Mapping[str, Collection[Drill]], graph: Graph, secure: Iterable[Drill]
) -> tuple[Ladder, ...]:
    """A ladder for every group, in their order; what one ladder has the next ones share.

    needs: the drills that each group needs, by its letter; see `needed`.
    graph: of an area that holds the passage's places; a drill outside of it has no ladder.
    secure: the drills from which the player comes.
    """
    known = dict.fromkeys(secure)
    taken: dict[Drill, None] = {}
    found = []
    for letter, drills in needs.items():
        steps: dict[Drill, None] = {}
        for drill in drills:
            steps.update(dict.fromkeys(way_to(drill, graph, {**known, **taken, **steps})))
        shared = [drill for drill in drills if drill in taken]
        found.append(Ladder(letter, tuple(steps), tuple(shared)))
        taken.update(steps)
    return tuple(found)


def way_to(target: Drill, graph: Graph, known: Collection[Drill]) -> list[Drill]:
    """The easiest chain of links from what is known to a drill; empty where there is none.

    A hand is entered at stage 1 and climbs from there; so only the way to the hand itself is
    looked for, from all that is known at stage 1.
    """
    climb: list[Drill] = []
    here: Drill | None = target
    while here is not None and here not in known:
        climb.append(here)
        here = graph.gate(here)
    if here is not None:
        return climb[::-1]
    way = on_one_string(climb[-1], graph, known)
    return [*way, *climb[-2::-1]] if way else []


def on_one_string(target: Drill, graph: Graph, known: Collection[Drill]) -> list[Drill]:
    """The easiest chain of drills of stage 1, from one that is known to the target.

    Its cost is a step and the difficulty for each drill in it (Dijkstra's algorithm).
    """
    order = count()
    before: dict[Drill, Drill | None] = {}
    ahead: list[tuple[float, int, Drill, Drill | None]] = []
    for drill in known:
        if drill.stage == 1:
            heappush(ahead, (0.0, next(order), drill, None))
    while ahead:
        cost, _, drill, origin = heappop(ahead)
        if drill in before:
            continue
        before[drill] = origin
        if drill == target:
            return chain(drill, before)
        for _, other in graph.neighbours(drill):
            if other.stage == 1 and other not in before:
                further = cost + STEP + graph.difficulty(other)
                heappush(ahead, (further, next(order), other, drill))
    return []


def chain(drill: Drill, before: Mapping[Drill, Drill | None]) -> list[Drill]:
    """The steps to a drill, without the known one from which they start."""
    found = []
    here: Drill | None = drill
    while here is not None and before[here] is not None:
        found.append(here)
        here = before[here]
    return found[::-1]


def needed(
    group: Group,
    moves: Collection[Move],
    together: Collection[tuple[int, int]],
    instrument: Instrument,
) -> tuple[Drill, ...]:
    """The drills whose hands a group is made of: a pair for each two neighbouring fingers.

    Each pair lies on the strings that the group crosses: at stage 5 where the group sounds its
    fingers together, at stage 3 where it crosses between them, else at stage 1.

    moves: those of the group; see `groups.moves_in`. together: lower and higher finger of
        what sounds together.
    """
    strings = run_of(moves, instrument)
    crossed = {
        (min(ends), max(ends))
        for ends in ((move.first.finger, move.then.finger) for move in moves if move.crosses)
        if min(ends) > 0
    }
    frames = [frame for frame in (group.frame, *group.others) if frame is not None]
    pairs = (pair for frame in frames for pair in pairs_of(frame, lowest(frame, group)))
    drills = (
        Drill(
            instrument.key,
            pair,
            pair.fingers,
            place,
            strings,
            TOGETHER if within(pair, together) else CROSS if within(pair, crossed) else 1,
            Return.SAME,
        )
        for pair, place in pairs
    )
    return tuple(dict.fromkeys(drills))


def within(pair: Frame, spans: Collection[tuple[int, int]]) -> bool:
    """Some of the spans, from a lower finger to a higher one, reaches over both of the pair."""
    low, high = pair.fingers
    return any(lower <= low and high <= higher for lower, higher in spans)


def lowest(frame: Frame, group: Group) -> Semitones:
    """Where the lowest finger of a frame of the group stands: its own place, whatever the frame.

    Another frame of the same placement may lack the lowest finger; the next one it shares with
    the group's frame tells where it lies.
    """
    if group.frame is None or frame.fingers[0] == group.frame.fingers[0]:
        return group.place
    shared = [finger for finger in frame.fingers if finger in group.frame.fingers]
    if not shared:
        return group.place
    at = group.place + group.frame.offset(shared[0])
    return Semitones(at - frame.offset(shared[0]))


def pairs_of(frame: Frame, place: Semitones) -> Iterator[tuple[Frame, Semitones]]:
    """The pairs of neighbouring fingers in a frame, with the place of the lower finger.

    A finger that does not play stands where it usually does between the two beside it.
    """
    for (low, high), spacing in zip(pairwise(frame.fingers), frame.spacings, strict=True):
        at = Semitones(place + frame.offset(low))
        parts = BETWEEN.get(spacing) if high - low > 1 else None
        if parts is None or len(parts) != high - low:
            yield Frame.pair(low, high, spacing), at
            continue
        for finger, part in zip(range(low, high), parts, strict=True):
            yield Frame.pair(finger, finger + 1, part), at
            at = Semitones(at + part.semitones)


def run_of(moves: Collection[Move], instrument: Instrument) -> tuple[StringNumber, ...]:
    """The strings from the lowest to the highest that the moves touch, at least two."""
    touched = {stop.string for move in moves for stop in (move.first, move.then)}
    every = instrument.string_numbers()
    low = max(touched, default=every[0])
    high = min(touched, default=every[-1])
    if low == high and low > 1:
        high = StringNumber(low - 1)
    elif low == high:
        low = StringNumber(high + 1)
    return tuple(string for string in every if high <= string <= low)
