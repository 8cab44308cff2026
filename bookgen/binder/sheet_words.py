"""The words around a day's drills: what sheet.j2 may say."""

from dataclasses import dataclass
from typing import Final

from bookgen.binder.english import date_name, minutes_name, positions_name, strings_name
from bookgen.model.instrument import Instrument
from bookgen.model.interval import Interval, interval_words
from bookgen.model.position import PositionRule, TableRule
from bookgen.model.route import Return
from bookgen.notation.label import printed_interval
from bookgen.plan.document import Day

SHEET_PARTS: Final = frozenset(
    {
        "name",
        "date",
        "today",
        "total",
        "studio",
        "caution",
        "page",
        "running",
        "pencil",
        "own",
        "key",
    }
)
"""What sheet.j2 may print."""


STEP_MARKS: Final = {"half": {"m2", "A1"}, "whole": {"M2"}}
"""Interval labels of the spacings that have a mark of their own on the staff."""


@dataclass(frozen=True, slots=True)
class SheetWords:
    """What sheet.j2 may say of a day.

    player, studio: as they can be printed; None where nobody is named.
    scale: of the day's charts, in words.
    character: ordinary, light or test.
    steps: spacings that the staves mark, `half` and `whole`.
    intervals: marks of the other intervals on the staves with their names in words.
    dashed: some drill's way back is not its way up backwards.
    """

    player: str | None
    studio: str | None
    instrument: str
    size: str
    date: str
    total: str
    character: str
    positions: str
    strings: str
    page: int
    pages: int
    scale: str
    steps: tuple[str, ...]
    intervals: tuple[tuple[str, str], ...]
    dashed: bool


def sheet_words(
    day: Day,
    played: tuple[Instrument, str],
    names: tuple[str | None, str | None],
    page: tuple[int, int],
    scale: str,
) -> SheetWords:
    """Say what a day's page is.

    played: the instrument and the name of its size.
    names: player and studio, as they can be printed.
    page: its number within the day and how many there are.
    scale: of the day's charts, in words.
    """
    instrument, size = played
    labels = sorted(
        {planned.position for planned in day.drills},
        key=lambda label: position_order(label, instrument.position_rule),
    )
    strings = [string for planned in day.drills for string in planned.drill.strings]
    return SheetWords(
        player=names[0],
        studio=names[1],
        instrument=instrument.name,
        size=size,
        date=date_name(day.date),
        total=minutes_name(sum(planned.minutes for planned in day.drills)),
        character=day.character.value,
        positions=positions_name(labels),
        strings=strings_name(strings, instrument),
        page=page[0],
        pages=page[1],
        scale=scale,
        steps=steps_of(day),
        intervals=intervals_of(day),
        dashed=any(planned.drill.back is Return.SAME for planned in day.drills),
    )


def steps_of(day: Day) -> tuple[str, ...]:
    """The half and whole steps that the day's staves mark on one string."""
    moves = {
        event.from_previous
        for planned in day.drills
        for event in planned.events
        if not event.crosses and event.within is None
    }
    return tuple(word for word, labels in STEP_MARKS.items() if moves & labels)


def intervals_of(day: Day) -> tuple[tuple[str, str], ...]:
    """The other intervals that the day's staves mark, from the narrowest, in words."""
    events = [event for planned in day.drills for event in planned.events]
    found = {event.within for event in events} | {
        event.from_previous for event in events if event.crosses and event.within is None
    }
    labels = sorted(
        (label for label in found if label), key=lambda label: Interval.parse(label).semitones
    )
    return tuple((printed_interval(label), interval_words(label)) for label in labels)


def position_order(label: str, rule: PositionRule) -> int:
    """Sorts positions from the nut up."""
    if isinstance(rule, TableRule):
        return rule.labels.index(label)
    return int(label.rstrip("sthndr")) if label[0].isdigit() else 0
