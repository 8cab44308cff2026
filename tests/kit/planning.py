"""Requests and plans for the tests, as the commands make them."""

from collections.abc import Mapping, Sequence
from datetime import date, timedelta

from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.model.spacing import Frame, Spacing
from bookgen.plan.document import Plan
from bookgen.plan.record import Record
from bookgen.planner.area import Area, string_sets
from bookgen.planner.difficulty import hand_parts, way_parts
from bookgen.planner.month import plan_days
from bookgen.planner.request import Request
from bookgen.planner.start import anywhere, starts
from bookgen.readers.instrument import read_instrument
from bookgen.readers.weights import read_weights

WEEKDAYS = frozenset(range(6))
"""Sundays are free."""

UP_TO_THIRD = frozenset({"half", "1st", "2nd", "3rd"})
WIDEST = frozenset({"half", "1st", "2nd", "3rd", *(f"{number}th" for number in range(4, 30))})


def ordinary_pairs(instrument: Instrument) -> tuple[Frame, ...]:
    """Every pair of fingers that takes a half or a whole step without a stretch."""
    return tuple(
        Frame.pair(reach.low, reach.high, reach.spacing)
        for reach in instrument.hand.reaches
        if reach.spacing in {Spacing.HALF, Spacing.WHOLE} and not reach.stretch
    )


def difficulty_parts(drill: Drill, instrument: Instrument) -> Mapping[str, float]:
    """All that adds to a drill's difficulty, by its name in the table."""
    effort = read_weights().effort
    hand = hand_parts(drill.frame, drill.place, drill.strings, instrument, effort)
    return {**hand, **way_parts(drill, instrument, effort)}


def area_of(
    instrument: Instrument,
    positions: frozenset[str] = UP_TO_THIRD,
    fewest: int = 3,
    highest_stage: int = 5,
) -> Area:
    """Every ordinary pair in some positions."""
    strings = string_sets(instrument, min(fewest, len(instrument.strings)))
    return Area(ordinary_pairs(instrument), positions, strings, highest_stage)


def request_for(
    instrument: Instrument,
    area: Area | None = None,
    *,
    minutes: int = 10,
    practice_days: frozenset[int] = WEEKDAYS,
    records: Sequence[Record] = (),
    seed: int = 0,
) -> Request:
    """What the planner is asked for a player who begins in first position, or in the lowest."""
    area = area or area_of(instrument)
    return Request(
        instrument=instrument,
        size=instrument.sizes[0].name,
        area=area,
        minutes=minutes,
        practice_days=practice_days,
        start=(starts(instrument, area) or anywhere(instrument, area))[0],
        weights=read_weights(),
        records=tuple(records),
        player="Ines",
        seed=seed,
        first_number=max((record.number for record in records), default=0) + 1,
    )


def dates_from(first: date, count: int, practice_days: frozenset[int] = WEEKDAYS) -> list[date]:
    """The practice days among that many days."""
    days = (first + timedelta(offset) for offset in range(count))
    return [day for day in days if day.weekday() in practice_days]


def planned_from(first: date, count: int, key: str = "violin", minutes: int = 10) -> Plan:
    """A plan of the practice days among that many days."""
    instrument = read_instrument(key)
    request = request_for(instrument, minutes=minutes)
    return plan_days(request, dates_from(first, count))
