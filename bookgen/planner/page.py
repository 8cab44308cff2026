"""A day's drills with their numbers, minutes and links, as the plan document holds them."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date as Date  # noqa: N812
from typing import Final

from bookgen.model.dimension import Dimension
from bookgen.model.drill import Drill
from bookgen.model.event import Event
from bookgen.model.music import play
from bookgen.plan.document import Day, Kind, Link, PlannedDrill, planned
from bookgen.planner.echo import Echo, Echoes
from bookgen.planner.explain import START, Mention, again_text, link_text
from bookgen.planner.knowledge import Knowledge
from bookgen.planner.minutes import shared_out
from bookgen.planner.outline import Item, Outline, most_minutes

OPENS: Final = frozenset({Kind.OPENING, Kind.TEST})
"""Kinds that need no link where they stand first on a page."""

KNOWN: Final = frozenset({Kind.REVIEW, Kind.OPENING, Kind.TEST})
"""Kinds whose drills the player knows: no other need be secure first."""


def day_of(
    items: Sequence[Item],
    outline: Outline,
    knowledge: Knowledge,
    echoes: Echoes,
    first_number: int,
) -> Day:
    """Number a day's drills, share out its minutes and tie each drill to one before.

    outline: the date, and the minutes to share out.
    echoes: the drills met so far by their sound; the day's own are added.
    """
    most = [most_minutes(item, outline, knowledge) for item in items]
    minutes = shared_out([item.minutes for item in items], most, outline.minutes)
    page = Page(knowledge, echoes)
    drills = tuple(
        page.entry(item, number, given)
        for number, (item, given) in enumerate(zip(items, minutes, strict=True), first_number)
    )
    return Day(outline.date, outline.minutes, drills, outline.character)


@dataclass(frozen=True, slots=True)
class Target:
    """The drill that another one is linked to.

    number: on this page or an earlier one; None where it never stood on a page.
    date: its page's day; None on this page.
    in_plan: it stands in the plan that is being made.
    """

    drill: Drill
    changes: Dimension
    number: int | None
    date: Date | None
    in_plan: bool


class Page:
    """A day's drills as they get their numbers and links."""

    def __init__(self, knowledge: Knowledge, echoes: Echoes) -> None:
        self.knowledge = knowledge
        self.graph = knowledge.graph
        self.echoes = echoes
        self.numbers: dict[Drill, int] = {}

    def entry(self, item: Item, number: int, minutes: float) -> PlannedDrill:
        """One drill of the page."""
        drill, instrument = item.drill, self.graph.instrument
        opens = not self.numbers and item.kind in OPENS
        target = None if opens else self.target(drill)
        events = play(drill, instrument)
        made = planned(
            drill,
            instrument,
            number=number,
            kind=item.kind,
            minutes=minutes,
            link=self.link(item, target, events),
        )
        self.echoes.add(Echo(number, drill, made.position), events)
        gated = replace(made, only_if=self.only_if(item, target))
        self.numbers[drill] = number
        return gated

    def target(self, drill: Drill) -> Target:
        """What a drill is linked to: something on the page before something known.

        Raises:
            ValueError: nothing on the page or known differs from the drill in one thing.
        """
        targets = [self.found(other, by) for by, other in self.graph.neighbours(drill)]
        known = [target for target in targets if target is not None]
        if not known:
            msg = f"{drill.key} is linked to nothing that is known"
            raise ValueError(msg)
        return min(known, key=self.preference)

    def found(self, drill: Drill, changes: Dimension) -> Target | None:
        """Where a drill stands, if it can be linked to."""
        if drill in self.numbers:
            return Target(drill, changes, self.numbers[drill], None, in_plan=True)
        if drill not in self.knowledge.secure:
            return None
        printed = self.knowledge.printed.get(drill)
        if printed is None:
            return Target(drill, changes, None, None, in_plan=False)
        return Target(drill, changes, printed.number, printed.date, in_plan=printed.planned)

    def preference(self, target: Target) -> tuple[bool, bool, bool, int]:
        """Which link is best, the best first.

        It leads to the same page, not to what is secure only if the plan is kept, to a stage
        beside, and to what was printed last.
        """
        return (
            target.date is not None or target.number is None,
            target.drill in self.knowledge.presumed,
            target.changes is not Dimension.STAGE,
            -(target.number or 0),
        )

    def link(self, item: Item, target: Target | None, events: Sequence[Event]) -> Link:
        """The link line of a drill."""
        again = self.again(item)
        if target is None:
            return Link(None, None, f"{again}{START}")
        at = target.number
        text = link_text(
            at if at is None or target.date is None else Mention(at, target.date),
            (target.drill, play(target.drill, self.graph.instrument)),
            (item.drill, events),
            echo=self.echoes.find(item.drill, events),
            known=item.drill in self.knowledge.met,
        )
        to = at if target.in_plan else target.drill.key
        return Link(to, target.changes, again + text)

    def again(self, item: Item) -> str:
        """Where a ladder leads, or under which number the player has met the drill; else empty."""
        printed = self.knowledge.printed.get(item.drill)
        goal = self.knowledge.printed.get(item.goal) if item.goal is not None else None
        if goal is not None and item.goal != item.drill:
            return f"On the way to No. {goal.number}. "
        if item.aim:
            return f"On the way to {item.aim}. "
        if printed is None or item.drill not in self.knowledge.met:
            return ""
        return again_text(Mention(printed.number, printed.date))

    def only_if(self, item: Item, target: Target | None) -> int | None:
        """The drill of this plan, not yet secure, that must be so before this one."""
        if item.kind in KNOWN:
            return None
        gate = self.graph.gate(item.drill)
        if gate is not None and not self.sure(gate):
            return self.numbers.get(gate) or self.knowledge.printed[gate].number
        if target is None or target.date is None or self.sure(target.drill):
            return None
        return target.number

    def sure(self, drill: Drill) -> bool:
        """Secure by a result or from the beginning, not because it stands earlier in the plan."""
        return drill in self.knowledge.secure and drill not in self.knowledge.presumed
