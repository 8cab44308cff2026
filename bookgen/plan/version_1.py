"""Plan documents of version 1: a number named one printing, and links were sentences."""

import re
from collections.abc import Iterator, Mapping, Sequence
from datetime import date as Date  # noqa: N812
from typing import Annotated, Final, Literal

import msgspec

from bookgen.model.dimension import Dimension
from bookgen.model.drill import Drill, Lead
from bookgen.model.route import Return
from bookgen.plan.document import (
    Character,
    Day,
    DrillEntry,
    Echo,
    EventEntry,
    Finger,
    Height,
    Item,
    Link,
    Plan,
    Role,
    String,
    Towards,
    drill_of,
)
from bookgen.plan.earlier import earlier_of
from bookgen.plan.facts import Facts, Minutes, Name, Number
from bookgen.plan.link import kept

ROLES: Final[Mapping[str, Role]] = {
    "opening": Role.START,
    "new": Role.NEW,
    "variant": Role.OTHER_WAY,
    "review": Role.AGAIN,
    "ladder": Role.STEP_BACK,
    "test": Role.COLD,
}
"""What a kind is called now."""

GOAL: Final = re.compile(r"On the way to No\. (?P<number>\d{1,6})\. ")
BARS: Final = re.compile(
    r"On the way to (?P<title>.{1,2000}?)"
    r"(?:, bars? (?P<first>\S{1,20})(?: to (?P<last>\S{1,20}))?)?\. As "
)
ECHO: Final = re.compile(r".*, as in No\. (?P<number>\d{1,6}) ")
"""How a link line told where a drill leads, and what it echoes; it stood in the document."""


class LinkTable(Facts, frozen=True, kw_only=True):
    """What ties a drill to an earlier one of the plan (a number) or a secure one (a key)."""

    to: int | str | None
    changes: Dimension | None
    text: Annotated[str, msgspec.Meta(max_length=2000)]


class DrillTable(Facts, frozen=True, kw_only=True):
    """A drill as it was printed on a day, under a number of its own."""

    number: Number
    key: str
    kind: Literal["opening", "new", "variant", "review", "ladder", "test"]
    stage: Annotated[int, msgspec.Meta(ge=1, le=5)]
    fingers: tuple[Finger, ...]
    spacings: tuple[str, ...]
    lead: Lead
    back: Return = msgspec.field(name="return")
    place: Height
    position: str
    strings: tuple[String, ...]
    minutes: Minutes
    link: LinkTable
    events: tuple[EventEntry, ...]
    order: tuple[Finger, ...] | None = None
    only_if: Number | None = None


class DayTable(Facts, frozen=True, kw_only=True):
    """One sheet."""

    date: Date
    minutes: Minutes
    drills: Annotated[tuple[DrillTable, ...], msgspec.Meta(min_length=1)]
    character: Character = Character.ORDINARY


class PlanTable(Facts, frozen=True, kw_only=True):
    """The whole document."""

    format: Literal["bookgen-plan"]
    version: Literal[1]
    instrument: Name
    size: str
    player: Name | None
    seed: int
    days: Annotated[tuple[DayTable, ...], msgspec.Meta(min_length=1)]

    def drills(self) -> Iterator[tuple[str, DrillTable]]:
        """Every printed drill with its place in the document, in the order of play."""
        for index, day in enumerate(self.days):
            for at, drill in enumerate(day.drills):
                yield f"days[{index}].drills[{at}]", drill


