"""A passage's groups and the drills that lead to them, put together for the page."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from itertools import pairwise

from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.model.phrase import Phrase
from bookgen.model.weights import Weights
from bookgen.passage.groups import moves_in
from bookgen.passage.ladder import ladders, needed, open_area
from bookgen.plan.document import Day, Plan, Role
from bookgen.plan.earlier import earlier_of
from bookgen.plan.entry import entry_of
from bookgen.plan.passage import Fingering, Group, Ladder
from bookgen.plan.record import Record
from bookgen.planner.echo import Echoes
from bookgen.planner.graph import Graph
from bookgen.planner.knowledge import Knowledge
from bookgen.planner.numbering import Numbering
from bookgen.planner.outline import Pick
from bookgen.planner.page import Page


@dataclass(frozen=True, slots=True)
class Comes:
    """From where a player comes to a passage.

    secure: drills that are said to be secure, besides those on record.
    """

    secure: tuple[Drill, ...]
    records: tuple[Record, ...]
    date: Date
    weights: Weights

    def knowledge(self, instrument: Instrument) -> Knowledge:
        """What the player knows, in an area that holds whatever the hand takes."""
        knowledge = Knowledge(Graph(instrument, open_area(instrument), self.weights))
        knowledge.trust(self.secure)
        knowledge.read(self.records, self.date)
        return knowledge


def needs_of(
    fingering: Fingering, phrase: Phrase, instrument: Instrument
) -> dict[str, tuple[Drill, ...]]:
    """The drills that every group needs, by its letter; equal ones are there each time."""
    found = {}
    for group in fingering.groups:
        moves = moves_in(group, fingering, phrase)
        together = sounding_together(group, fingering)
        found[group.letter] = needed(group, list(moves), together, instrument)
    return found


def sounding_together(group: Group, fingering: Fingering) -> set[tuple[int, int]]:
    """The lower and the higher finger of whatever the group sounds together."""
    found = set()
    for one in fingering.placed[group.first : group.last + 1]:
        fingers = [stop.finger for stop in one.stops if stop is not None and stop.finger]
        found |= {(min(pair), max(pair)) for pair in pairwise(fingers)}
    return {pair for pair in found if pair[0] != pair[1]}


def ladders_to(
    needs: Mapping[str, Sequence[Drill]], instrument: Instrument, comes: Comes
) -> tuple[Ladder, ...]:
    """The ladders to every group from what the player knows."""
    knowledge = comes.knowledge(instrument)
    return ladders(needs, knowledge.graph, knowledge.secure)


def drill_plan(
    found: Sequence[Ladder],
    instrument: Instrument,
    size: str,
    comes: Comes,
    numbers: Mapping[Drill, int] | None = None,
    first_number: int = 1,
) -> Plan | None:
    """The drills of the ladders as one planned day; None where there are none.

    numbers: those that drills have already; first_number: of the first drill that has none.
    """
    knowledge = comes.knowledge(instrument)
    numbering = Numbering(numbers or {}, first_number, comes.records)
    page = Page(knowledge, Echoes(), numbering)
    drills = list(dict.fromkeys(drill for ladder in found for drill in ladder.drills))
    if not drills:
        return None
    items = tuple(
        page.item(Pick(drill, role, minutes), minutes)
        for drill, role in zip(drills, roles_of(drills, knowledge), strict=True)
        for minutes in [knowledge.graph.minutes(drill)]
    )
    day = Day(date=comes.date, minutes=sum(item.minutes for item in items), items=items)
    entries = tuple(
        entry_of(drill, instrument, number, numbering.links[drill])
        for number, drill in sorted((numbering.numbers[drill], drill) for drill in drills)
    )
    return Plan(
        instrument=instrument.key,
        size=size,
        player=None,
        seed=0,
        drills=entries,
        earlier=earlier_of(entries, [day], numbering.drills),
        days=(day,),
    )


def roles_of(drills: Sequence[Drill], knowledge: Knowledge) -> Iterator[Role]:
    """New where a drill brings moves that neither the player nor one before it has met."""
    met = set(knowledge.covered)
    for drill in drills:
        moves = knowledge.graph.moves(drill)
        yield Role.NEW if moves - met else Role.OTHER_WAY
        met |= moves
