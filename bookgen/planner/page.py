"""A day as it stands in the plan: its drills with their links, and what they wait for."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from bookgen.errors import RefusedError
from bookgen.model.dimension import Dimension
from bookgen.model.drill import Drill
from bookgen.model.music import play
from bookgen.plan.document import Day, Echo, Item, Link, Role, Towards
from bookgen.plan.link import OTHER_HAND, crossings, kept
from bookgen.planner.echo import Echoes
from bookgen.planner.knowledge import Knowledge
from bookgen.planner.minutes import shared_out
from bookgen.planner.numbering import Numbering
from bookgen.planner.outline import Outline, Pick, most_minutes

OPENS: Final = frozenset({Role.START, Role.COLD})
"""Roles of what stands first on a day."""

KNOWN: Final = frozenset({Role.AGAIN, Role.START, Role.COLD})
"""Roles whose drills the player knows: no other need be secure first."""


def day_of(
    picks: Sequence[Pick],
    outline: Outline,
    knowledge: Knowledge,
    echoes: Echoes,
    numbering: Numbering,
) -> Day:
    """Share out a day's minutes, and tie each drill that is new on paper to one before.

    outline: the date, and the minutes to share out.
    echoes: the drills met so far by their sound; the day's own are added.
    numbering: gives the drills their numbers, and keeps their links.
    """
    most = [most_minutes(pick, outline, knowledge) for pick in picks]
    minutes = shared_out([pick.minutes for pick in picks], most, outline.minutes)
    page = Page(knowledge, echoes, numbering)
    items = tuple(page.item(pick, given) for pick, given in zip(picks, minutes, strict=True))
    return Day(date=outline.date, minutes=outline.minutes, items=items, character=outline.character)


@dataclass(frozen=True, slots=True)
class Target:
    """A drill to which another one can be linked.

    here: it stands on the day, before the other one.
    order: of printing, higher for what was printed later; 0 where it never was.
    """

    drill: Drill
    changes: Dimension
    here: bool
    order: int


class Page:
    """A day's drills as they come onto the page."""

    def __init__(self, knowledge: Knowledge, echoes: Echoes, numbering: Numbering) -> None:
        self.knowledge = knowledge
        self.graph = knowledge.graph
        self.echoes = echoes
        self.numbering = numbering
        self.here: dict[Drill, int] = {}
        self.printed = {drill: order for order, drill in enumerate(knowledge.printed, start=1)}

    def item(self, pick: Pick, minutes: float) -> Item:
        """Put a drill on the day."""
        number = self.put(pick.drill, pick.role)
        bars = pick.aim is not None and pick.role.first_time
        return Item(
            number=number,
            role=Role.PASSAGE if bars else pick.role,
            minutes=minutes,
            only_if=self.only_if(pick),
            towards=self.towards(pick),
        )

    def keep(self, item: Item) -> None:
        """Take over an item of a day that is printed already; its link may be lost.

        Raises:
            RefusedError: no drill has the number, or it is one of another instrument.
        """
        drill = self.numbering.drill(item.number)
        if drill.instrument != self.graph.instrument.key:
            raise RefusedError("plan-drill-instrument", instrument=drill.instrument)
        if not any(self.targets(drill)):
            self.numbering.links.setdefault(drill, Link(to=None, changes=None))
        self.put(drill, item.role)

    def put(self, drill: Drill, role: Role) -> int:
        """Note a drill on the day, with a link where it has none yet. Returns its number."""
        links = self.numbering.links
        link = links.get(drill) or self.link(drill, self.target(drill, role))
        links[drill] = link
        number = self.numbering.number(drill)
        self.echoes.add(drill, play(drill, self.graph.instrument))
        self.here[drill] = len(self.here)
        return number

    def target(self, drill: Drill, role: Role) -> Target | None:
        """What a drill is linked to: its stage before if it waits for that, else the best.

        What opens a day is linked to a drill that has a number, if any is near enough.

        Raises:
            RefusedError: nothing on the page or known differs from the drill in one thing.
        """
        gate = None if role in KNOWN else self.waits_for(drill)
        if gate is not None:
            return Target(gate, Dimension.STAGE, gate in self.here, 0)
        found = list(self.targets(drill))
        if role in OPENS and not self.here:
            found = [one for one in found if one.drill in self.numbering.numbers]
        elif not found:
            raise RefusedError("plan-no-link", key=drill.key)
        return min(found, key=self.preference, default=None)

    def waits_for(self, drill: Drill) -> Drill | None:
        """The stage before where nobody knows yet that it is secure."""
        gate = self.graph.gate(drill)
        return None if gate is None or self.sure(gate) else gate

    def targets(self, drill: Drill) -> Iterator[Target]:
        """What stands on the page or counts as secure, and differs from a drill in one thing."""
        for changes, other in self.graph.neighbours(drill):
            if other in self.here:
                yield Target(other, changes, here=True, order=self.here[other])
            elif other in self.knowledge.secure:
                order = self.printed.get(other, 0)
                yield Target(other, changes, here=False, order=order)

    def preference(self, target: Target) -> tuple[bool, bool, bool, int]:
        """Which link is best, the best first.

        It leads to the same page, not to what is secure only if the plan is kept, to a stage
        beside, and to what was printed last.
        """
        return (
            not target.here,
            target.drill in self.knowledge.presumed,
            target.changes is not Dimension.STAGE,
            -target.order,
        )

    def link(self, drill: Drill, target: Target | None) -> Link:
        """A drill's link for ever."""
        if target is None:
            return Link(to=None, changes=None)
        before, instrument = target.drill, self.graph.instrument
        now = play(drill, instrument)
        heard = self.echoes.find(drill, now)
        own = target.changes in OTHER_HAND and crossings(play(before, instrument)) == crossings(now)
        return Link(
            to=self.numbering.numbers.get(before, before.key),
            changes=target.changes,
            keeps=kept(before, drill),
            echo=None if own or heard is None else self.echo(heard),
        )

    def echo(self, drill: Drill) -> Echo:
        """An earlier drill that sounds the same, as a fact."""
        (interval,), _ = crossings(play(drill, self.graph.instrument))
        return Echo(interval=interval, number=self.numbering.number(drill))

    def only_if(self, pick: Pick) -> int | None:
        """The drill, not yet known to be secure, that must be so before this one.

        That is the stage before; or what the drill hangs on where that is on an earlier day.
        """
        if pick.role in KNOWN:
            return None
        numbers, linked = self.numbering.numbers, self.numbering.links[pick.drill].to
        gate = self.waits_for(pick.drill)
        if gate is not None:
            return numbers[gate]
        found = list(self.targets(pick.drill))
        if any(one.here or self.sure(one.drill) for one in found):
            return None
        found.sort(key=lambda one: (numbers[one.drill] != linked, self.preference(one)))
        return numbers[found[0].drill] if found else None

    def towards(self, pick: Pick) -> Towards | None:
        """Where a drill leads: to one that was not yet secure, or to bars of a piece."""
        goal = self.numbering.numbers.get(pick.goal) if pick.goal is not None else None
        if goal is not None and pick.goal != pick.drill:
            return Towards(number=goal)
        return pick.aim

    def sure(self, drill: Drill) -> bool:
        """Secure by a result or from the beginning, not because it stands earlier in the plan."""
        return drill in self.knowledge.secure and drill not in self.knowledge.presumed
