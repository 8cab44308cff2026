"""Where a drill's crossings were heard before, in other fingers or another place."""

from collections.abc import Sequence
from typing import Final

from bookgen.model.drill import Drill
from bookgen.model.event import Event
from bookgen.plan.link import Crossings, crossings, named, other_hand

REMEMBERED: Final = 100
"""Drills whose sound is recalled; a number from long ago helps nobody."""


class Echoes:
    """The drills met last, by how their crossings sound.

    heard: each drill with its sound, the last one last.
    """

    def __init__(self) -> None:
        self.known: dict[Crossings, dict[tuple[tuple[int, ...], int], Drill]] = {}
        self.heard: dict[Drill, Crossings] = {}

    def add(self, drill: Drill, events: Sequence[Event]) -> None:
        """Remember a drill by its notes; of the same fingers and place the last one counts."""
        sound = crossings(events)
        self.heard.pop(drill, None)
        self.heard[drill] = sound
        if len(self.heard) > REMEMBERED:
            self.forget(next(iter(self.heard)))
        if named(sound):
            alike = self.known.setdefault(sound, {})
            hand = (drill.frame.fingers, drill.place)
            alike.pop(hand, None)
            alike[hand] = drill

    def forget(self, drill: Drill) -> None:
        """Let go of what was heard long ago, if nothing has taken its place."""
        alike = self.known.get(self.heard.pop(drill), {})
        hand = (drill.frame.fingers, drill.place)
        if alike.get(hand) == drill:
            del alike[hand]

    def find(self, drill: Drill, now: Sequence[Event]) -> Drill | None:
        """The last drill that sounds the same in other fingers, else the last in another place.

        Both ways count: the same interval up, and the same one back.

        now: the drill's notes.
        """
        met = tuple(self.known.get(crossings(now), {}).values())[::-1]
        found = [other for other in met if other_hand(drill, other)]
        found.sort(key=lambda other: other.frame.fingers == drill.frame.fingers)
        return found[0] if found else None
