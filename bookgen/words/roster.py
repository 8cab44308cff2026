"""What the table of a roster says: who printed, who logged, what is secure, who stands still."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from itertools import groupby

from bookgen.plan.document import DrillEntry
from bookgen.plan.fared import LATELY, STILL_DAYS
from bookgen.words.coverage import last_played
from bookgen.words.drill import hand_name, way_name
from bookgen.words.names import place_short
from bookgen.words.shift import shift_short
from bookgen.words.speech import Speech
from bookgen.words.summary import hand


@dataclass(frozen=True, slots=True)
class Standing:
    """How a player stands on a day.

    lesson: the next one, where the roster says on which weekday it is; away: the last day of
        those on which the player is away now.
    secure, practised, new: moves of the player's area.
    printed_to: the last day with a printed page; logged: the last one with a result.
    gained: drills that became secure lately; still_since: since when none has, though the player
        has told of days enough.
    leads_to: what is next; None where no day to practise comes.
    """

    name: str
    day: Date
    lesson: Date | None
    away: Date | None
    secure: int
    practised: int
    new: int
    printed_to: Date | None
    logged: Date | None
    gained: int
    still_since: Date | None
    leads_to: DrillEntry | None

    @property
    def total(self) -> int:
        """All moves of the area."""
        return self.secure + self.practised + self.new

    @property
    def asks(self) -> tuple[bool, bool, bool]:
        """Whether printing, logging and progress ask for the teacher; who is away need not log."""
        here, still = self.away is None, self.still_since is not None
        return (here and self.long_ago(self.printed_to), here and self.long_ago(self.logged), still)

    def long_ago(self, date: Date | None) -> bool:
        """A day lies far back, or there never was one."""
        return date is None or date <= self.day - LATELY


def title(speech: Speech) -> str:
    """Over the table."""
    return speech.say("How everyone stands")


def meaning(speech: Speech) -> str:
    """Below that: what is counted, and what stands out."""
    return speech.say(
        "Bar: the moves of a player's area that are secure (black), practised but not yet secure"
        " (hatched), new (white). Newly secure: drills of the last {lately} days. <b>Bold</b> asks"
        " for you: nothing printed or nothing logged for {lately} days, or nothing newly secure on"
        " {still} days with results.",
        lately=LATELY.days,
        still=STILL_DAYS,
    )


def heads(speech: Speech) -> tuple[str, ...]:
    """Over the columns."""
    return (
        speech.say("player"),
        speech.say("moves secure"),
        speech.say("printed to"),
        speech.say("logged"),
        speech.say("newly secure"),
        speech.say("next"),
    )


def by_lesson(
    players: Sequence[Standing], speech: Speech
) -> Iterator[tuple[str, Sequence[Standing]]]:
    """The players under the day of their next lesson, as they stand; under nothing if none has one.

    players: in the order of their lessons.
    """
    told = any(player.lesson for player in players)
    for lesson, group in groupby(players, key=lambda player: player.lesson):
        yield lesson_head(lesson, speech) if told else "", tuple(group)


def lesson_head(lesson: Date | None, speech: Speech) -> str:
    """Over those who have a lesson on a day."""
    if lesson is None:
        return speech.say("No lesson day")
    return speech.say("Lesson: {date}", date=speech.skeleton(lesson, "MMMEd"))


def cells(standing: Standing, speech: Speech) -> tuple[str, ...]:
    """A player's row; the name as it is given."""
    return (
        standing.name,
        speech.say("{secure} of {total}", secure=standing.secure, total=standing.total),
        last_played(standing.printed_to, speech),
        last_played(standing.logged, speech),
        gained(standing, speech),
        following(standing, speech),
    )


def gained(standing: Standing, speech: Speech) -> str:
    """How many drills are newly secure, or since when none is."""
    if standing.still_since is None:
        return str(standing.gained)
    return speech.say("0 since {date}", date=speech.skeleton(standing.still_since, "MMMd"))


def following(standing: Standing, speech: Speech) -> str:
    """What is next, and until when the player is away; nothing where no day comes."""
    drill = "" if standing.leads_to is None else short_title(standing.leads_to, speech)
    if standing.away is None:
        return drill
    away = speech.say("away to {date}", date=speech.skeleton(standing.away, "MMMd"))
    return speech.say("{away}; {drill}", away=away, drill=drill) if drill else away


def short_title(entry: DrillEntry, speech: Speech) -> str:
    """A drill in few words."""
    drill, spacings = entry.drill, entry.drill.frame.spacings
    fingers = hand(entry.fingers, spacings, speech) if spacings else hand_name(drill, speech)
    place = place_short(entry.position, speech)
    if entry.to_position is not None and entry.to_position != entry.position:
        place = shift_short(entry.position, entry.to_position, speech)
    return speech.say(
        "{hand}, {position}, {stage}", hand=fingers, position=place, stage=way_name(drill, speech)
    )


def in_lines(standing: Standing, speech: Speech) -> tuple[str, ...]:
    """What the row says, where a table has no room: a line each."""
    _, moves, *asking, then = cells(standing, speech)
    printed, logged, newly = (
        f"<b>{cell}</b>" if asks else cell for cell, asks in zip(asking, standing.asks, strict=True)
    )
    lines = (
        speech.say("{moves} moves secure; newly secure: {drills}", moves=moves, drills=newly),
        speech.say("printed to: {printed}; logged: {logged}", printed=printed, logged=logged),
    )
    return (*lines, speech.say("next: {drill}", drill=then)) if then else lines
