"""What a plan says that is not so."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import isclose
from typing import Final

import msgspec

from bookgen.errors import Message, Said, why
from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.model.music import play
from bookgen.model.stop import Stop
from bookgen.plan.document import Day, DrillEntry, Echo, Item, Link, Plan, drill_of
from bookgen.plan.entry import entry_of
from bookgen.plan.link import crossings, kept, named, other_hand
from bookgen.plan.music import names_of
from bookgen.plan.prose import paragraphs

HZ_TOLERANCE: Final = 0.01
MINUTES_TOLERANCE: Final = 1e-6
LONGEST_SHOWN: Final = 80


@dataclass(frozen=True, slots=True)
class Fault:
    """Something that is not so, and its place in the document."""

    place: str
    problem: Said


class Checker:
    """Goes through a plan and collects what is wrong with it, and the drills as they truly are.

    faults: all that was found.
    entries: the plan's drills, computed anew from their keys.
    drills: each drill by its number; None where its key is refused, which is told once.
    """

    def __init__(
        self,
        plan: Plan,
        instrument: Instrument,
        places: Sequence[str],
        items: str,
        *,
        ours: bool,
        echoes: bool,
    ) -> None:
        """Take a plan to be checked.

        places: where each drill stands in the document; items: what it calls a day's items.
        ours: notes may have had other names when it was written.
        echoes: whether one that is not so is a fault; else it is left out.
        """
        self.plan = plan
        self.instrument = instrument
        self.places = places
        self.items = items
        self.ours = ours
        self.echoes = echoes
        self.faults: list[Fault] = []
        self.entries: list[DrillEntry] = []
        self.drills: dict[int, Drill | None] = {}
        self.told: set[Drill | None] = set()

    def check(self) -> None:
        """Go through the whole plan."""
        try:
            self.instrument.size(self.plan.size)
        except ValueError as error:
            self.faults.append(Fault("size", why(error)))
        for index, earlier in enumerate(self.plan.earlier):
            self.check_drill(f"earlier[{index}]", earlier.number, earlier.key)
        for place, entry in zip(self.places, self.plan.drills, strict=True):
            self.check_drill(place, entry.number, entry.key)
        for place, entry in zip(self.places, self.plan.drills, strict=True):
            self.check_entry(place, entry)
        self.check_order()
        self.check_chapters()
        self.check_calendar()
        for index, day in enumerate(self.plan.days):
            self.check_day(f"days[{index}]", day, self.plan.days[:index])

    def wrong(self, place: str, name: str, **facts: object) -> None:
        """Note a fault by the name of its sentence."""
        self.faults.append(Fault(place, Message(name, facts)))

    # Drills

    def check_drill(self, place: str, number: int, key: str) -> None:
        """A number stands once, and names a drill of the instrument that has no other."""
        drill = self.drill(f"{place}.key", key)
        if number in self.drills:
            self.wrong(f"{place}.number", "plan-number-twice", number=number)
        elif drill in self.told:
            self.wrong(f"{place}.key", "plan-drill-twice", key=key)
        self.drills.setdefault(number, drill)
        self.told |= {drill} - {None}

    def drill(self, place: str, key: str) -> Drill | None:
        """The drill of a key, if the instrument has it."""
        try:
            drill = drill_of(key)
            if drill.instrument != self.instrument.key:
                self.wrong(place, "plan-drill-instrument", instrument=drill.instrument)
                return None
            play(drill, self.instrument)
        except ValueError as error:
            self.faults.append(Fault(place, why(error)))
            return None
        return drill

    def check_order(self) -> None:
        """Numbers rise through the document."""
        last = 0
        for place, entry in zip(self.places, self.plan.drills, strict=True):
            if entry.number < last:
                self.wrong(f"{place}.number", "plan-number-falls", number=entry.number, last=last)
            last = max(last, entry.number)

    def check_entry(self, place: str, entry: DrillEntry) -> None:
        """A drill has the notes and the link that follow from its key."""
        drill = self.drills[entry.number]
        if drill is None or drill.key != entry.key:  # told already
            return
        link = self.checked_link(f"{place}.link", entry.link, drill)
        true = self.as_named(entry, drill, link)
        self.entries.append(true)
        if not self.ours:
            self.compare(place, msgspec.structs.replace(entry, link=link), true)

    def as_named(self, entry: DrillEntry, drill: Drill, link: Link) -> DrillEntry:
        """A drill as it truly is, in the names of the document where they are names of its notes.

        So what was printed under other names, or in those of a piece, is printed so again.
        """
        try:
            names = names_of(entry.events, drill, self.instrument)
            true = entry_of(drill, self.instrument, entry.number, link, names)
        except (KeyError, ValueError):
            return entry_of(drill, self.instrument, entry.number, link)
        finger, place = drill.frame.fingers[0], drill.place
        low = drill.strings[0]
        first = names.get(Stop(low, finger, place))
        ways = {true.position}
        if first is not None:
            nut = self.instrument.open_pitch(low)
            ways.add(self.instrument.position_rule.label(finger, place, first, nut))
        position = entry.position if entry.position in ways else true.position
        return msgspec.structs.replace(true, position=position)

    def compare(self, place: str, given: object, true: object) -> None:
        """Note where the document says something else than what follows from its keys."""
        for path, here, there in differences(given, true, place):
            self.wrong(path, "plan-differs", given=shown(here), true=shown(there))

    def checked_link(self, place: str, link: Link, drill: Drill) -> Link:
        """A link as it truly is: it changes just what it says."""
        if (link.to is None) != (link.changes is None):
            self.wrong(place, "plan-link-half")
        before = self.named(f"{place}.to", link.to)
        if before is None:
            return link
        changes = before.changes_to(drill)
        if changes != (link.changes,):
            told = {"given": str(link.changes), "true": ", ".join(changes) or "null"}
            self.wrong(f"{place}.changes", "plan-link-changes", **told)
            return link
        if not self.ours:
            self.compare(f"{place}.keeps", link.keeps, kept(before, drill))
        echo = link.echo
        if echo is not None and not self.check_echo(f"{place}.echo", echo, drill):
            echo = None
        return Link(to=link.to, changes=link.changes, keeps=kept(before, drill), echo=echo)

    def check_echo(self, place: str, echo: Echo, drill: Drill) -> bool:
        """The crossings were heard before, in other fingers or in another place."""
        other = self.named(f"{place}.number", echo.number)
        if other is None:
            return False
        sound = crossings(play(drill, self.instrument))
        same = sound == crossings(play(other, self.instrument)) and other_hand(drill, other)
        true = same and named(sound) and sound[0] == {echo.interval}
        if not true and self.echoes:
            self.wrong(place, "plan-echo", number=echo.number, interval=echo.interval)
        return true

    def named(self, place: str, to: int | str | None) -> Drill | None:
        """The drill that a number of the document or a key names, if there is one."""
        match to:
            case int() if to in self.drills:
                return self.drills[to]
            case int():
                self.wrong(place, "plan-number-unknown", number=to)
                return None
            case str():
                return self.drill(place, to)
            case None:
                return None

    def check_chapters(self) -> None:
        """The chapters of a supplement have all drills, each once and in their order."""
        book = self.plan.binding.supplement if self.plan.binding else None
        if book is None:
            return
        numbers = [number for chapter in book.chapters for number in chapter.numbers]
        empty = any(not chapter.numbers and chapter.piece is None for chapter in book.chapters)
        if empty or numbers != [entry.number for entry in self.plan.drills]:
            self.wrong("binding.supplement.chapters", "plan-chapters")
        for place, text in book.texts():
            try:
                paragraphs(text)
            except ValueError as error:
                self.faults.append(Fault(f"binding.supplement.{place}", why(error)))

    # Days

    def check_calendar(self) -> None:
        """Days away do not run backwards."""
        binding = self.plan.binding
        calendar = binding.calendar if binding else None
        for index, away in enumerate(calendar.away if calendar else ()):
            if away.last < away.first:
                place = f"binding.calendar.away[{index}]"
                self.wrong(place, "plan-away", first=away.first, last=away.last)

    def check_day(self, place: str, day: Day, before: Sequence[Day]) -> None:
        """Days rise, and each has time for its items."""
        if day.date in {other.date for other in before}:
            self.wrong(f"{place}.date", "plan-date-twice", date=day.date.isoformat())
        elif before and day.date < before[-1].date:
            self.wrong(f"{place}.date", "plan-date-falls", date=day.date.isoformat())
        if sum(item.minutes for item in day.items) > day.minutes + MINUTES_TOLERANCE:
            self.wrong(f"{place}.minutes", "plan-minutes-over")
        here: set[int] = set()
        for index, item in enumerate(day.items):
            self.check_item(f"{place}.{self.items}[{index}]", item, here)
            here.add(item.number)

    def check_item(self, place: str, item: Item, before: set[int]) -> None:
        """An item is a drill of the document, and what it waits for and leads to is known."""
        if item.number not in self.plan.by_number:
            self.wrong(f"{place}.number", "plan-item-unknown", number=item.number)
        elif item.number in before:
            self.wrong(f"{place}.number", "plan-item-twice", number=item.number)
        if item.only_if == item.number:
            self.wrong(f"{place}.only_if", "plan-waits-for-itself", number=item.number)
        elif item.only_if is not None:
            self.named(f"{place}.only_if", item.only_if)
        towards = item.towards
        if towards is None:
            return
        if (towards.number is None) == (towards.title is None):
            self.wrong(f"{place}.towards", "plan-towards")
        if towards.bars is not None and towards.title is None:
            self.wrong(f"{place}.towards.bars", "plan-bars-of-nothing")
        self.named(f"{place}.towards.number", towards.number)


def differences(given: object, true: object, path: str) -> Iterator[tuple[str, object, object]]:
    """Where one value differs from another: the place, what is there and what should be."""
    if given == true:
        return
    match given, true:
        case msgspec.Struct(), msgspec.Struct():
            kind = type(given)
            names = zip(kind.__struct_fields__, kind.__struct_encode_fields__, strict=True)
            for name, written in names:
                here, there = getattr(given, name), getattr(true, name)
                yield from differences(here, there, f"{path}.{written}")
        case tuple(), tuple() if len(given) == len(true):
            for index, (here, there) in enumerate(zip(given, true, strict=True)):
                yield from differences(here, there, f"{path}[{index}]")
        case float(), float() if isclose(given, true, abs_tol=HZ_TOLERANCE):
            return
        case _:
            yield path, given, true


def shown(value: object) -> str:
    """A value as JSON shows it, cut where it is long."""
    text = msgspec.json.encode(value).decode()
    return text if len(text) <= LONGEST_SHOWN else f"{text[:LONGEST_SHOWN]} …"
