"""Plan documents from outside; what they say is computed again and must agree."""

import re
from collections.abc import Callable, Mapping
from typing import Final

import msgspec
from msgspec.structs import replace

from bookgen.errors import BookgenError, Finding, Message
from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.plan.checker import Checker, Fault
from bookgen.plan.document import Plan
from bookgen.plan.ensemble import faults_of
from bookgen.plan.version_1 import Converter, PlanTable

MOST_FINDINGS: Final = 20
PATTERN: Final = re.compile(r" matching regex '[^']*'")
"""Left out of what the reader of JSON says: the schema in docs/ has it."""

FindInstrument = Callable[[str], Instrument | None]
"""Looks up an instrument by its key; None where there is none."""


class Head(msgspec.Struct):
    """What tells the versions of the document apart."""

    version: object = None


def decode(
    text: bytes | str,
    file: str,
    find: FindInstrument,
    printed: Mapping[int, Drill] | None = None,
) -> Plan:
    """Read a plan of version 2 or 1, and compute all that follows from its keys again.

    file: the name under which the user knows the document.
    printed: drills by the numbers under which they were printed, where the document is one that
        we kept: it may be older than this bookgen, so what it says of notes is not held against
        it. Only version 1 needs the drills.

    Raises:
        BookgenError: the text is no plan document, or says something that is not so.
    """
    plan = table_of(text, file)
    old = None
    if isinstance(plan, PlanTable):
        old = Converter(plan, printed or {})
        plan = old.plan()
    instrument = find(plan.instrument)
    if instrument is None:
        problem = Message("plan-instrument", {"name": plan.instrument})
        raise BookgenError(finding(file, Fault("instrument", problem)))
    places = old.places if old else [f"drills[{index}]" for index in range(len(plan.drills))]
    items = "drills" if old else "items"
    ours = printed is not None
    echoes = old is None and not ours
    checker = Checker(plan, instrument, places, items, ours=ours, echoes=echoes)
    for place, number in old.twice() if old else ():
        checker.wrong(f"{place}.number", "plan-number-twice", number=number)
    checker.check()
    checker.faults += [Fault(place, problem) for place, problem in faults_of(plan, find)]
    if checker.faults:
        raise BookgenError(*(finding(file, fault) for fault in checker.faults[:MOST_FINDINGS]))
    return replace(plan, drills=tuple(checker.entries))


def table_of(text: bytes | str, file: str) -> Plan | PlanTable:
    """The document as it stands, of whichever version.

    Raises:
        BookgenError: it is no JSON, or has not the shape of a plan.
    """
    try:
        version = msgspec.json.decode(text, type=Head).version
        if version == 1:
            return msgspec.json.decode(text, type=PlanTable)
        return msgspec.json.decode(text, type=Plan)
    except msgspec.ValidationError as error:
        told, _, place = PATTERN.sub("", str(error)).partition(" - at ")
        path = place.strip("`").removeprefix("$").removeprefix(".")
        raise BookgenError(finding(file, Fault(path or "document", told))) from error
    except (msgspec.DecodeError, UnicodeDecodeError, RecursionError) as error:
        problem = Message("plan-json", {"problem": str(error)})
        raise BookgenError(finding(file, Fault("document", problem))) from error


def finding(file: str, fault: Fault) -> Finding:
    """A fault as the user is told it."""
    return Finding(f"{file}, {fault.place}", fault.problem, Message("plan-mend"))
