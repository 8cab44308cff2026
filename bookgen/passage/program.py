"""What a player needs for a passage: hard spots, ladders to them, and these as planned drills."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date as Date  # noqa: N812
from itertools import pairwise

from bookgen.model.dimension import Dimension
from bookgen.model.drill import CROSS_ON_EVERY_NOTE, Drill
from bookgen.model.instrument import Instrument
from bookgen.model.phrase import Phrase
from bookgen.model.route import Return
from bookgen.model.spacing import Frame
from bookgen.model.spelled_like import PLAIN, Spelling, names_like
from bookgen.model.spot_weights import SpotWeights
from bookgen.model.weights import Weights
from bookgen.passage.climb import open_area, way_to
from bookgen.passage.holding import SECOND_NOTE
from bookgen.passage.ladder import NO_LIMIT, Ladders
from bookgen.passage.points import Judge
from bookgen.passage.secure import Secure
from bookgen.passage.sounds import Sounds
from bookgen.passage.spots import Search
from bookgen.plan.document import Day, Item, Link, Plan, Role
from bookgen.plan.earlier import earlier_of
from bookgen.plan.entry import entry_of
from bookgen.plan.link import kept
from bookgen.plan.passage import Fingering, Ladder, Spot
from bookgen.plan.record import Record
from bookgen.planner.graphs import graph_of
from bookgen.planner.knowledge import Knowledge
from bookgen.planner.numbering import Numbering


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
        knowledge = Knowledge(graph_of(instrument, open_area(instrument), self.weights))
        knowledge.trust(self.secure)
        knowledge.read(self.records, self.date)
        return knowledge


@dataclass(frozen=True, slots=True)
class Way:
    """What is hard in a passage, and the way there.

    easier: how many more spots there would be. ladders: to the spots, then to the frames.
    """

    spots: tuple[Spot, ...]
    easier: int
    ladders: tuple[Ladder, ...]


def way_there(
    fingering: Fingering,
    phrase: Phrase,
    instrument: Instrument,
    comes: Comes,
    table: SpotWeights,
    *,
    most: int | None = None,
    all_hands: bool = False,
) -> Way:
    """The hard spots for a player, and the drills that lead to them.

    most: spots; None takes what the table says. all_hands: ladders to every frame besides.
    """
    sounds = Sounds.of(fingering, phrase, instrument)
    knowledge = comes.knowledge(instrument)
    secure = Secure.of(knowledge.secure)
    judge = Judge(sounds, table, comes.weights.effort, secure)
    places = table.chosen.places(len(sounds)) if most is None else most
    search = Search(sounds, judge.points(), table, places)
    search.run()
    spots = search.spots()
    in_all = table.chosen.drills_in_all(len(sounds)) if most is None else NO_LIMIT
    ladders = Ladders(sounds, knowledge.graph, secure, table.chosen.drills, in_all)
    found = ladders.to_spots(spots)
    frames = ladders.to_frames(found) if all_hands else ()
    return Way(spots, len(search.easier), (*found, *frames))


def climbs(ladders: Sequence[Ladder], instrument: Instrument, comes: Comes) -> tuple[Drill, ...]:
    """The whole way to the drills of ladders, stage by stage from what is secure, for a booklet.

    A frame to which no chain of single changes leads is learned by its pairs; what has no way all
    the same is left out.
    """
    wanted = list(dict.fromkeys(drill for ladder in ladders for drill in ladder.drills))
    frames = dict.fromkeys(drill.frame for drill in wanted)
    area = open_area(instrument)
    area = replace(area, frames=tuple(dict.fromkeys((*area.frames, *frames))))
    knowledge = comes.knowledge(instrument)
    graph = graph_of(instrument, area, comes.weights)
    steps: dict[Drill, None] = {}
    for drill in wanted:
        known = dict.fromkeys((*knowledge.secure, *steps))
        way = way_to(drill, graph, known)
        steps.update(dict.fromkeys(way))
        for pair in () if way or drill in known else pairs_in(drill, instrument):
            known = dict.fromkeys((*knowledge.secure, *steps))
            steps.update(dict.fromkeys(way_to(pair, graph, known)))
    return tuple(steps)


def pairs_in(drill: Drill, instrument: Instrument) -> Iterator[Drill]:
    """The pairs of neighbouring fingers of a drill's frame, each on its strings at its stage."""
    frame = drill.frame
    for (low, high), spacing in zip(pairwise(frame.fingers), frame.spacings, strict=True):
        pair = replace(
            drill,
            frame=Frame.pair(low, high, spacing),
            order=(low, high),
            place=drill.height(low),
            stage=drill.stage if drill.stage != SECOND_NOTE else CROSS_ON_EVERY_NOTE,
            back=Return.SAME,
        )
        if pair.refusal(instrument) is None:
            yield pair


def drill_plan(
    found: Sequence[Ladder],
    instrument: Instrument,
    size: str,
    comes: Comes,
    numbers: Mapping[Drill, int] | None = None,
    first_number: int = 1,
    spelling: Spelling = PLAIN,
) -> Plan | None:
    """The drills of the ladders as one planned day; None where there are none.

    spelling: of the passage.
    """
    knowledge = comes.knowledge(instrument)
    numbering = Numbering(numbers or {}, first_number, comes.records)
    if not (drills := list(dict.fromkeys(drill for one in found for drill in one.drills))):
        return None
    number_in_turn(drills, knowledge.secure, numbering)
    items = tuple(
        Item(number=numbering.numbers[drill], role=role, minutes=knowledge.graph.minutes(drill))
        for drill, role in zip(drills, roles_of(drills, knowledge), strict=True)
    )
    day = Day(date=comes.date, minutes=sum(item.minutes for item in items), items=items)
    rising = sorted(drills, key=lambda drill: numbering.numbers[drill])
    names = [names_like(drill, instrument, spelling) for drill in rising]
    entries = tuple(
        entry_of(drill, instrument, numbering.numbers[drill], numbering.links[drill], own)
        for drill, own in zip(rising, names, strict=True)
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


def number_in_turn(drills: Sequence[Drill], secure: Iterable[Drill], numbering: Numbering) -> None:
    """Give each drill its link and its number."""
    known = tuple(secure)
    for at, drill in enumerate(drills):
        to = link_to(drill, drills[:at][::-1], known)
        numbering.links.setdefault(drill, linked(drill, to, numbering))
        numbering.number(drill)


def link_to(drill: Drill, before: Iterable[Drill], secure: Iterable[Drill]) -> Drill | None:
    """The drill to which one is linked: the nearest before it on the page, else a secure one.

    The same hand at another stage comes first. None where nothing differs in one thing only.
    """
    for known in (list(before), list(secure)):
        near = [other for other in known if len(other.changes_to(drill)) == 1]
        same = [other for other in near if other.changes_to(drill) == (Dimension.STAGE,)]
        if near:
            return (same or near)[0]
    return None


def linked(drill: Drill, to: Drill | None, numbering: Numbering) -> Link:
    """A drill's link."""
    if to is None:
        return Link(to=None, changes=None)
    (changes,) = to.changes_to(drill)
    return Link(to=numbering.numbers.get(to, to.key), changes=changes, keeps=kept(to, drill))


def roles_of(drills: Sequence[Drill], knowledge: Knowledge) -> Iterator[Role]:
    """New where a drill brings moves that neither the player nor one before it has met."""
    met = set(knowledge.covered)
    for drill in drills:
        moves = knowledge.graph.moves(drill)
        yield Role.NEW if moves - met else Role.OTHER_WAY
        met |= moves
