"""A phrase with the best fingering, and with the next best that is really another one."""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from math import fsum, inf
from typing import Final

from bookgen.errors import Message, refused
from bookgen.model.costs import Costs, Preference
from bookgen.model.finger import THUMB
from bookgen.model.instrument import Instrument
from bookgen.model.phrase import Phrase
from bookgen.model.position import THUMB_POSITION
from bookgen.model.units import Semitones
from bookgen.passage.asked import FIRST
from bookgen.passage.cheapest import Way, search
from bookgen.passage.columns import columns_of
from bookgen.passage.cost import Part, Tariff
from bookgen.passage.elsewhere import elsewhere
from bookgen.passage.event import Event, events_of
from bookgen.passage.figures import alike
from bookgen.passage.lattice import Column, Node, Steps
from bookgen.passage.placement import Poses
from bookgen.passage.playable import Playable, playable
from bookgen.passage.shape import Shape
from bookgen.passage.window import windows_of
from bookgen.plan.passage import Fingering, Hand, Placed

BEYOND: Final = "beyond"
"""The part of the cost of a position that is not among the player's."""


@dataclass(frozen=True, slots=True)
class Solutions:
    """Two ways to play a phrase.

    best: nothing is cheaper. other: the cheapest of those that are really different, see
        `window`; None where there is none.
    """

    best: Fingering
    other: Fingering | None


def solve(
    phrase: Phrase,
    instrument: Instrument,
    costs: Costs,
    *,
    prefer: Preference | None = None,
    positions: Collection[str] | None = None,
) -> Solutions:
    """Find the cheapest fingering and the next one that is really different.

    Groups are left empty; `groups.grouped` fills them.

    positions: those of the player, by their labels; the hand leaves them only where nothing else
        goes. None is everywhere. Who knows the first position alone plays long notes on open
        strings.
    """
    poses = poses_for(phrase, instrument, positions)
    steps = Steps(Tariff(poses.shape, costs, prefer, positions))
    open_from = steps.tariff.limits.open_note if positions == {FIRST} else None
    played = [playable(event, poses, open_from) for event in events_of(phrase)]
    told = [(phrase.bars[one.event.bar].number, text) for one in played for text in one.told]
    columns = columns_of([one for one in played if one.poses], steps.tariff)
    if not columns:
        return Solutions(Fingering(silent(played), (), 0.0, tuple(told)), None)
    searched = alike(steps, search(steps, columns))
    told.extend(
        (phrase.bars[columns[index].event.bar].number, refused(name))
        for index in searched.broken
        for name in given_up(columns[index], searched.columns[index])
    )
    best = searched.best()
    other = elsewhere(steps, searched, best, windows_of(columns, best, steps))
    placed = tuple(told_way(played, searched.columns, best, steps))
    far = {phrase.bars[one.bar].number: None for one in placed if BEYOND in one.cost}
    told.extend((number, refused("passage-beyond")) for number in far)
    unplayable = in_order(told, phrase)
    apart = tuple(told_way(played, searched.columns, other, steps)) if other else ()
    farther = outside(apart) > outside(placed)
    another = None if other is None or farther else fingering(apart, unplayable)
    return Solutions(fingering(placed, unplayable), another)


def poses_for(phrase: Phrase, instrument: Instrument, positions: Collection[str] | None) -> Poses:
    """The hand's poses; those of thumb position only where it is asked for or nothing else goes.

    It is asked for by the player's positions, or by a thumb over a note.
    """
    neck, high = Poses(Shape(instrument)), Poses(Shape(instrument), high=True)
    if THUMB not in instrument.hand.fingers:
        return neck
    if positions is not None and THUMB_POSITION in positions:
        return high
    lacks = (event.notes for event in events_of(phrase) if not neck.of(event.notes))
    return high if any(high.of(notes) for notes in lacks) else neck


def in_order(told: list[tuple[str, Message]], phrase: Phrase) -> tuple[tuple[str, Message], ...]:
    """What is told of bars, by their numbers, in the order of the bars."""
    order = {bar.number: index for index, bar in reversed(list(enumerate(phrase.bars)))}
    return tuple(sorted(told, key=lambda entry: order[entry[0]]))


def fingering(placed: tuple[Placed, ...], told: tuple[tuple[str, Message], ...]) -> Fingering:
    """A way without its groups."""
    return Fingering(placed, (), fsum(fsum(one.cost.values()) for one in placed), told)


def outside(placed: Sequence[Placed]) -> int:
    """How many sounds lie in positions that are not among the player's."""
    return sum(BEYOND in one.cost for one in placed)


def given_up(asked: Column, searched: Column) -> Iterator[str]:
    """What could not be had at a column, by the names of the refusals."""
    if asked.kept and not searched.kept:
        yield "passage-hand"
    if asked.ties and not searched.ties:
        yield "passage-tie"


def told_way(
    played: Sequence[Playable], columns: Sequence[Column], way: Way, steps: Steps
) -> Iterator[Placed]:
    """A way as plain values, with its cost by parts; what cannot be played is there with None."""
    index = 0
    for one in played:
        if not one.poses:
            yield left_out(one.event)
            continue
        before = (columns[index - 1], way[index - 1]) if index else None
        pose = way[index].pose
        parts = explained(before, columns[index], way[index], steps)
        hand = Hand(Semitones(pose.place), pose.stops) if pose.place else None
        yield Placed(
            one.event.bar,
            one.event.sound,
            one.spread(pose.stops),
            hand,
            steps.tariff.told(parts),
            one.touched(pose),
        )
        index += 1


def explained(
    before: tuple[Column, Node] | None, column: Column, node: Node, steps: Steps
) -> Iterator[Part]:
    """The parts of what it costs to come to a node and to be there."""
    tariff = steps.tariff
    yield from tariff.own(node.pose, column.event)
    if before is not None:
        came, last = before
        gap = tariff.gap(came.event, column.event)
        way = steps.way(last.key, node.key, gap)
        scale = tariff.scale["shift"]
        if 0 < way < inf and scale:
            yield "shift", way / scale
        stays = last.pose.place == node.pose.place
        yield from tariff.change(last.pose, node.pose, column.manner, stays=stays)


def silent(played: Sequence[Playable]) -> tuple[Placed, ...]:
    """A phrase of which nothing can be played."""
    return tuple(left_out(one.event) for one in played)


def left_out(event: Event) -> Placed:
    """An event that cannot be played."""
    return Placed(event.bar, event.sound, (None,) * len(event.notes), None, {})
