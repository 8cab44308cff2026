"""Drills and instruments for the tests, by the names a player would use."""

from datetime import date

from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.plan.document import Day, DrillEntry, Item, Link, Plan, Role
from bookgen.plan.entry import entry_of
from bookgen.readers.instrument import read_instrument

VIOLIN = read_instrument("violin")
VIOLA = read_instrument("viola")
TUESDAY = date(2026, 12, 1)
UNLINKED = Link(to=None, changes=None)


def drill_of(key: str, instrument: Instrument = VIOLIN) -> Drill:
    """A drill from its key without the instrument's name."""
    return Drill.parse_key(f"{instrument.key}-{key}")


def entry(key: str, number: int = 1, instrument: Instrument = VIOLIN) -> DrillEntry:
    """A drill of the document from its key without the instrument's name."""
    return entry_of(drill_of(key, instrument), instrument, number, UNLINKED)


def plan_of(*keys: str, instrument: Instrument = VIOLIN, player: str | None = "Ines") -> Plan:
    """A plan of one day with these drills, unlinked; each takes two minutes."""
    drills = tuple(entry(key, number, instrument) for number, key in enumerate(keys, start=1))
    roles = [Role.START, *[Role.NEW] * len(keys)]
    items = tuple(
        Item(number=drill.number, role=role, minutes=2.0)
        for drill, role in zip(drills, roles, strict=False)
    )
    return Plan(
        instrument=instrument.key,
        size=instrument.sizes[0].name,
        player=player,
        seed=0,
        drills=drills,
        days=(Day(date=TUESDAY, minutes=2.0 * len(keys), items=items),),
    )
