"""What the pages of coverage say: which moves are secure, practised, new."""

from datetime import date as Date  # noqa: N812

from bookgen.words.speech import Speech


def last_played(last: Date | None, speech: Speech) -> str:
    """When a player last played something."""
    if last is None:
        return speech.say("never")
    return speech.skeleton(last, "MMMd")


def in_a_line(secure: int, practised: int, new: int, last: Date | None, speech: Speech) -> str:
    """How moves stand, where a table has no room."""
    facts = {"secure": secure, "practised": practised, "new": new}
    if last is None:
        return speech.say(
            "{secure} secure, {practised} practised, {new} new; never played", **facts
        )
    return speech.say(
        "{secure} secure, {practised} practised, {new} new; last played {date}",
        date=last_played(last, speech),
        **facts,
    )


def on_day(day: Date, speech: Speech) -> str:
    """In the head of the page."""
    return speech.say("Coverage on {date}", date=speech.skeleton(day, "yMMMd"))


def whose(player: str | None, plays: str) -> str:
    """Over the page of one player.

    plays: instrument and size.
    """
    return f"{player} · {plays}" if player else plays


def known(secure: int, practised: int, new: int, speech: Speech) -> str:
    """Over the map of one player: how much of the area is secure."""
    return speech.say(
        "A <b>move</b> is one finger after another, or two together. Of {total} moves <b>{secure}"
        " are secure</b>, {practised} practised but not yet secure, {new} not met. Each gauge"
        " stands for the moves that begin or end at its place.",
        total=secure + practised + new,
        secure=secure,
        practised=practised,
        new=new,
    )


def gauges(speech: Speech) -> tuple[str, str, str]:
    """What the black, the hatched and the white part of a gauge mean."""
    return speech.say("secure"), speech.say("practised"), speech.say("new")


def cell_heads(speech: Speech) -> tuple[str, ...]:
    """Over the columns of the table of one player."""
    return (
        speech.say("position"),
        speech.say("fingers"),
        speech.say("secure"),
        speech.say("practised"),
        speech.say("new"),
        speech.say("last played"),
    )


def subject(speech: Speech) -> str:
    """What the file is, for catalogues."""
    return speech.say("Coverage of a studio")
