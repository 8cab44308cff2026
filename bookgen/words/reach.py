"""What of a player's area a booklet does not reach, in words."""

from collections.abc import Iterable

from bookgen.words.names import fingers_name, positions_name
from bookgen.words.speech import Speech


def steps_further(steps: int, speech: Speech) -> str:
    """How far the farthest place lies.

    >>> from bookgen.words.speech import ENGLISH
    >>> steps_further(1, ENGLISH), steps_further(4, ENGLISH)
    ('1 step further', 'up to 4 steps further')
    """
    return speech.count("{number} step further", "up to {number} steps further", steps)


def places(cells: Iterable[tuple[str, tuple[int, ...]]], speech: Speech) -> str:
    """Positions with their fingers; positions with the same fingers stand together."""
    by_position: dict[str, list[str]] = {}
    for position, fingers in cells:
        by_position.setdefault(position, []).append(fingers_name(fingers, speech))
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
