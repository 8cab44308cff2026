"""What of a player's area a booklet does not reach, in words."""

from collections.abc import Iterable, Iterator, Sequence

from bookgen.plan.ahead import Unreached
from bookgen.words.names import fingers_name, positions_name
from bookgen.words.speech import Speech


def not_reached(found: Sequence[Unreached], speech: Speech) -> Iterator[str]:
    """In a teacher's summary: what of the area does not come, and why."""
    later = [one for one in found if one.steps is not None]
    if later:
        yield speech.say(
            "<b>Not reached:</b> {places}. Each hand goes through its stages first; there it is"
            " {steps}. Plan on, or cover less.",
            places=places(later, speech),
            steps=steps_further(later, speech),
        )
    never = [one for one in found if one.steps is None]
    if never:
        yield speech.say(
            "<b>Not reached:</b> nothing leads to {places}; cover the positions between as well.",
            places=places(never, speech),
        )


def steps_further(found: Iterable[Unreached], speech: Speech) -> str:
    """How far the farthest place lies."""
    furthest = max(one.steps or 0 for one in found)
    return speech.count("{number} step further", "up to {number} steps further", furthest)


def places(found: Iterable[Unreached], speech: Speech) -> str:
    """Positions with their fingers; positions with the same fingers stand together."""
    by_position: dict[str, list[str]] = {}
    for one in found:
        by_position.setdefault(one.position, []).append(fingers_name(one.fingers, speech))
    by_hands: dict[tuple[str, ...], list[str]] = {}
    for position, hands in by_position.items():
        by_hands.setdefault(tuple(sorted(hands)), []).append(position)
    return speech.apart(
        speech.say(
            "{fingers} in {positions}",
            fingers=speech.listed(hands),
            positions=positions_name(positions, speech),
        )
        for hands, positions in by_hands.items()
    )
