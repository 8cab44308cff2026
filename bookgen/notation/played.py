"""Drills as they are played one after the other: what a file tells that sounds or can be edited."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from bookgen.model.event import Event

BEATS_A_MINUTE: Final = 60
"""Quarter notes; slow enough to listen."""

TEMPI: Final = range(20, 301)
"""Quarter notes a minute that can be asked for (own choice)."""


@dataclass(frozen=True, slots=True)
class Played:
    """A drill with its title in words, e.g. "12 · 1 and 2, whole step, 1st position".

    events: its notes, on the way up and on the way back.
    """

    title: str
    events: Sequence[Event]


@dataclass(frozen=True, slots=True)
class Recital:
    """Drills in the order in which they are played.

    title: of all of them, e.g. "Ines · Tuesday, 1 December 2026".
    quarters_a_minute: how fast.
    """

    title: str
    drills: Sequence[Played]
    quarters_a_minute: int = BEATS_A_MINUTE
