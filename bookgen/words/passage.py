"""What a passage's pages say: which bars, its frames, what fails, and what was left out."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from bookgen.model.instrument import NUMERALS, Instrument
from bookgen.plan.passage import Group, Passage
from bookgen.plan.passage_facts import bars_of
from bookgen.words.names import finger_word, instrument_name, place_short, played_name
from bookgen.words.signs import thumb_key
from bookgen.words.speech import Speech, capital

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
    if len(set(named)) == 1:
        return speech.say("bar {bar}", bar=name)
    return speech.say("bars {bars}", bars=name)


def facts(passage: Passage, instrument: Instrument, drills: int, speech: Speech) -> str:
    """Below the title: for what, which bars, how many frames, hard spots and drills."""
    frames = len({group.letter for group in passage.best.groups if group.stops})
    spots = len(passage.spots)
    counts = (
        speech.count("{number} frame", "{number} frames", frames) if frames else "",
        speech.count("{number} hard spot", "{number} hard spots", spots) if spots else "",
        speech.count("{number} drill", "{number} drills", drills) if drills else "",
    )
    where = where_name([bar.number for bar in passage.phrase.bars], speech)
    name = played_name(instrument, passage.size, speech)
    return " · ".join(filter(None, (name, where, *counts, written_on(instrument, speech))))


def written_on(instrument: Instrument, speech: Speech) -> str:
    """On which open strings the music is written as it is fingered, where these do not sound."""
    if instrument.written is None:
        return ""
    strings = speech.listed([speech.note(pitch) for pitch in instrument.written])
    return speech.say("written as fingered on {strings}", strings=strings)


def headings(speech: Speech) -> Mapping[str, str]:
    """The parts of a passage's pages, in the outline and over what cannot be played."""
    return {
        "passage": speech.say("The passage"),
        "frames": speech.say("The frames"),
        "spots": speech.say("The hard spots"),
        "unplayable": speech.say("What cannot be played"),
        "drills": speech.say("The drills"),
    }


def frame_words(groups: Sequence[Group], passage: Passage, speech: Speech) -> Iterator[str]:
    """Beside the letter of a frame, the longest first: its position, and fewer and fewer bars."""
    position = place_short(groups[0].position, speech)
    where = list(
        dict.fromkeys(
            bars_name(bars_of(group.first, group.last, passage.best, passage.phrase), speech)
            for group in groups
        )
    )
    for count in range(len(where), 0, -1):
        bars = ", ".join(filter(None, where[:count]))
        more = " …" if count < len(where) else ""
        yield f"{position} · {bars}{more}" if bars else position


def difference(now: Group, before: Group, speech: Speech) -> str:
    """Below a frame: what has changed from the frame before it; empty where nothing has."""
    by = now.place - before.place
    if by:
        return moved(by, speech)
    old = {(stop.string, stop.finger): stop.semitones for stop in before.stops}
    changes = [
        changed(stop.finger, NUMERALS[stop.string], stop.semitones - there, speech)
        for stop in now.stops
        if (there := old.get((stop.string, stop.finger), stop.semitones)) != stop.semitones
    ]
    return speech.listed(changes) if changes else ""


def changed(finger: int, string: str, by: int, speech: Speech) -> str:
    """A finger that stands otherwise on a string."""
    named = finger_word(finger, speech)
    if by > 0:
        return speech.say("{finger} higher on {string}", finger=named, string=string)
    return speech.say("{finger} lower on {string}", finger=named, string=string)


def moved(by: int, speech: Speech) -> str:
    """How far the hand goes; half steps, upwards counted positive."""
    size = abs(by)
    if by > 0:
        return speech.count("hand {number} half step up", "hand {number} half steps up", size)
    return speech.count("hand {number} half step down", "hand {number} half steps down", size)


def unplayable(passage: Passage, speech: Speech) -> Iterator[str]:
    """What cannot be played, bar by bar."""
    if any(None in placed.stops for placed in passage.best.placed):
        yield speech.say("A note with a cross for its head cannot be played.")
    for bar, problem in passage.best.unplayable:
        yield at_bars(where_name([bar], speech), speech.line(problem), speech)


def left_out(passage: Passage, frames: int, speech: Speech) -> Iterator[str]:
    """What the pages leave out, and why.

    frames: how many have no chart.
    """
    if passage.easier:
        yield speech.count(
            "{number} easier spot is left out; <b>--spots {all}</b> prints it too.",
            "{number} easier spots are left out; <b>--spots {all}</b> prints them too.",
            passage.easier,
            all=len(passage.spots) + passage.easier,
        )
    if frames:
        yield speech.count(
            "{number} frame has no chart: it comes once or twice and in no hard spot.",
            "{number} frames have no chart: they come once or twice and in no hard spot.",
            frames,
        )
    if passage.spots and not any(ladder.letter for ladder in passage.ladders):
        yield speech.say(
            "The drills lead to the hard spots alone; <b>--all-hands</b> prints those for every"
            " frame."
        )
    if passage.plan is not None and passage.plan.player is None:
        yield speech.say("Drills have letters: no player's log keeps numbers for them.")


def at_bars(where: str, what: str, speech: Speech) -> str:
    """What is so in some bars; a passage without numbers has no where."""
    return speech.say("{where}: {what}", where=capital(where), what=what) if where else what


def key(speech: Speech) -> Mapping[str, str]:
    """What the signs of the pages mean, by their names."""
    return {
        "frame": speech.say("<b>A</b>: frame of the hand"),
        "thumb": thumb_key(speech),
        "arrow": speech.say("↑ ↓ finger higher, lower than before"),
        "changed": speech.say("ring in a frame: changed"),
        "spot": speech.say(
            "<i>{even}</i> evenly, <i>{rhythm}</i> in rhythm",
            even=speech.say_in("evenly", "e"),
            rhythm=speech.say_in("in rhythm", "r"),
        ),
    }


def subject(instrument: Instrument, speech: Speech) -> str:
    """What the file is, for catalogues."""
    return speech.say("Passage, {instrument}", instrument=instrument_name(instrument, speech))
