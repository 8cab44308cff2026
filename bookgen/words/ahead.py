"""What lies ahead, in words: bars of a piece and their day, and what comes after the area."""

from bookgen.errors import Message, told
from bookgen.plan.ahead import Deadline, Further
from bookgen.words.drill import stage_name
from bookgen.words.names import fingers_name, position_name
from bookgen.words.passage import where_name
from bookgen.words.speech import Speech


def reached(deadline: Deadline, day: object) -> Message:
    """How many drills of a passage have room by its day, and what all would take.

    day: its day as it is to be shown.
    """
    facts = {
        "title": deadline.title,
        "date": day,
        "total": deadline.drills,
        "placed": deadline.placed,
    }
    if deadline.placed == deadline.drills:
        return told("{title}: all {total} drills have room by {date}", **facts)
    if deadline.minutes is None:
        return told(
            "{title}: {placed} of {total} drills have room by {date}; begin sooner, or choose fewer"
            " bars",
            **facts,
        )
    return told(
        "{title}: {placed} of {total} drills have room by {date}; all would take about {minutes}"
        " minutes a day",
        **facts,
        minutes=deadline.minutes,
    )


def piece_name(deadline: Deadline, title: str, speech: Speech) -> str:
    """The piece, and which of its bars.

    title: as it can be printed.
    """
    return " · ".join(filter(None, (title, where_name(deadline.bars or (), speech))))


def play_the_bars(deadline: Deadline, title: str, speech: Speech) -> str:
    """In a plan of days, on the last days before a passage is to be ready."""
    piece, day = piece_name(deadline, title, speech), speech.skeleton(deadline.ready_by, "MMMEd")
    return speech.say("Now the bars themselves: {piece}, ready by {day}", piece=piece, day=day)


def play_the_bars_today(deadline: Deadline, title: str, speech: Speech) -> str:
    """Over the drills of one of these days."""
    piece, day = piece_name(deadline, title, speech), speech.date(deadline.ready_by)
    return speech.say(
        "<b>Now the bars themselves</b>: {piece}, ready by {day}.", piece=piece, day=day
    )


def how_to_play_the_bars(deadline: Deadline, speech: Speech) -> str:
    """Over the bars themselves: their day, and how they are played."""
    return speech.say(
        "Ready by {day}. Frame by frame first, slowly; then from each frame into the next; in the"
        " end as it is written.",
        day=speech.date(deadline.ready_by),
    )


def area_through(further: Further, speech: Speech) -> str:
    """Where nothing of a player's area is left: that it is so, and what could be added."""
    more = could_come(further, speech)
    if not further.secure and more:
        return speech.say(
            "<b>You have met all of your area</b>; not all of it is secure yet. Next could come:"
            " {more}.",
            more=more,
        )
    if not further.secure:
        return speech.say("<b>You have met all of your area</b>; not all of it is secure yet.")
    if not more:
        return speech.say("<b>All of your area is secure.</b>")
    return speech.say("<b>All of your area is secure.</b> Next could come: {more}.", more=more)


def could_come(further: Further, speech: Speech) -> str:
    """What could be added to an area; nothing where nothing is left."""
    if further.stage is not None:
        return stage_name(further.stage, speech)
    if further.fingers is not None:
        return fingers_name(further.fingers, speech)
    return "" if further.position is None else position_name(further.position, speech)
