"""Why a spot of a passage is hard, in nine words at most, and what leads to it."""

from collections.abc import Iterator, Sequence
from typing import Final

from bookgen.model.instrument import NUMERALS
from bookgen.model.interval import Interval
from bookgen.model.position import THUMB_POSITION
from bookgen.model.stop import Note
from bookgen.plan.passage import Group, Ladder, Passage, Spot
from bookgen.plan.passage_facts import Change, bars_of, changes_of, notes_at
from bookgen.words.names import (
    finger_name,
    finger_word,
    fingers_name,
    interval_label,
    position_short,
)
from bookgen.words.passage import where_name
from bookgen.words.speech import Speech

WORTH: Final = 0.25
"""A part is told from this part of the largest on; own choice."""

MOST_REASONS, MOST_WORDS, MOST_ALSO = 3, 9, 3
"""Parts of a reason, its words, and other bars that are named; own choice."""

PAIR: Final = 2


def reasons(spot: Spot, passage: Passage, speech: Speech) -> list[str]:
    """What makes a spot hard, the longest way to say it first; each has nine words at most."""
    most = max(spot.parts.values())
    ranked = sorted(spot.parts, key=lambda part: -spot.parts[part])
    told = [part for part in ranked if spot.parts[part] >= WORTH * most]
    words = list(filter(None, (reason(part, spot, passage, speech) for part in told)))
    if not words:
        return [speech.say("quick")]
    found = [speech.apart(words[:count]) for count in range(min(len(words), 3), 0, -1)]
    short = [text for text in found if len(text.split()) <= MOST_WORDS]
    return short or found[-1:]


def reason(part: str, spot: Spot, passage: Passage, speech: Speech) -> str:
    """One part of what is hard; empty where it is not worth a word."""
    best, phrase, peak = passage.best, passage.heard, spot.peak
    here = notes_at(best.placed[peak], phrase)
    before = notes_at(best.placed[peak - 1], phrase) if peak else ()
    found = ""
    match part:
        case "together":
            found = together(here, speech)
        case "cross" if before and here:
            found = crossing(before[-1], here[-1], speech)
        case "pair" if len(before) == len(here) == 1:
            found = in_turn(before[0], here[0], speech)
        case "change":
            found = change(changes_of(best)[peak], passage, spot, speech)
        case "shift" | "hop" | "stretch" | "high":
            found = of_hand(part, spot, passage, speech)
        case _:
            pass
    return found


def of_hand(part: str, spot: Spot, passage: Passage, speech: Speech) -> str:
    """What the hand does: it shifts, takes one finger twice, opens, or lies high."""
    best, phrase, peak = passage.best, passage.heard, spot.peak
    match part:
        case "shift":
            return shift(passage, peak, speech)
        case "stretch":
            return speech.say("stretch")
        case "high":
            return speech.say("high up")
        case _:
            before = notes_at(best.placed[peak - 1], phrase) if peak else ()
            return hop(before, notes_at(best.placed[peak], phrase), speech)


def together(notes: Sequence[Note], speech: Speech) -> str:
    """Strings that sound together."""
    rising = sorted(notes, key=lambda note: -note.stop.string)
    fingers = fingers_name((note.stop.finger for note in rising), speech)
    if len(rising) > PAIR:
        return speech.say("chord, fingers {fingers}", fingers=fingers)
    label = label_of(rising[0], rising[-1], speech)
    return speech.say("{interval} together, fingers {fingers}", interval=label, fingers=fingers)


def label_of(one: Note, other: Note, speech: Speech) -> str:
    """The mark of an interval; empty where it has no name."""
    interval = Interval.between(one.pitch, other.pitch)
    return interval_label(interval.label, speech) if interval.plain else ""


def crossing(one: Note, other: Note, speech: Speech) -> str:
    """From string to string."""
    facts = {
        "first": NUMERALS[one.stop.string],
        "then": NUMERALS[other.stop.string],
        "one": finger_word(one.stop.finger, speech),
        "other": finger_word(other.stop.finger, speech),
        "interval": label_of(one, other, speech),
    }
    if abs(one.stop.string - other.stop.string) > 1:
        return speech.say("skip from {first} to {then}, {one} to {other}", **facts)
    if not facts["interval"]:
        return speech.say("cross {first} to {then}, {one} to {other}", **facts)
    return speech.say("cross {first} to {then}, {one} to {other} ({interval})", **facts)


