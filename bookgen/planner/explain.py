"""The link between two drills in plain words, as it stands on the page."""

from collections.abc import Sequence
from typing import Final

from bookgen.model.dimension import Dimension
from bookgen.model.drill import CROSS_ON_EVERY_NOTE, Drill
from bookgen.model.event import Begins, Event
from bookgen.model.instrument import NUMERALS
from bookgen.model.interval import interval_words
from bookgen.model.route import Return

START: Final = "Start here: find the place, and hear each note before the next finger."

NEW_STAGE: Final = {
    1: "both fingers play on a string before you cross",
    2: "you cross to the next string on the second note",
    3: "you cross with every note",
    4: "each note keeps sounding while the next one joins it",
    5: "two strings sound together",
}

STEPS: Final = {1: "a half step", 2: "a whole step", 12: "an octave"}


def link_text(
    number: int, before: Drill, after: Drill, heard: Sequence[Event], now: Sequence[Event]
) -> str:
    """Say what stays as in the drill with that number, and the one thing that is new.

    heard, now: the notes of the drill before and of the drill after.

    Raises:
        ValueError: the two differ in no dimension, or in more than one.
    """
    changes = before.changes_to(after)
    if len(changes) != 1:
        msg = f"{before.key} and {after.key} differ in {len(changes)} dimensions, not in one"
        raise ValueError(msg)
    stays, new = kept(before, changes[0]), change(before, after, changes[0])
    return f"As No. {number}: {stays}. New: {new}.{sound(heard, now)}"


def kept(drill: Drill, dimension: Dimension) -> str:
    """What the hand keeps."""
    match dimension:
        case Dimension.SPACING:
            return "same fingers, same place"
        case Dimension.PAIR:
            return f"same {spacing_words(drill)}, same notes"
        case Dimension.PLACE | Dimension.OCTAVE:
            return f"same fingers, same {spacing_words(drill)}"
        case _:
            return "same fingers, same place"


def change(before: Drill, after: Drill, dimension: Dimension) -> str:
    """The one new thing."""
    match dimension:
        case Dimension.SPACING:
            return spacing_change(before, after)
        case Dimension.PAIR:
            up = after.frame.fingers[0] < before.frame.fingers[0]
            hand = f"so the hand moves {'up' if up else 'down'}"
            return f"fingers {fingers_words(after)} play them, {hand}"
        case Dimension.PLACE | Dimension.OCTAVE:
            return f"the whole hand goes {distance_words(after.place - before.place)}"
        case _:
            return route_change(before, after, dimension)


def route_change(before: Drill, after: Drill, dimension: Dimension) -> str:
    """The one new thing where the hand stays as it is."""
    match dimension:
        case Dimension.STAGE:
            return NEW_STAGE[after.stage]
        case Dimension.LEAD:
            return f"finger {after.order[0]} begins"
        case Dimension.RETURN:
            return return_words(after)
        case _:
            only = "only " if len(after.strings) < len(before.strings) else ""
            low, high = NUMERALS[after.strings[0]], NUMERALS[after.strings[-1]]
            return f"{only}strings {low} to {high}"


def distance_words(semitones: int) -> str:
    """How far the hand goes, and which way."""
    far = STEPS.get(abs(semitones), f"{abs(semitones)} half steps")
    return f"{far} {'higher' if semitones > 0 else 'lower'}"


def return_words(drill: Drill) -> str:
    """How the way back runs."""
    if drill.back is Return.MIRROR:
        return "the way back is the way up backwards"
    if drill.stage >= CROSS_ON_EVERY_NOTE:
        return f"the way back starts with finger {drill.order[0]}"
    return f"on the way back finger {drill.order[0]} begins again on every string"


def sound(heard: Sequence[Event], now: Sequence[Event]) -> str:
    """What the ear meets again or anew at the crossings; empty where there is nothing to say."""
    before, after = crossings(heard), crossings(now)
    if before == after:
        return " The crossings sound the same."
    if len(set(after)) == 1 and len(after[0]) == 1:
        return f" Hear {plural(after[0])}, up and back."
    names = [
        f"{plural(there)} {way}"
        for way, here, there in zip(("going up", "coming back"), before, after, strict=True)
        if here != there and len(there) == 1
    ]
    return f" Hear {' and '.join(names)}." if names else ""


def crossings(events: Sequence[Event]) -> tuple[frozenset[str], frozenset[str]]:
    """The intervals at the crossings of the way up and of the way back."""
    turn = next(index for index, event in enumerate(events) if event.begins is Begins.TURN)
    up, back = (
        frozenset(
            event.from_previous
            for event in part
            if event.crosses and event.from_previous is not None
        )
        for part in (events[:turn], events[turn:])
    )
    return up, back


def plural(labels: frozenset[str]) -> str:
    """One interval's name for many crossings: perfect fourths."""
    (label,) = labels
    return f"{interval_words(label)}s"


def spacing_words(drill: Drill) -> str:
    """The spacings of the frame: whole step, or whole-half-whole frame."""
    words = [spacing.word for spacing in drill.frame.spacings]
    return f"{words[0]} step" if len(words) == 1 else f"{'-'.join(words)} frame"


def fingers_words(drill: Drill) -> str:
    """The fingers in a sentence: 1 and 2; 1, 2 and 3."""
    *rest, last = (str(finger) for finger in drill.frame.fingers)
    return f"{', '.join(rest)} and {last}"


def spacing_change(before: Drill, after: Drill) -> str:
    """Which finger moves, and which way; the lowest finger stays where it is."""
    finger = next(
        finger
        for finger in before.frame.fingers
        if before.frame.offset(finger) != after.frame.offset(finger)
    )
    wider = after.frame.offset(finger) > before.frame.offset(finger)
    direction = "away" if wider else "closer"
    return f"a {spacing_words(after)} instead; finger {finger} moves {direction}"
