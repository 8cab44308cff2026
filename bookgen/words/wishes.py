"""What was wished for a day, in words."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from bookgen.model.drill import Drill
from bookgen.plan.wished import Wished
from bookgen.words.drill import hand_name, stage_name
from bookgen.words.names import fingers_name, interval_name, position_name
from bookgen.words.speech import Speech

DOUBLE_STOPS: Final = 5
"""The stage that is called so."""


MOST_STEPS: Final = 3
"""Steps of a way that are told; what comes after them is too far off to be planned."""


@dataclass(frozen=True, slots=True)
class WayStep:
    """A drill on the way to what was wished.

    number: its own, if it has one. position: the trade's label.
    """

    drill: Drill
    position: str
    number: int | None


def sort_words(wished: Wished, speech: Speech) -> str:
    """The sort of drills that was wished."""
    return speech.listed([*sort_parts(wished, speech)])


def sort_parts(wished: Wished, speech: Speech) -> Iterator[str]:
    """What it asks for, one after the other."""
    stage = DOUBLE_STOPS if wished.double_stops else wished.stage
    if wished.interval is not None:
        yield speech.say("the {interval}", interval=interval_name(wished.interval, speech))
    if stage is not None:
        yield stage_name(stage, speech)
    if wished.hands:
        named = speech.listed([fingers_name(hand, speech) for hand in wished.hands])
        yield speech.say("fingers {fingers}", fingers=named)
    if wished.position is not None:
        yield position_name(wished.position, speech)


def wished_line(wished: Wished, speech: Speech, *, leads: bool) -> str:
    """At the head of a sheet: what was wished for the day.

    leads: nothing of it is open yet, so the day's drills lead there.
    """
    sort = sort_words(wished, speech)
    if leads:
        return speech.say("<b>Wished</b> {sort}: these drills lead there.", sort=sort)
    return speech.say("<b>Wished</b> {sort}.", sort=sort)


def way_words(steps: Sequence[WayStep], speech: Speech) -> str:
    """The first steps of a way, one after the other."""
    named = [step_words(step, speech) for step in steps[:MOST_STEPS]]
    way = speech.say("; then ").join(named)
    left = len(steps) - len(named)
    if not left:
        return way
    return speech.count("{way}; then {number} more", "{way}; then {number} more", left, way=way)


def step_words(step: WayStep, speech: Speech) -> str:
    """A step of a way: its number, if it has one, and what it is."""
    facts = {
        "hand": hand_name(step.drill, speech),
        "position": position_name(step.position, speech),
        "stage": stage_name(step.drill.stage, speech),
    }
    if step.number is None:
        return speech.say("{hand}, {position}, {stage}", **facts)
    return speech.say("No. {number} ({hand}, {position}, {stage})", number=step.number, **facts)
