"""What a passage's pages say: its hands, its placements, what fails, and the way there."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import pairwise
from typing import Final

from bookgen.model.instrument import NUMERALS, Instrument
from bookgen.model.interval import Interval
from bookgen.model.spacing import Frame
from bookgen.plan.passage import Group, Passage
from bookgen.plan.passage_facts import (
    bars_of,
    lowest_of,
    moves_of_group,
    notes_of,
    stops_of_group,
)
from bookgen.words.names import (
    instrument_name,
    interval_label,
    interval_name,
    open_string,
    pitch_name,
    played_name,
    position_name,
    spacing_name,
    strings_name,
)
from bookgen.words.speech import Speech

DASH: Final = "\N{EN DASH}"
"""From one to the other: bars, fingers."""


def bars_name(bars: Sequence[str], speech: Speech) -> str:
    """Numbers of bars, from the first to the last; an upbeat is named; empty without numbers."""
    named = [bar for bar in bars if bar]
    if not named:
        return ""
    first, last = named[0], named[-1]
    if first == "0":
        return speech.say("upbeat") if last == "0" else speech.say("upbeat to {bar}", bar=last)
    return first if first == last else f"{first}{DASH}{last}"


def where_name(bars: Sequence[str], speech: Speech) -> str:
    """Where bars lie, in words; empty without numbers."""
    named = [bar for bar in bars if bar]
    name = bars_name(bars, speech)
    if not named or named[0] == "0":
        return name
    if len(named) == 1:
        return speech.say("bar {bar}", bar=name)
    return speech.say("bars {bars}", bars=name)


def facts(passage: Passage, instrument: Instrument, speech: Speech) -> str:
    """Below the title: for what, which bars, how many placements."""
    groups = len(passage.best.groups)
    hands = sum(group.same_as is None for group in passage.best.groups)
    placements = speech.count(
        "{number} placement of the hand", "{number} placements of the hand", groups
    )
    different = (
        speech.count("all of one shape", "{number} different shapes", hands)
        if hands != groups
        else ""
    )
    where = where_name([bar.number for bar in passage.phrase.bars], speech)
    name = played_name(instrument, passage.size, speech)
    return " · ".join(filter(None, (name, where, placements, different)))


def key(passage: Passage, speech: Speech) -> Iterator[str]:
    """What the signs over the staff mean."""
    yield speech.say(
        "Over the staff: a letter and its bracket are one placement of the hand, a figure is the"
        " finger (0 the open string), a numeral the string where it changes (I the highest)."
    )
    if any(None in placed.stops for placed in passage.best.placed):
        yield speech.say("A note with a cross for its head cannot be played.")


def headings(speech: Speech) -> Mapping[str, str]:
    """The headings of a passage's pages by their part."""
    return {
        "passage": speech.say("The passage"),
        "hands": speech.say("The hands"),
        "groups": speech.say("The placements"),
        "unplayable": speech.say("What cannot be played"),
        "other": speech.say("The next best fingering"),
        "drills": speech.say("The drills"),
    }


def table_heads(speech: Speech) -> tuple[str, ...]:
    """Over the columns of the table of placements; the first column has none."""
    return (
        "",
        speech.say("bars"),
        speech.say("position, strings, lowest finger"),
        speech.say("spacings"),
        speech.say("moves"),
    )


def chart_title(group: Group, passage: Passage, speech: Speech) -> str:
    """Over the chart of a hand."""
    lowest = lowest_of(group, passage.best, passage.phrase)
    position = position_name(group.position, speech)
    if lowest is None:
        return f"<b>{group.letter}</b> · {position}"
    finger = speech.say(
        "finger {finger} on {note}",
        finger=lowest.stop.finger,
        note=pitch_name(lowest.pitch, speech),
    )
    return f"<b>{group.letter}</b> · {position} · {finger}"


def same_hands(group: Group, passage: Passage, speech: Speech) -> str:
    """Below the title of a chart: the later placements with this hand; empty without any."""
    others = [
        speech.say("<b>{letter}</b>, {higher}", letter=one.letter, higher=higher(one, speech))
        for one in passage.best.groups
        if one.same_as == group.letter
    ]
    return speech.say("The same hand: {others}", others="; ".join(others)) if others else ""


def higher(group: Group, speech: Speech) -> str:
    """How much higher a hand lies than the earlier one that it equals."""
    size = abs(group.higher)
    if not size:
        return speech.say("in the same place")
    if group.higher > 0:
        return speech.count("{number} half step higher", "{number} half steps higher", size)
    return speech.count("{number} half step lower", "{number} half steps lower", size)


