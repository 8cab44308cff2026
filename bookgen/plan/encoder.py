"""Plans as JSON text."""

from typing import Literal

import msgspec

from bookgen.model.event import Begins, Event
from bookgen.model.instrument import Instrument
from bookgen.model.stop import Note
from bookgen.plan.document import Plan, PlannedDrill
from bookgen.plan.wire import (
    FORMAT,
    VERSION,
    DayTable,
    DrillTable,
    EventTable,
    LinkTable,
    PlanTable,
    StopTable,
)


def encode(plan: Plan, instrument: Instrument) -> str:
    """Write a plan as JSON text, two spaces a level, the same for the same plan."""
    table = plan_table(plan, instrument)
    return msgspec.json.format(msgspec.json.encode(table), indent=2).decode() + "\n"


def plan_table(plan: Plan, instrument: Instrument) -> PlanTable:
    """A plan as it stands in the document."""
    return PlanTable(
        format=FORMAT,
        version=VERSION,
        instrument=plan.instrument,
        size=plan.size,
        player=plan.player,
        seed=plan.seed,
        days=[
            DayTable(
                date=day.date,
                minutes=day.minutes,
                drills=[drill_table(drill, instrument) for drill in day.drills],
                character=day.character,
            )
            for day in plan.days
        ],
    )


def drill_table(planned_drill: PlannedDrill, instrument: Instrument) -> DrillTable:
    """A planned drill as it stands in the document."""
    drill, link = planned_drill.drill, planned_drill.link
    return DrillTable(
        number=planned_drill.number,
        key=drill.key,
        kind=planned_drill.kind,
        stage=drill.stage,
        fingers=list(drill.frame.fingers),
        spacings=[spacing.word for spacing in drill.frame.spacings],
        lead=drill.lead,
        back=drill.back,
        place=drill.place,
        position=planned_drill.position,
        strings=list(drill.strings),
        minutes=planned_drill.minutes,
        link=LinkTable(to=link.to, changes=link.changes, text=link.text),
        events=[event_table(event, instrument) for event in planned_drill.events],
        order=None if drill.plain_order else list(drill.order),
        only_if=planned_drill.only_if,
    )


def event_table(event: Event, instrument: Instrument) -> EventTable:
    """An event as it stands in the document."""
    return EventTable(
        stops=[stop_table(note, instrument) for note in event.notes],
        duration=f"{event.duration.numerator}/{event.duration.denominator}",
        from_previous=event.from_previous,
        crosses=event.crosses,
        within=event.within,
        begins=opening(event.begins),
    )


def opening(begins: Begins) -> Literal["group", "turn"] | None:
    """What an event opens, as it stands in the document."""
    match begins:
        case Begins.GROUP:
            return "group"
        case Begins.TURN:
            return "turn"
        case Begins.NOTHING:
            return None


def stop_table(note: Note, instrument: Instrument) -> StopTable:
    """A stop as it stands in the document; MIDI number and Hz are those that sound."""
    sounding = instrument.sounding_pitch(note.pitch)
    return StopTable(
        string=note.stop.string,
        finger=note.stop.finger,
        semitones=note.stop.semitones,
        pitch=str(note.pitch),
        midi=sounding.midi,
        hz=round(sounding.hz, 2),
        held=note.held,
    )
