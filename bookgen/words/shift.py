"""What is said of drills for passages: from where to where a hand shifts, what is heard first."""

from collections.abc import Sequence
from itertools import pairwise

from bookgen.model.drill import Drill
from bookgen.model.ear import SUNG
from bookgen.model.event import Event
from bookgen.model.instrument import NUMERALS
from bookgen.model.position import THUMB_POSITION
from bookgen.model.units import StringNumber
from bookgen.words.names import finger_name, interval_name, position_short
from bookgen.words.speech import Speech


def shift_name(position: str, to: str, speech: Speech) -> str:
    """Between which positions the hand shifts."""
    if to == THUMB_POSITION:
        first = position_short(position, speech)
        return speech.say("{first} position to thumb position", first=first)
    return speech.say(
        "{first} to {last} position",
        first=position_short(position, speech),
        last=position_short(to, speech),
    )


def shift_short(position: str, to: str, speech: Speech) -> str:
    """The same where there is little room."""
    if to == THUMB_POSITION:
        return shift_name(position, to, speech)
    return speech.say(
        "{first} to {last} pos.",
        first=position_short(position, speech),
        last=position_short(to, speech),
    )


def shift_stage(stage: int, speech: Speech) -> str:
    """How soon the hand shifts."""
    named = {
        1: speech.say("shift once on each string"),
        2: speech.say("shift on 2nd note"),
        3: speech.say("shift as you cross"),
    }
    return named[stage]


def shift_change(before: Drill, after: Drill, speech: Speech) -> str:
    """Whether the hand shifts now, and how far."""
    if not after.frame.shift:
        return speech.say("hand stays")
    if not before.frame.shift:
        return speech.say("now shift")
    if after.frame.shift > before.frame.shift:
        return speech.say("shift farther")
    return speech.say("shift less far")


def shift_key(speech: Speech) -> str:
    """What the slanted line on the staff, the dash before a finger and a hollow spot mean."""
    return speech.say("slanted line: shift; hollow spot: place after it")


def heard_first(events: Sequence[Event], speech: Speech) -> str:
    """What is sung before the first shift of a drill, however the step is spelled."""
    before, after = next(two for two in pairwise(events) if two[1].shifts)
    here, there = before.notes[-1].pitch, after.notes[-1].pitch
    if here.midi == there.midi:
        return speech.say(
            "<b>Ear</b> {note} stays as the hand shifts: {finger} comes to the spot of {other}.",
            note=there,
            finger=finger_name(after.notes[-1].stop.finger, speech),
            other=finger_name(before.notes[-1].stop.finger, speech),
        )
    label = SUNG.get(abs(there.midi - here.midi)) or after.from_previous or ""
    facts = {
        "note": there,
        "from": here,
        "interval": interval_name(label, speech),
    }
    if there.midi > here.midi:
        return speech.say(
            "<b>Ear</b> Sing {note} before the hand shifts ({interval} above {from}).", **facts
        )
    return speech.say(
        "<b>Ear</b> Sing {note} before the hand shifts ({interval} below {from}).", **facts
    )


def on_two_strings(events: Sequence[Event], speech: Speech) -> str:
    """How one finger alone is set on two strings."""
    event = next(event for event in events if event.within or event.crosses)
    label = event.within or event.from_previous or ""
    return speech.say(
        "<b>Ear</b> One finger stops both strings: turn it until the {interval} is at rest.",
        interval=interval_name(label, speech),
    )


def passed_over(strings: Sequence[StringNumber], speech: Speech) -> str:
    """What the bow does where a string is skipped."""
    return speech.count(
        "<b>Bow</b> Pass over string {strings} without a sound.",
        "<b>Bow</b> Pass over strings {strings} without a sound.",
        len(strings),
        strings=speech.listed(NUMERALS[string] for string in strings),
    )
