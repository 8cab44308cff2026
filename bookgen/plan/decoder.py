"""Plan documents from outside; what they say is computed again and must agree."""

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from math import isclose
from typing import Final

import msgspec

from bookgen.errors import BookgenError, Finding
from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.plan.document import Day, Link, Plan, PlannedDrill, planned
from bookgen.plan.encoder import drill_table
from bookgen.plan.wire import DayTable, DrillTable, PlanTable

HZ_TOLERANCE: Final = 0.01
MOST_FINDINGS: Final = 20
PATTERN: Final = re.compile(r" matching regex '[^']*'")
"""Left out of what the reader of JSON says: the schema in docs/ has it."""

LONGEST_SHOWN: Final = 80

FindInstrument = Callable[[str], Instrument | None]
"""Looks up an instrument by its key; None where there is none."""


def decode(
    text: bytes | str,
    file: str,
    find: FindInstrument,
    printed: Mapping[int, Drill] | None = None,
) -> Plan:
    """Read a plan, and compute every note, interval, position and link of it again.

    file: the name under which the user knows the document.
    printed: drills on earlier pages by their numbers, where the document is one that we kept:
        it may be older than this bookgen, so what it says of notes is not held against it.

    Raises:
        BookgenError: the text is no plan document, or says something that is not so.
    """
    try:
        table = msgspec.json.decode(text, type=PlanTable)
    except msgspec.ValidationError as error:
        problem, _, place = PATTERN.sub("", str(error)).partition(" - at ")
        path = place.strip("`").removeprefix("$").removeprefix(".")
        raise BookgenError(fault(file, path or "document", problem)) from error
    except (msgspec.DecodeError, UnicodeDecodeError, RecursionError) as error:
        raise BookgenError(fault(file, "document", f"no JSON ({error})")) from error
    instrument = find(table.instrument)
    if instrument is None:
        raise BookgenError(fault(file, "instrument", f"no instrument {table.instrument!r}"))
    findings = list(dates_twice(table, file))
    try:
        instrument.size(table.size)
    except ValueError as error:
        findings.append(fault(file, "size", str(error)))
    reader = PlanReader(file, instrument, printed)
    days = [reader.day(f"days[{index}]", day) for index, day in enumerate(table.days)]
    findings.extend(reader.findings)
    if findings:
        raise BookgenError(*findings[:MOST_FINDINGS])
    return Plan(table.instrument, table.size, table.player, table.seed, tuple(days))


def dates_twice(table: PlanTable, file: str) -> Iterator[Finding]:
    """Findings for days that a document has twice."""
    for index, day in enumerate(table.days):
        if day.date in {other.date for other in table.days[:index]}:
            yield fault(file, f"days[{index}].date", f"{day.date} stands twice in this plan")


def fault(file: str, place: str, problem: str) -> Finding:
    """A finding in a plan document."""
    return Finding(f"{file}, {place}", problem, "mend the document, or plan the sheet anew")