def cells(
    group: Group, passage: Passage, instrument: Instrument, speech: Speech
) -> tuple[Sequence[str], ...]:
    """A placement's row of the table: the lines of each column."""
    bars = bars_of(group, passage.best, passage.phrase)
    return (
        [f"<b>{group.letter}</b>"],
        [bars_name(bars, speech)],
        list(hand_lines(group, passage, instrument, speech)),
        list(spacing_lines(group, passage, speech)),
        list(move_lines(group, passage, speech)),
    )


def hand_lines(
    group: Group, passage: Passage, instrument: Instrument, speech: Speech
) -> Iterator[str]:
    """Where a placement lies."""
    notes = notes_of(group, passage.best, passage.phrase)
    strings = sorted({note.stop.string for note in notes}, reverse=True)
    lowest = lowest_of(group, passage.best, passage.phrase)
    if lowest is None:
        opens = [open_string(instrument.open_pitch(string), speech) for string in strings]
        yield speech.say("open {strings}", strings=speech.listed(opens))
        return
    yield speech.say(
        "{position}, {strings}",
        position=position_name(group.position, speech),
        strings=strings_name(strings, instrument, speech),
    )
    yield speech.say(
        "finger {finger} on {note} ({string})",
        finger=lowest.stop.finger,
        note=pitch_name(lowest.pitch, speech),
        string=NUMERALS[lowest.stop.string],
    )


def spacing_lines(group: Group, passage: Passage, speech: Speech) -> Iterator[str]:
    """How far apart the fingers of a placement stand."""
    if group.frame is not None:
        yield spacings(group.frame, speech)
        for other in group.others:
            yield speech.say("also {spacings}", spacings=spacings(other, speech))
    elif lowest_of(group, passage.best, passage.phrase) is not None:
        yield speech.say("one finger alone")
    if group.same_as is not None:
        yield speech.say(
            "<i>the hand of {letter}, {higher}</i>",
            letter=group.same_as,
            higher=higher(group, speech),
        )


def spacings(frame: Frame, speech: Speech) -> str:
    """Pairs of neighbouring fingers, with the distance between them."""
    pairs = zip(pairwise(frame.fingers), frame.spacings, strict=True)
    return ", ".join(
        f"{low}{DASH}{high}\N{NO-BREAK SPACE}{spacing_name(spacing, speech)}"
        for (low, high), spacing in pairs
    )


def move_lines(group: Group, passage: Passage, speech: Speech) -> Iterator[str]:
    """Which intervals are met in a placement."""
    moves = moves_of_group(group, passage.best, passage.phrase)
    on_string = {label for label, crosses in moves if not crosses}
    over = {label for label, crosses in moves if crosses}
    together = set(stops_of_group(group, passage.best, passage.phrase))
    if on_string:
        yield speech.say("on a string: {intervals}", intervals=labels(on_string, speech))
    if over:
        yield speech.say("over strings: {intervals}", intervals=labels(over, speech))
    if together:
        yield speech.say("together: {intervals}", intervals=labels(together, speech))


def labels(found: Iterable[str], speech: Speech) -> str:
    """Marks of intervals, from the narrowest."""
    return ", ".join(interval_label(label, speech) for label in narrow_first(found))


def narrow_first(found: Iterable[str]) -> list[str]:
    """Intervals from the narrowest."""
    return sorted(found, key=lambda label: (Interval.parse(label).semitones, label))


def marks(passage: Passage, speech: Speech) -> str:
    """Below the table: what its marks of intervals mean."""
    best, phrase = passage.best, passage.phrase
    found: set[str] = set()
    for group in best.groups:
        found |= {label for label, _ in moves_of_group(group, best, phrase)}
        found |= set(stops_of_group(group, best, phrase))
    return ", ".join(
        f"{interval_label(label, speech)} {interval_name(label, speech)}"
        for label in narrow_first(found)
    )


def unplayable(passage: Passage, speech: Speech) -> Iterator[str]:
    """What cannot be played, bar by bar."""
    for bar, problem in passage.best.unplayable:
        yield at_bars(where_name([bar], speech), speech.line(problem), speech)


def at_bars(where: str, what: str, speech: Speech) -> str:
    """What is so in some bars; a passage without numbers has no where."""
    return speech.say("{where}: {what}", where=capital(where), what=what) if where else what


def capital(text: str) -> str:
    """A text with a capital at its beginning; the rest stays."""
    return text[:1].upper() + text[1:]


def caution(speech: Speech) -> str:
    """At the foot of every page."""
    return speech.say(
        "Stop at once if anything hurts or goes numb, and rest; if it stays, ask your teacher or a"
        " doctor. Stretch only as far as your hand lets you."
    )


def subject(instrument: Instrument, speech: Speech) -> str:
    """What the file is, for catalogues."""
    return speech.say("Passage, {instrument}", instrument=instrument_name(instrument, speech))
