"""How a day begins: with something secure that the last days did not begin with."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from typing import Final

from bookgen.model.dimension import Dimension
from bookgen.model.drill import Drill
from bookgen.planner.knowledge import Knowledge
from bookgen.planner.progress import hand_of
from bookgen.planner.sparing import tires

WEEK: Final = 6
"""Openings that an opening is compared with."""

CHOICE: Final = 40
"""Drills that come into question, those first whose review is due; more would not be better."""


@dataclass(frozen=True, slots=True)
class Past:
    """The openings of the last week.

    varied: the dimensions in which they differ from one another.
    """

    openings: tuple[Drill, ...]
    varied: frozenset[Dimension]

    @classmethod
    def of(cls, openings: Sequence[Drill]) -> "Past":
        """The last week of all openings so far."""
        last = tuple(openings[-WEEK:])
        found = {d for one in last for other in last for d in one.changes_to(other)}
        return cls(last, frozenset(found))

    def rank(self, drill: Drill) -> tuple[bool, bool, int, int]:
        """How well a drill opens a day after these, the best first.

        It is none of them, not the hand of the day before, adds dimensions, and differs in
        many from each of them.
        """
        changes = [before.changes_to(drill) for before in self.openings]
        new = {dimension for change in changes for dimension in change} - self.varied
        hands = map(hand_of, self.openings[-1:])
        return (
            drill in self.openings,
            hand_of(drill) in hands,
            -len(new),
            -min((len(change) for change in changes), default=0),
        )


def openings(knowledge: Knowledge, start: Drill, date: Date, most_minutes: float) -> list[Drill]:
    """Drills that can open a day, the best first.

    None opened the day before. Where nothing else is secure these are the start and its like
    on the same hand.

    most_minutes: no opening is longer, unless all are.
    """
    graph = knowledge.graph
    past = Past.of(knowledge.openings)
    found = [drill for drill in known(knowledge, date) if drill not in past.openings[-1:]]
    if not found:
        near = list(beginnings(knowledge, start))
        found = [drill for drill in near if drill not in past.openings[-1:]] or near
    found = restful(found, knowledge)
    short = [drill for drill in found if graph.minutes(drill) <= most_minutes]
    shortest = min(graph.minutes(drill) for drill in found)
    short = short or [drill for drill in found if graph.minutes(drill) == shortest]
    return sorted(short, key=past.rank)


def known(knowledge: Knowledge, date: Date) -> list[Drill]:
    """Secure drills of the area, those first whose review is due most."""
    every = restful(list(playable(knowledge)), knowledge)
    found = sorted(every, key=lambda drill: -knowledge.lateness(drill, date))
    return found[:CHOICE]


def restful(drills: list[Drill], knowledge: Knowledge) -> list[Drill]:
    """Those that do not tire the hand; all of them where every one does."""
    instrument = knowledge.graph.instrument
    return [drill for drill in drills if not tires(drill, instrument)] or drills


def playable(knowledge: Knowledge) -> Iterator[Drill]:
    """Secure drills of the area whose stage before is secure too."""
    holds = knowledge.graph.holds
    return (drill for drill in knowledge.secure if holds(drill) and ready(knowledge, drill))


def ready(knowledge: Knowledge, drill: Drill) -> bool:
    """The stage before is secure too, or there is none."""
    gate = knowledge.graph.gate(drill)
    return gate is None or gate in knowledge.secure


def beginnings(knowledge: Knowledge, start: Drill) -> Iterator[Drill]:
    """The start and what differs from it in lead, return or strings alone.

    What was not yet secure is left out, unless all of it was.
    """
    graph = knowledge.graph
    hand = {start: None}
    for _ in range(3):
        for drill in list(hand):
            hand.update(
                (other, None)
                for dimension, other in graph.neighbours(drill)
                if dimension in {Dimension.LEAD, Dimension.RETURN, Dimension.STRINGS}
            )
    fresh = [drill for drill in hand if drill not in knowledge.failed]
    easiest = sorted(fresh or hand, key=graph.difficulty)
    yield from sorted(easiest, key=lambda drill: drill != start)


def cold_items(knowledge: Knowledge, date: Date, count: int) -> list[Drill]:
    """Drills for a cold test, of hands that differ; empty where too few are secure.

    The first one is the day's opening and is chosen as such; the others are those that have
    rested longest for their span.
    """
    found = [drill for drill in playable(knowledge) if not knowledge.passed(drill)]
    secure = sorted(restful(found, knowledge), key=lambda drill: -knowledge.lateness(drill, date))
    past = Past.of(knowledge.openings)
    first = sorted((drill for drill in secure if drill not in past.openings[-1:]), key=past.rank)
    chosen: list[Drill] = []
    for drill in first[:1] + secure:
        if len(chosen) < count and hand_of(drill) not in map(hand_of, chosen):
            chosen.append(drill)
    chosen += [drill for drill in secure if drill not in chosen][: count - len(chosen)]
    return chosen if len(chosen) == count else []
