"""What the sheet of a day says over its drills: whose it is, and what to listen for."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from datetime import date as Date  # noqa: N812

from bookgen.model.event import Event
from bookgen.model.interval import Interval
from bookgen.plan.document import Character
from bookgen.words.days import light_day, minutes_short
from bookgen.words.marks import Marks
from bookgen.words.names import interval_name
from bookgen.words.speech import Speech

MOST_NAMED = 2
"""Intervals to listen for: what a player can bear in mind (own choice)."""


def sheet_running(player: str | None, date: Date, speech: Speech) -> str:
    """In the head of a page that goes on."""
    day = speech.date(date)
    return f"{player} · {day}" if player else day


def day_minutes(minutes: float, character: Character, speech: Speech) -> str:
    """How long the day's practice is, and what sort of a day it is."""
    short = minutes_short(minutes, speech)
    match character:
        case Character.ORDINARY:
            return short
        case Character.LIGHT:
            return light_day(short, speech)
        case Character.TEST:
            return speech.say("{minutes}, with a cold test", minutes=short)


def name(speech: Speech) -> str:
    """Before a line on which a name is to be written."""
    return speech.say("Name")


def commonest(events: Iterable[Event]) -> list[str]:
    """The labels of the intervals that are met most often from string to string."""
    heard = Counter(
        event.within or event.from_previous
        for event in events
        if event.within or (event.crosses and event.from_previous)
    )
    return [label for label, _ in heard.most_common(MOST_NAMED) if label]


def listen_for(labels: Sequence[str], marks: Marks, speech: Speech) -> str:
    """The day's commonest crossings by name and mark; nothing where there is none."""
    if not labels:
        return ""
    named = [
        speech.say(
            "the {name} ({mark})", name=interval_name(label, speech), mark=marks.interval(label)
        )
        for label in labels
    ]
    return speech.say(
        "<b>Today listen for</b> {intervals}.",
        intervals=speech.listed(named),
    )


def please_log(numbers: Sequence[int], speech: Speech) -> str:
    """Asks for the answers on which steps of the day rest; nothing where none do."""
    if not numbers:
        return ""
    return speech.say(
        "<b>Please log {numbers}</b>, secure or not yet: what says “if” hangs on it.",
        numbers=speech.listed(numbers),
    )


def from_memory(speech: Speech) -> str:
    """In place of what to listen for, where that is to be named."""
    return speech.say(
        "<b>From memory</b> Play from the chart, and name each interval before you cross. The notes"
        " follow at the end."
    )


def interval_key(labels: Iterable[str], marks: Marks, speech: Speech) -> Mapping[str, str]:
    """What the marks of intervals mean, from the narrowest, by their labels."""
    rising = sorted(set(labels), key=lambda label: Interval.parse(label).semitones)
    return {
        label: speech.say(
            "{mark} {name}", mark=marks.interval(label), name=interval_name(label, speech)
        )
        for label in rising
    }


def wait_key(speech: Speech) -> str:
    """What `if` and a number under a box means."""
    return speech.say("if and a number: only if that drill is secure")


def subject(instrument: str, speech: Speech) -> str:
    """What the file says of itself."""
    return speech.say("Practice page, {instrument}", instrument=instrument)


def drill_subject(instrument: str, speech: Speech) -> str:
    """What the file of a single drill says of itself."""
    return speech.say("Drill, {instrument}", instrument=instrument)
