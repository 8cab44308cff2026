"""Drills and instruments for the tests, by the names a player would use."""

from datetime import date

from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.plan.document import Day, Kind, Link, Plan, PlannedDrill, planned
from bookgen.readers.instrument import read_instrument

VIOLIN = read_instrument("violin")
VIOLA = read_instrument("viola")
TUESDAY = date(2026, 12, 1)


def entry(key: str, number: int = 1, instrument: Instrument = VIOLIN) -> PlannedDrill:
    """A planned drill from its key without the instrument's name."""
    drill = Drill.parse_key(f"{instrument.key}-{key}")
    kind = Kind.OPENING if number == 1 else Kind.NEW
    link = Link(None, None, "Start here.")
    return planned(drill, instrument, number=number, kind=kind, minutes=2.0, link=link)


def plan_of(*keys: str, instrument: Instrument = VIOLIN, player: str | None = "Ines") -> Plan:
    """A plan of one day with these drills, unlinked."""
    drills = tuple(entry(key, number, instrument) for number, key in enumerate(keys, start=1))
    day = Day(TUESDAY, float(2 * len(keys)), drills)
    return Plan(instrument.key, instrument.sizes[0].name, player, 0, (day,))
