"""How a player's area stands before some days; where nothing is left, what could be added."""

from collections.abc import Sequence
from datetime import date as Date  # noqa: N812
from typing import Final

from msgspec.structs import replace

from bookgen.model.finger import fingers_in, signs_of
from bookgen.plan.ahead import Further
from bookgen.plan.document import Coverage, Plan
from bookgen.plan.record import Record, Result
from bookgen.planner.coverage import area_moves, coverage
from bookgen.planner.gauge import coverage_facts
from bookgen.planner.progress import anything_novel
from bookgen.readers.hands import pairs_of, positions_of, usual_pairs
from bookgen.studio.practice_log import PracticeLog
from bookgen.tasks.wish import Asked

HIGHEST: Final = 5
"""The last stage."""


def records_of(log: PracticeLog | None, asked: Asked) -> list[Record]:
    """What is on record of a player on their instrument."""
    found = log.records(asked.name) if log is not None and asked.name is not None else ()
    return [record for record in found if record.drill.instrument == asked.instrument.key]


def coverage_before(records: Sequence[Record], asked: Asked, plan: Plan, first: Date) -> Coverage:
    """How the moves of the player's area stood before a plan's first day."""
    met = coverage(records, asked.request(first).secure, first)
    drills = [entry.drill for entry in plan.drills]
    return coverage_facts(area_moves(asked.instrument, asked.area), met, drills)


def further_of(
    records: Sequence[Record], asked: Asked, standing: Coverage, first: Date
) -> Further | None:
    """What could be added to an area of which nothing is left; None where something is.

    All is secure where all moves are, and each hand was secure at the last stage. Else nothing is
    left where no drill brings a move, a stage of a hand or an order that the player has not met.
    """
    area, request = asked.area, asked.request(first)
    played = [one.drill for one in records if one.results and one.results[0].date <= first]
    won = {one.drill for one in records if one.results and one.results[-1].result is Result.SECURE}
    won |= set(request.secure)
    through = {drill.frame for drill in won if drill.stage == area.highest_stage}
    if not (standing.new or standing.practised) and through.issuperset(area.frames):
        return next_step(asked)
    if standing.new or anything_novel(request, played):
        return None
    return replace(next_step(asked), secure=False)


def next_step(asked: Asked) -> Further:
    """What could be added.

    The next stage; else fingers that take half and whole steps; else the position above; else
    other fingers. With all of it nothing is left.
    """
    instrument, cover = asked.instrument, asked.player.cover
    if cover.highest_stage < HIGHEST:
        return Further(stage=cover.highest_stage + 1)
    hands = {signs_of(frame.fingers) for frame in asked.area.frames}
    usual = [pair for pair in usual_pairs(instrument, cover.positions) if pair not in hands]
    every = [pair for pair in pairs_of(instrument) if pair not in hands]
    positions = positions_of(instrument)
    highest = max(map(positions.index, cover.positions))
    if not usual and highest + 1 < len(positions):
        return Further(position=positions[highest + 1])
    if not every:
        return Further()
    low, high = fingers_in((usual or every)[0])
    return Further(fingers=(low, high))