class PlanReader:
    """Reads the days of a document in their order and collects all that is wrong with them."""

    def __init__(
        self, file: str, instrument: Instrument, printed: Mapping[int, Drill] | None
    ) -> None:
        self.file = file
        self.instrument = instrument
        self.ours = printed is not None
        self.printed = printed or {}
        self.findings: list[Finding] = []
        self.seen: dict[int, Drill] = {}
        self.refused: set[int] = set()

    def wrong(self, place: str, problem: str) -> None:
        """Note a finding."""
        self.findings.append(fault(self.file, place, problem))

    def day(self, path: str, table: DayTable) -> Day:
        """Read one day; what is wrong stands in `findings` afterwards."""
        drills = []
        for index, entry in enumerate(table.drills):
            drill = self.drill(f"{path}.drills[{index}]", entry)
            if drill is not None:
                drills.append(drill)
            else:
                self.refused.add(entry.number)
        complete = len(drills) == len(table.drills)
        if complete and sum(entry.minutes for entry in table.drills) > table.minutes + 1e-6:
            self.wrong(f"{path}.minutes", "the drills take more minutes than the day has")
        return Day(table.date, table.minutes, tuple(drills), table.character)

    def drill(self, path: str, table: DrillTable) -> PlannedDrill | None:
        """Read one drill, or note why it cannot be."""
        try:
            drill = Drill.parse_key(table.key)
            if drill.instrument != self.instrument.key:
                self.wrong(f"{path}.key", f"a drill for the {drill.instrument}")
                return None
            result = planned(
                drill,
                self.instrument,
                number=table.number,
                kind=table.kind,
                minutes=table.minutes,
                link=Link(table.link.to, table.link.changes, table.link.text),
            )
            result = replace(result, only_if=table.only_if)
        except ValueError as error:
            self.wrong(f"{path}.key", str(error))
            return None
        if not self.ours:
            for place, problem in differences(table, drill_table(result, self.instrument), path):
                self.wrong(place, problem)
        self.check_number(path, result.number)
        self.check_link(path, result)
        self.check_gate(path, result)
        self.seen[result.number] = drill
        return result

    def check_number(self, path: str, number: int) -> None:
        """Numbers rise, so each stands once."""
        last = max(self.seen, default=0)
        if number in self.seen:
            self.wrong(f"{path}.number", f"{number} stands twice in this plan")
        elif number < last:
            self.wrong(f"{path}.number", f"{number} comes after {last}, but numbers rise")

    def check_gate(self, path: str, result: PlannedDrill) -> None:
        """What must be secure first is the stage before, or what the drill is linked to."""
        if result.only_if is None or result.only_if in self.refused:
            return
        before = self.known(result.only_if)
        if before is None:
            problem = f"no drill {result.only_if} stands earlier in this plan"
            self.wrong(f"{path}.only_if", problem)
        elif result.only_if != result.link.to and not precedes(before, result.drill):
            problem = f"No. {result.only_if} is neither its stage before nor its link"
            self.wrong(f"{path}.only_if", problem)

    def known(self, number: int) -> Drill | None:
        """The drill of a number earlier in the plan, or on an earlier page."""
        return self.seen.get(number) or self.printed.get(number)

    def check_link(self, path: str, result: PlannedDrill) -> None:
        """A link changes just what it says."""
        link = result.link
        if (link.to is None) != (link.changes is None):
            self.wrong(f"{path}.link", "`to` and `changes` go together, or both are null")
        if link.to is None or link.to in self.refused:
            return
        try:
            before = self.known(link.to) if isinstance(link.to, int) else Drill.parse_key(link.to)
        except ValueError as error:
            self.wrong(f"{path}.link.to", str(error))
            return
        if before is None:
            self.wrong(f"{path}.link.to", f"no drill {link.to} stands earlier in this plan")
        elif before.changes_to(result.drill) != (link.changes,):
            changed = ", ".join(before.changes_to(result.drill)) or "nothing"
            self.wrong(f"{path}.link.changes", f"{link.changes}, but what changes is {changed}")


def precedes(before: Drill, drill: Drill) -> bool:
    """Whether a drill is another one at an earlier stage."""
    return before.stage < drill.stage and replace(drill, stage=before.stage) == before


def differences(given: object, true: object, path: str) -> Iterator[tuple[str, str]]:
    """Where a document says something else than what follows from its keys.

    Yields the place and what is wrong there.
    """
    match given, true:
        case msgspec.Struct(), msgspec.Struct():
            for field in msgspec.structs.fields(given):
                here, there = getattr(given, field.name), getattr(true, field.name)
                yield from differences(here, there, f"{path}.{field.encode_name}")
        case list(), list() if len(given) == len(true):
            for index, (here, there) in enumerate(zip(given, true, strict=True)):
                yield from differences(here, there, f"{path}[{index}]")
        case float(), float() if isclose(given, true, abs_tol=HZ_TOLERANCE):
            return
        case _ if given != true:
            yield path, f"{shown(given)}, but it should be {shown(true)}"


def shown(value: object) -> str:
    """A value as JSON shows it, cut where it is long."""
    text = msgspec.json.encode(value).decode()
    return text if len(text) <= LONGEST_SHOWN else f"{text[:LONGEST_SHOWN]} …"