def in_turn(one: Note, other: Note, speech: Speech) -> str:
    """Two fingers one after the other."""
    label = label_of(one, other, speech)
    fingers = one.stop.finger, other.stop.finger
    if not label or not all(fingers) or fingers[0] == fingers[1]:
        return ""
    return speech.say(
        "{one} to {other} ({interval})",
        one=finger_word(fingers[0], speech),
        other=finger_word(fingers[1], speech),
        interval=label,
    )


def change(changes: Sequence[Change], passage: Passage, spot: Spot, speech: Speech) -> str:
    """Fingers that go low or high; what the one finger was a moment ago is told in the same bar."""
    named = [high_or_low(one, speech) for one in changes]
    if len(changes) > 1:
        return speech.listed(named)
    (one,) = changes
    placed = passage.best.placed
    if placed[one.since].bar != placed[spot.peak].bar:
        string = NUMERALS[one.now.string]
        return speech.say("{finger} on {string}", finger=named[0], string=string)
    was = speech.say("low") if one.by > 0 else speech.say("high")
    if one.same_string:
        return speech.say("{finger}, just {before}", finger=named[0], before=was)
    return speech.say(
        "{finger} on {string}, just {before} on {other}",
        finger=named[0],
        string=NUMERALS[one.now.string],
        before=was,
        other=NUMERALS[one.before.string],
    )


def high_or_low(one: Change, speech: Speech) -> str:
    """A finger that stands higher or lower than before."""
    if one.by > 0:
        return speech.say("{finger} high", finger=finger_word(one.now.finger, speech))
    return speech.say("{finger} low", finger=finger_word(one.now.finger, speech))


def shift(passage: Passage, peak: int, speech: Speech) -> str:
    """Where the hand goes; or that it is laid anew in its place."""
    group = group_at(passage, peak)
    before = group_at(passage, max(0, peak - 1))
    if group.place == before.place:
        return speech.say("hand laid anew")
    if group.position == THUMB_POSITION:
        return speech.say("shift to thumb position")
    return speech.say("shift to {position}", position=position_short(group.position, speech))


def hop(before: Sequence[Note], here: Sequence[Note], speech: Speech) -> str:
    """One finger twice running."""
    old = {note.stop.finger: note.stop for note in before if note.stop.finger}
    same = [note.stop for note in here if note.stop.finger in old]
    if not same:
        return ""
    stop = same[-1]
    finger = finger_name(stop.finger, speech)
    if old[stop.finger].string == stop.string:
        return speech.say("{finger} slides", finger=finger)
    if old[stop.finger].semitones == stop.semitones:
        return speech.say("{finger} over two strings", finger=finger)
    return speech.say("{finger} hops", finger=finger)


def group_at(passage: Passage, index: int) -> Group:
    """The group of a sound."""
    return next(one for one in passage.best.groups if one.first <= index <= one.last)


def where(spot: Spot, passage: Passage, speech: Speech) -> Iterator[str]:
    """Below the reason, the longest first: its bars, where it comes again, its frames."""
    best, phrase = passage.best, passage.phrase
    own = where_name(bars_of(spot.first, spot.last, best, phrase), speech)
    again = [phrase.bars[best.placed[index].bar].number for index in spot.others]
    first, last = group_at(passage, spot.first).letter, group_at(passage, spot.last).letter
    frames = (
        speech.say("frame {letter}", letter=first)
        if first == last
        else speech.say("frame {first} to {last}", first=first, last=last)
    )
    others = [bar for bar in dict.fromkeys(again) if bar]
    for count in range(min(len(others), MOST_ALSO), -1, -1):
        more = " …" if count < len(others) else ""
        also = speech.say("also {bars}", bars=", ".join(others[:count]) + more) if count else ""
        yield " · ".join(filter(None, (own, also, frames)))


def first_drills(ladder: Ladder, labels: Sequence[str], speech: Speech) -> Iterator[str]:
    """Which drills come first, and whether something is not met by them, the longest way first.

    labels: of the ladder's drills.
    """
    numbers = ", ".join(labels)
    if not labels:
        yield speech.say("all secure") if ladder.meets_all else speech.say("no drill has it yet")
        return
    if not ladder.meets_all:
        yield speech.say("first {drills}, not all met", drills=numbers)
    yield speech.say("first {drills}", drills=numbers)


def box_letters(speech: Speech) -> tuple[str, str]:
    """Beside a spot's two boxes."""
    return speech.say_in("evenly", "e"), speech.say_in("in rhythm", "r")
