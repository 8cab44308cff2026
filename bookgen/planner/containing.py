"""The easiest drill that holds a move: what a ladder to a passage asks for each of its moves."""

from collections.abc import Iterator
from itertools import combinations, pairwise, permutations, product
from typing import Final

from bookgen.model.drill import Drill
from bookgen.model.hand import Hand
from bookgen.model.instrument import Instrument
from bookgen.model.move import Move
from bookgen.model.music import play
from bookgen.model.route import STAGES, Return
from bookgen.model.spacing import Frame
from bookgen.model.units import Semitones, StringNumber
from bookgen.model.way import shifts, way_of
from bookgen.model.weights import Effort
from bookgen.planner.difficulty import difficulty
from bookgen.planner.staging import SECOND_NOTE, crosses_always

STRUCK: Final = 5
"""The stage at which two stops are struck together."""

WITHIN: Final = 2
"""The first stage that crosses within a laying of the hand."""

MOST: Final = 3
"""Fingers of a drill that is looked for; the move itself has two at the most."""


def containing(
    move: Move,
    instrument: Instrument,
    effort: Effort,
    *,
    together: bool = False,
    least_stage: int | None = None,
) -> Drill | None:
    """The easiest drill in which a move comes, on the move's own strings; None where none has it.

    The fewest fingers come first, then the difficulty table chooses; of equals the first key. A
    move that stays on a string is laid on that string and a neighbour. There is no drill for an
    open string, for a finger that slides while the hand stays, and for what no hand takes.

    move: `shifts` where the hand moves to another place between the two stops.
    together: the two are struck at once, in whichever order the move has them.
    least_stage: how soon the drill crosses, or shifts, at least; where it is not said a crossing
        lies within a laying of the hand.
    """
    usual = STRUCK if together else WITHIN if move.crosses else 1
    stages = range(usual if least_stage is None else least_stage, STAGES[-1] + 1)
    for count in range(1, MOST + 1):
        found = [
            drill
            for drill in candidates(move, count, stages, instrument)
            if drill.refusal(instrument) is None
            and (strikes(drill, move, instrument) if together else comes(drill, move))
        ]
        if found:
            return min(found, key=lambda drill: (difficulty(drill, instrument, effort), drill.key))
    return None


def comes(drill: Drill, move: Move) -> bool:
    """A move comes on the way up or on the way back, not only at the turn between them."""
    way = way_of(drill)
    halves = ([stop for group in half for stop in group] for half in (way.up, way.down))
    return any(
        (here, there) == (move.first, move.then) and bool(shifts(drill, here, there)) == move.shifts
        for half in halves
        for here, there in pairwise(half)
    )


def strikes(drill: Drill, move: Move, instrument: Instrument) -> bool:
    """Both stops of a move sound together in a drill."""
    both = {move.first, move.then}
    return any({note.stop for note in event.notes} == both for event in play(drill, instrument))


def candidates(move: Move, count: int, stages: range, instrument: Instrument) -> Iterator[Drill]:
    """Drills with that many fingers whose hand can stand as the move asks; many lack it still."""
    for frame, place in frames(move, count, instrument.hand):
        ways = product(runs(move, instrument), stages, permutations(frame.fingers), Return)
        for strings, stage, order, back in ways:
            if stage == SECOND_NOTE and crosses_always(strings, order) and not frame.shift:
                continue  # it is stage 3
            yield Drill(instrument.key, frame, order, place, strings, stage, back)


def frames(move: Move, count: int, hand: Hand) -> Iterator[tuple[Frame, Semitones]]:
    """The frames of that many fingers that stand as the move asks, with their lower place.

    Without a shift both stops lie in one place; with one, in two different ones.
    """
    needed = {move.first.finger, move.then.finger}
    for fingers in combinations(hand.fingers, count):
        if not needed <= set(fingers):
            continue
        for frame in spaced(fingers, hand):
            one, other = (
                stop.semitones - frame.offset(stop.finger) for stop in (move.first, move.then)
            )
            if (one != other) == move.shifts and min(one, other) > 0:
                shift = Semitones(abs(one - other))
                yield Frame(fingers, frame.spacings, shift), Semitones(min(one, other))


def spaced(fingers: tuple[int, ...], hand: Hand) -> Iterator[Frame]:
    """Every frame of these fingers that the hand takes somewhere."""
    ways = (
        dict.fromkeys(one.spacing for one in hand.reaches if (one.low, one.high) == pair)
        for pair in pairwise(fingers)
    )
    yield from (Frame(fingers, spacings) for spacings in product(*ways))


def runs(move: Move, instrument: Instrument) -> Iterator[tuple[StringNumber, ...]]:
    """The strings of the move, from low to high; a single one with a neighbour."""
    low, high = sorted((move.first.string, move.then.string), reverse=True)
    every = instrument.string_numbers()
    if low != high:
        yield (low, high)
        return
    yield from (pair for pair in pairwise(every) if low in pair)
