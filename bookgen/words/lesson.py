"""What a page for the lesson says: last results, what is shaky, what is secure, what is next."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from itertools import groupby, islice
from typing import Final

from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.model.place import place_label, shift_label
from bookgen.plan.ahead import Further
from bookgen.plan.document import DrillEntry, Item
from bookgen.plan.fared import Fared
from bookgen.plan.record import Played, Record, Result
from bookgen.words.ahead import could_come
from bookgen.words.days import result_words, role_words, wait_words
from bookgen.words.drill import hand_name, way_name
from bookgen.words.drill_title import place_name
from bookgen.words.names import numbers_name, position_name
from bookgen.words.shift import shift_name
from bookgen.words.speech import Speech

MOST_DAYS: Final = 6
"""Days whose results are told: about a week (own choice)."""

MOST_RESULTS: Final = 3
"""Of a drill, so that they stand in a line (own choice)."""


@dataclass(frozen=True, slots=True)
class Section:
    """A part of the page; rows: cells of equal number; otherwise: said where there are none."""

    title: str
    rows: Sequence[tuple[str, ...]]
    otherwise: str


@dataclass(frozen=True, slots=True)
class Coming:
    """A day to come and what is played then: each item with its drill.

    is_printed: its page is made; numbers: those that drills have already.
    """

    date: Date
    items: Sequence[tuple[Item, DrillEntry]]
    is_printed: bool
    numbers: frozenset[int]


def sections(
    fared: Fared,
    instrument: Instrument,
    coming: Coming | None,
    further: Further | None,
    speech: Speech,
) -> Iterator[Section]:
    """The parts of the page in their order.

    coming: the next day to practise; None where there is none.
    further: what could be added to an area of which all is secure; None where something is not.
    """
    nothing = speech.say("Nothing was entered yet.")
    yield Section(speech.say("Last results"), [*result_rows(fared, speech)], nothing)
    shaky = [shaky_row(one, fared, instrument, speech) for one in fared.shaky]
    over = speech.say("Shaky: not yet, or secure only the last time")
    yield Section(over, shaky, speech.say("Nothing."))
    secure = [*secure_rows(fared, instrument, speech)]
    yield Section(secure_head(further, speech), secure, speech.say("Nothing yet."))
    none = speech.say("No day to practise in the next two months.")
    yield Section(next_head(coming, speech), [*next_rows(coming, speech)], none)


def left_out(number: int, speech: Speech) -> str:
    """Under a part of which so many rows have no room."""
    return speech.count("and {number} more", "and {number} more", number)


def result_rows(fared: Fared, speech: Speech) -> Iterator[tuple[str, ...]]:
    """The last days with results, the last one first: the date, what was secure, what not yet."""
    for day, by_result in islice(fared.days.items(), MOST_DAYS):
        told = (told_numbers(result, by_result.get(result, ()), speech) for result in Result)
        yield (speech.skeleton(day, "MMMEd"), *told)


def told_numbers(result: Result, numbers: Sequence[int], speech: Speech) -> str:
    """A result with the numbers of its drills."""
    if not numbers:
        return ""
    facts = {"result": result_words(result, speech), "numbers": numbers_name(numbers)}
    return speech.say("{result}: {numbers}", **facts)


def shaky_row(
    record: Record, fared: Fared, instrument: Instrument, speech: Speech
) -> tuple[str, ...]:
    """A drill by its number and in words, and its last results, the latest first."""
    drill, played = record.drill, reversed(fared.results[record.number][-MOST_RESULTS:])
    results = ", ".join(told_result(one, speech) for one in played)
    words = drill_words(drill, place_of(drill, instrument, speech), speech)
    return (str(record.number), words, results)


def told_result(played: Played, speech: Speech) -> str:
    """A result with its day."""
    day = speech.skeleton(played.date, "MMMd")
    return speech.say("{result} {date}", result=result_words(played.result, speech), date=day)


def drill_words(drill: Drill, place: str, speech: Speech) -> str:
    """A drill's hand, place and stage."""
    return speech.say(
        "{hand}, {position}, {stage}",
        hand=hand_name(drill, speech),
        position=place,
        stage=way_name(drill, speech),
    )


def place_of(drill: Drill, instrument: Instrument, speech: Speech) -> str:
    """A drill's position, or between which ones the hand shifts."""
    first, last = place_label(drill, instrument), shift_label(drill, instrument)
    return position_name(first, speech) if first == last else shift_name(first, last, speech)


def secure_head(further: Further | None, speech: Speech) -> str:
    """Over what is secure: whether that is all, and what could be added then."""
    if further is None:
        return speech.say("Secure")
    if not further.secure and (met := could_come(further, speech)):
        return speech.say("Secure: all of the area was met; next could come {more}", more=met)
    if not further.secure:
        return speech.say("Secure: all of the area was met")
    more = could_come(further, speech)
    if not more:
        return speech.say("Secure: all of the area")
    return speech.say("Secure: all of the area; next could come {more}", more=more)


def secure_rows(fared: Fared, instrument: Instrument, speech: Speech) -> Iterator[tuple[str, ...]]:
    """Hands with how far each is secure, and its numbers; those that were played last first."""

    def where(record: Record) -> tuple[str, str]:
        return hand_name(record.drill, speech), place_of(record.drill, instrument, speech)

    def last_played(records: Sequence[Record]) -> Date:
        return max(fared.results[record.number][-1].date for record in records)

    grouped = groupby(sorted(fared.secure, key=where), key=where)
    found = {key: tuple(records) for key, records in grouped}
    for key, records in sorted(found.items(), key=lambda one: last_played(one[1]), reverse=True):
        furthest = max((record.drill for record in records), key=lambda drill: drill.stage)
        to = speech.say("up to “{stage}”", stage=way_name(furthest, speech))
        yield (*key, to, numbers_name([record.number for record in records]))


def next_head(coming: Coming | None, speech: Speech) -> str:
    """Over what is next: the day, and whether its page is made."""
    if coming is None:
        return speech.say("Next")
    date = speech.skeleton(coming.date, "MMMEd")
    if coming.is_printed:
        return speech.say("Next: {date}", date=date)
    return speech.say("Next: {date}, not printed yet", date=date)


def next_rows(coming: Coming | None, speech: Speech) -> Iterator[tuple[str, ...]]:
    """What is played then; a drill that has no number yet stands without one."""
    if coming is None:
        return
    for item, entry in coming.items:
        why = role_words(item.role, speech)
        if item.only_if is not None and item.only_if in coming.numbers:
            wait = wait_words(item.only_if, speech)
            why = speech.say("{role}, {wait}", role=why, wait=wait)
        number = str(item.number) if item.number in coming.numbers else ""
        yield (number, drill_words(entry.drill, place_name(entry, speech), speech), why)


def whose(player: str, day: str, speech: Speech) -> str:
    """In the head of the page.

    day: the day of the lesson in words.
    """
    return speech.say("Lesson, {player}, {date}", player=player, date=day)
