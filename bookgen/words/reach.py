"""What of a player's area a booklet does not reach, in words."""

from collections.abc import Iterable

from bookgen.words.names import fingers_name, positions_name
from bookgen.words.speech import Speech


def places(cells: Iterable[tuple[str, tuple[int, ...]]], speech: Speech) -> str:
    """Positions with their fingers; positions with the same fingers stand together."""
    by_position: dict[str, list[str]] = {}
    for position, fingers in cells:
        by_position.setdefault(position, []).append(fingers_name(fingers))
    by_hands: dict[tuple[str, ...], list[str]] = {}
    for position, hands in by_position.items():
        by_hands.setdefault(tuple(sorted(hands)), []).append(position)
    return "; ".join(
        speech.say(
            "{fingers} in {positions}",
            fingers=speech.listed(hands),
            positions=positions_name(positions, speech),
        )
        for hands, positions in by_hands.items()
    )
