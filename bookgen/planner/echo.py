"""Where a drill's crossings were heard before, in other fingers or another place."""

from collections.abc import Sequence
from dataclasses import dataclass

from bookgen.model.drill import Drill
from bookgen.model.event import Begins, Event

Crossings = tuple[frozenset[str], frozenset[str]]
"""The intervals at the crossings of the way up, and of the way back."""


@dataclass(frozen=True, slots=True)
class Echo:
    """A drill that sounded the same before.

    number: as printed.
    position: the trade's label of its place.
    """

    number: int
    drill: Drill
    position: str


class Echoes:
    """The drills met so far, by how their crossings sound."""

    def __init__(self) -> None:
        self.known: dict[Crossings, dict[tuple[tuple[int, ...], int], Echo]] = {}

    def add(self, echo: Echo, events: Sequence[Event]) -> None:
        """Remember a drill by its notes; of the same fingers and place the last one counts."""
        sound = crossings(events)
        if named(sound):
            alike = self.known.setdefault(sound, {})
            hand = (echo.drill.frame.fingers, echo.drill.place)
            alike.pop(hand, None)
            alike[hand] = echo

    def find(self, drill: Drill, now: Sequence[Event]) -> Echo | None:
        """The last drill that sounds the same in other fingers, else the last in another place.

        Both ways count: the same interval up, and the same one back.

        now: the drill's notes.
        """
        met = tuple(self.known.get(crossings(now), {}).values())[::-1]
        others = [echo for echo in met if echo.drill.frame.fingers != drill.frame.fingers]
        others += [echo for echo in met if echo.drill.place != drill.place]
        return others[0] if others else None


def crossings(events: Sequence[Event]) -> Crossings:
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


def named(sound: Crossings) -> bool:
    """Whether one interval names all crossings of each way."""
    return all(len(way) == 1 for way in sound)
