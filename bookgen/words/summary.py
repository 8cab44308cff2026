"""What a teacher's summary says of a booklet."""

from collections.abc import Mapping, Sequence
from datetime import date as Date  # noqa: N812

from bookgen.model.spacing import Spacing
from bookgen.plan.ahead import Further
from bookgen.plan.document import Coverage, Role
from bookgen.words.ahead import could_come
from bookgen.words.days import interval
from bookgen.words.names import fingers_name, positions_name, spacing_name
from bookgen.words.speech import Speech


def summary_title(speech: Speech) -> str:
    """The page by its name."""
    return speech.say("Summary for the teacher")


def planned(drills: int, items: int, roles: Mapping[Role, int], speech: Speech) -> str:
    """How much was planned.

    drills: different ones; items: how often one of them is played; roles: how often in each.
    """
    counted = [role_count(role, number, speech) for role, number in roles.items()]
    return speech.say(
        "<b>Planned:</b> {drills} in {items}: {roles}.",
        drills=speech.count("{number} drill", "{number} drills", drills),
        items=speech.count("{number} item", "{number} items", items),
        roles=", ".join(counted),
    )


def role_count(role: Role, number: int, speech: Speech) -> str:
    """How many items have a role."""
    counted = {
        Role.START: speech.say("{number} to start a day", number=number),
        Role.NEW: speech.say("{number} new", number=number),
        Role.OTHER_WAY: speech.say("{number} new, of known moves", number=number),
        Role.AGAIN: speech.say("{number} once more", number=number),
        Role.STEP_BACK: speech.say("{number} one step easier", number=number),
        Role.COLD: speech.say("{number} cold", number=number),
        Role.PASSAGE: speech.say("{number} towards a piece", number=number),
    }
    return counted[role]


def hands(named: Sequence[str], positions: Sequence[str], speech: Speech) -> str:
    """Hands and positions that come."""
    return speech.say(
        "<b>Hands:</b> {hands}; in {positions}.",
        hands=speech.apart(named),
        positions=positions_name(positions, speech),
    )


def hand(fingers: Sequence[int], spacings: Sequence[Spacing], speech: Speech) -> str:
    """A pair or a frame, as short as it is clear.

    >>> from bookgen.words.speech import ENGLISH
    >>> hand((1, 2), (Spacing.WHOLE,), ENGLISH) == "1\N{EN DASH}2 whole"
    True
    """
    steps = ", ".join(spacing_name(spacing, speech) for spacing in spacings)
    return speech.say("{fingers} {steps}", fingers=fingers_name(fingers, speech), steps=steps)


def by_hand_head(speech: Speech) -> str:
    """Over the drills by hand."""
    return speech.say("Drills by hand and position")


def hand_drills(named: str, places: Sequence[str], speech: Speech) -> str:
    """A hand with its positions, each with its drills."""
    return speech.say("<b>{hand}</b> {places}", hand=named, places=speech.apart(places))


def moves(coverage: Coverage, speech: Speech) -> str:
    """What was secure before, and what will be."""
    total = coverage.secure + coverage.practised + coverage.new
    return speech.say(
        "<b>Moves:</b> {secure} of {total} were secure before; when all of this is secure, {aimed}"
        " will be.",
        secure=coverage.secure,
        total=total,
        aimed=coverage.aimed,
    )


def following(coverage: Coverage, further: Further | None, speech: Speech) -> str:
    """What comes after the booklet.

    further: what could be added where nothing of the area was left before.
    """
    more = could_come(further, speech) if further else ""
    if further and further.secure and more:
        return speech.say("<b>Next:</b> all of the area is secure; {more} could come.", more=more)
    if further and more:
        return speech.say(
            "<b>Next:</b> all of the area has been met, not all of it is secure; {more} could"
            " come.",
            more=more,
        )
    left = coverage.secure + coverage.practised + coverage.new - coverage.aimed
    if not left:
        return speech.say("<b>Next:</b> every move of the area has been met; widen the area.")
    return speech.count(
        "<b>Next:</b> {number} move is left for later.",
        "<b>Next:</b> {number} moves are left for later.",
        left,
    )


def week(first: Date, last: Date, speech: Speech) -> str:
    """The days of a week."""
    return interval(first, last, "MMMd", speech)


def week_head(speech: Speech) -> str:
    """Over the weeks."""
    return speech.say("week")


def minutes_head(speech: Speech) -> str:
    """Over the minutes of each week."""
    return speech.say("minutes")


def new_head(speech: Speech) -> str:
    """Over the numbers of what is new."""
    return speech.say("new, and new of known moves")


def cold_head(speech: Speech) -> str:
    """Over the numbers of the cold tests, each with a box."""
    return speech.say("cold: tick what was secure at the first try")


def to_write(speech: Speech) -> str:
    """Over ruled lines."""
    return speech.say("Went well · to do next")