class Converter:
    """Reads a document of version 1 as one of version 2.

    numbers: each drill's own number, by its key: the lowest under which it was printed.
    own: that number, by each number that was printed.
    drills: the drills that have these numbers, as far as they are known.
    first: each drill of the document as it stands there first, by its key, with the place.
    """

    def __init__(self, table: PlanTable, printed: Mapping[int, Drill]) -> None:
        """Find out which drill has which number.

        printed: drills on other pages of the player by the numbers of version 1.
        """
        self.table = table
        pairs = [(number, drill.key) for number, drill in printed.items()]
        pairs += [(drill.number, drill.key) for _, drill in table.drills()]
        self.numbers: dict[str, int] = {}
        for number, key in sorted(pairs):
            self.numbers.setdefault(key, number)
        self.own = {number: self.numbers[key] for number, key in pairs}
        self.drills = {self.own[number]: drill for number, drill in printed.items()}
        self.first: dict[str, tuple[str, DrillTable]] = {}
        for place, drill in table.drills():
            self.first.setdefault(drill.key, (place, drill))
        self.order = sorted(self.first, key=lambda key: self.numbers[key])

    @property
    def places(self) -> Sequence[str]:
        """Where the drills of the plan stand in the document."""
        return [self.first[key][0] for key in self.order]

    def twice(self) -> Iterator[tuple[str, int]]:
        """Numbers that name two printings, and where the second one stands."""
        met: set[int] = set()
        for place, drill in self.table.drills():
            if drill.number in met:
                yield place, drill.number
            met.add(drill.number)

    def plan(self) -> Plan:
        """The document as one of version 2, whether or not it is true."""
        table = self.table
        days = tuple(self.day(day) for day in table.days)
        drills = tuple(self.entry(self.first[key][1]) for key in self.order)
        return Plan(
            instrument=table.instrument,
            size=table.size,
            player=table.player,
            seed=table.seed,
            drills=drills,
            earlier=earlier_of(drills, days, self.drills),
            days=days,
        )

    def entry(self, drill: DrillTable) -> DrillEntry:
        """A drill with its own number and the link with which it stands here first."""
        return DrillEntry(
            number=self.numbers[drill.key],
            key=drill.key,
            stage=drill.stage,
            fingers=drill.fingers,
            spacings=drill.spacings,
            lead=drill.lead,
            back=drill.back,
            place=drill.place,
            position=drill.position,
            strings=drill.strings,
            link=self.link(drill),
            events=drill.events,
            order=drill.order,
        )

    def link(self, drill: DrillTable) -> Link:
        """A link without its words; what the hand keeps follows from the two drills."""
        to = drill.link.to
        if isinstance(to, int):
            to = self.own.get(to, to)
        try:
            before = self.drill(to)
            keeps = () if before is None else kept(before, drill_of(drill.key))
        except ValueError:
            keeps = ()  # a link that is not so is refused when the plan is checked
        return Link(to=to, changes=drill.link.changes, keeps=keeps, echo=self.echo(drill))

    def echo(self, drill: DrillTable) -> Echo | None:
        """Where the words of a link say that the crossings were heard before."""
        words = ECHO.match(drill.link.text)
        number = None if words is None else self.own.get(int(words["number"]))
        crossed = [event.from_previous for event in drill.events if event.crosses]
        if number is None or not crossed or crossed[0] is None:
            return None
        return Echo(interval=crossed[0], number=number)

    def drill(self, to: int | str | None) -> Drill | None:
        """The drill that a link names; None where it names none that is known.

        Raises:
            ValueError: a key names no drill.
        """
        if isinstance(to, str):
            return drill_of(to)
        here = (key for key in self.order if self.numbers[key] == to)
        return next(map(drill_of, here), self.drills.get(to or 0))

    def day(self, day: DayTable) -> Day:
        """A day of items."""
        return Day(
            date=day.date,
            minutes=day.minutes,
            items=tuple(self.item(drill) for drill in day.drills),
            character=day.character,
        )

    def item(self, drill: DrillTable) -> Item:
        """A printed drill as an item; where it leads stood in the words of its link."""
        role, towards = ROLES[drill.kind], self.towards(drill.link.text)
        if towards is not None and towards.title is not None:
            role = Role.PASSAGE if role.first_time else role
        gate = drill.only_if
        return Item(
            number=self.numbers[drill.key],
            role=role,
            minutes=drill.minutes,
            only_if=None if gate is None else self.own.get(gate, gate),
            towards=towards,
        )

    def towards(self, text: str) -> Towards | None:
        """Where a link line says that a drill leads."""
        if (goal := GOAL.match(text)) is not None:
            number = self.own.get(int(goal["number"]))
            return None if number is None else Towards(number=number)
        if (bars := BARS.match(text)) is not None:
            first = bars["first"]
            span = None if first is None else (first, bars["last"] or first)
            return Towards(title=bars["title"], bars=span)
        return None
