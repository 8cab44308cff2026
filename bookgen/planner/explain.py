"""The link between two drills in plain words, as it stands on the page."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from typing import Final

from bookgen.model.dimension import Dimension
from bookgen.model.drill import CROSS_ON_EVERY_NOTE, Drill
from bookgen.model.event import Event
from bookgen.model.instrument import NUMERALS
from bookgen.model.interval import interval_words
from bookgen.model.route import Return
from bookgen.planner.echo import Crossings, Echo, crossings, named

START: Final = "Start here: find the place, and hear each note before the next finger."

NEW_STAGE: Final = {
    1: "all fingers before you cross",
    2: "cross on the second note",
    3: "cross on every note",
    4: "each note sounds on into the next",
    5: "two strings sound together",
}

STEPS: Final = {1: "a half step", 2: "a whole step", 12: "an octave"}

OTHER_HAND: Final = frozenset({Dimension.PAIR, Dimension.PLACE, Dimension.OCTAVE})
"""Changes after which the drill before was in other fingers or another place."""

MONTHS: Final = (
    *("", "Jan", "Feb", "Mar", "Apr", "May", "June"),
    *("July", "Aug", "Sept", "Oct", "Nov", "Dec"),
)

Played = tuple[Drill, Sequence[Event]]
"""A drill and its notes."""


@dataclass(frozen=True, slots=True)
class Mention:
    """A drill on the page of another day: its number, and the day."""

    number: int
    date: Date


def link_text(
    at: int | Mention | None,
    before: Played,
    after: Played,
    *,
    echo: Echo | None = None,
    known: bool = False,
) -> str:
    """Say what stays as in the drill before, the one thing that is new, and what to hear.

    at: where the drill before stands: its number on the same sheet, number and day on another,
        or None where it never stood on a page.
    known: the player has met the drill: nothing in it is new, but this is other here.
    echo: where the crossings sounded the same in other fingers or another place; left out
        where the drill before is such a place itself.

    Raises:
        ValueError: the two differ in no dimension, or in more than one.
    """
    (one, heard), (other, now) = before, after
    changes = one.changes_to(other)
    if len(changes) != 1:
        msg = f"{one.key} and {other.key} differ in {len(changes)} dimensions, not in one"
        raise ValueError(msg)
    stays, new = kept(one, other, changes[0]), change(one, other, changes[0])
    told = None if changes[0] in OTHER_HAND and crossings(heard) == crossings(now) else echo
    ear = sound(crossings(heard), crossings(now), other, told)
    return f"{mention(at)}: {stays}. {'Here' if known else 'New'}: {new}.{ear}"


def again_text(before: Mention) -> str:
    """How the line of a drill begins that the player has met under another number.

    >>> again_text(Mention(12, Date(2026, 12, 1)))
    'No. 12 of 1 Dec again. '
    """
    return f"{numbered(before)} again. "


def numbered(at: Mention) -> str:
    """The number of a drill on another day's page."""
    return f"No. {at.number} of {at.date.day} {MONTHS[at.date.month]}"


def mention(at: int | Mention | None) -> str:
    """How the line begins: which drill it hangs on."""
    match at:
        case None:
            return "As you know it"
        case int():
            return f"As No. {at}"
        case Mention():
            return f"As {numbered(at)}"


def kept(before: Drill, after: Drill, dimension: Dimension) -> str:
    """What the hand keeps."""
    match dimension:
        case Dimension.PAIR if before.place == after.place:
            return f"same {spacing_words(before)}, same notes"
        case Dimension.PAIR:
            shared = set(before.frame.fingers) & set(after.frame.fingers)
            stays = min(f for f in shared if before.height(f) == after.height(f))
            return f"same {spacing_words(before)}, finger {stays} stays where it is"
        case Dimension.PLACE | Dimension.OCTAVE:
            return f"same fingers, same {spacing_words(before)}"
        case _:
            return "same fingers, same place"


def change(before: Drill, after: Drill, dimension: Dimension) -> str:
    """The one new thing."""
    match dimension:
        case Dimension.SPACING:
            return spacing_change(before, after)
        case Dimension.PAIR if before.place != after.place:
            return f"fingers {fingers_words(after)}, the hand stays"
        case Dimension.PAIR:
            up = after.frame.fingers[0] < before.frame.fingers[0]
            return f"fingers {fingers_words(after)}, the hand moves {'up' if up else 'down'}"
        case Dimension.PLACE | Dimension.OCTAVE:
            return f"the hand goes {distance_words(after.place - before.place)}"
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
    return f"coming back, finger {drill.order[0]} leads again"


def sound(before: Crossings, after: Crossings, drill: Drill, echo: Echo | None) -> str:
    """What the ear meets again or anew at the crossings; empty where there is nothing to say."""
    if not named(after):
        return partly_new(before, after)
    how = "The same" if before == after else "Hear"
    if echo is not None:
        return f" {how} {ways(after)}, as in No. {echo.number} {where(echo, drill)}."
    if before == after or after[0] == after[1]:
        return f" {how} {ways(after)}."
    return partly_new(before, after)


def partly_new(before: Crossings, after: Crossings) -> str:
    """What the ear meets where not every crossing has one name, or only one way is new."""
    if before == after:
        return " The crossings sound the same."
    names = [
        f"{plural(there)} {way}"
        for way, here, there in zip(("up", "back"), before, after, strict=True)
        if here != there and len(there) == 1
    ]
    return f" Hear {', '.join(names)}." if names else ""


def where(echo: Echo, drill: Drill) -> str:
    """What was other in the drill that sounded the same: the fingers, else the place."""
    if echo.drill.frame.fingers != drill.frame.fingers:
        return f"with fingers {fingers_words(echo.drill)}"
    return f"in {echo.position} position"


def ways(found: Crossings) -> str:
    """The one interval of each way: perfect fourths up, major sixths back."""
    up, back = found
    if up == back:
        return f"{plural(up)} up and back"
    return f"{plural(up)} up, {plural(back)} back"


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
    return f"a {spacing_words(after)}, finger {finger} moves {direction}"
