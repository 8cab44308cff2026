"""A class: the plans of all its instruments, which have the same numbers, links and days."""

from collections.abc import Callable, Iterator

from msgspec.structs import replace

from bookgen.errors import Message, Said, why
from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.plan.document import Plan, drill_of
from bookgen.plan.entry import entry_of
from bookgen.plan.part import Part

FindInstrument = Callable[[str], Instrument | None]
Fault = tuple[str, Said]
"""A place in the document, and what is wrong there."""


def plans_of(plan: Plan, find: FindInstrument) -> list[tuple[Plan, Instrument]]:
    """The plan of each instrument of a class, the document's own first.

    Raises:
        KeyError: there is no such instrument; `faults_of` tells it.
    """
    parts = plan.binding.parts if plan.binding else ()
    found = []
    for name, part in ((plan.instrument, None), *((part.instrument, part) for part in parts)):
        instrument = find(name)
        if instrument is None:
            raise KeyError(name)
        found.append((plan if part is None else along(plan, part, instrument), instrument))
    return found


def along(plan: Plan, part: Part, instrument: Instrument) -> Plan:
    """The plan of one that plays along."""
    entries = tuple(
        entry_of(drill_of(key), instrument, entry.number, entry.link)
        for key, entry in zip(part.keys, plan.drills, strict=True)
    )
    return replace(plan, instrument=part.instrument, size=part.size, drills=entries)


def faults_of(plan: Plan, find: FindInstrument) -> Iterator[Fault]:
    """What is said of the other instruments of a class that is not so."""
    for at, part in enumerate(plan.binding.parts if plan.binding else ()):
        place = f"binding.parts[{at}]"
        instrument = find(part.instrument)
        if instrument is None:
            yield f"{place}.instrument", Message("plan-instrument", {"name": part.instrument})
            continue
        try:
            instrument.size(part.size)
        except ValueError as error:
            yield f"{place}.size", why(error)
        if len(part.keys) != len(plan.drills):
            counts = {"count": len(part.keys), "drills": len(plan.drills)}
            yield f"{place}.keys", Message("plan-part-count", counts)
            continue
        for index, (key, entry) in enumerate(zip(part.keys, plan.drills, strict=True)):
            for problem in key_faults(key, entry.drill, instrument):
                yield f"{place}.keys[{index}]", problem


def key_faults(key: str, first: Drill, instrument: Instrument) -> Iterator[Said]:
    """Why a key names no drill of the instrument that is played along with another's."""
    try:
        drill = drill_of(key)
    except ValueError as error:
        yield why(error)
        return
    refusal = drill.refusal(instrument)
    if drill.instrument != instrument.key:
        yield Message("plan-drill-instrument", {"instrument": drill.instrument})
    elif refusal is not None:
        yield refusal
    elif shape(drill) != shape(first):
        yield Message("plan-part-other", {"key": first.key})


def shape(drill: Drill) -> tuple[object, ...]:
    """What all instruments of a class have in common: spacings, place, and how they go."""
    frame = drill.frame
    steps = tuple(spacing.semitones for spacing in frame.spacings)
    way = (len(drill.strings), drill.stage, drill.ranks(), drill.back)
    return (steps, frame.shift, drill.place, *way)
