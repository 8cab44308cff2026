"""Which moves of the player's area are new, practised or secure, and when each was last played.

A move is secure while the last result of at least one drill that holds it is secure; it is
practised when drills that hold it have results, and none of them is secure now. So a harder
drill that is not yet secure takes nothing from the moves of an easier one that is, and a drill
that slips back to not yet takes its moves along unless another drill keeps them.
"""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from functools import lru_cache

from bookgen.model.drill import CROSS_ON_EVERY_NOTE, Drill
from bookgen.model.instrument import Instrument
from bookgen.model.move import Move, moves_of
from bookgen.model.place import place_label
from bookgen.plan.record import Met, Record, Result, Standing
from bookgen.planner.area import Area
from bookgen.planner.difficulty import hand_place
from bookgen.planner.pool import pool

AREAS = 16
"""Areas that are remembered: a roster has few, and walking a wide one takes half a second."""


@dataclass(frozen=True, slots=True)
class Cell:
    """Where on the map a move counts: the position of the hand, and its fingers."""

    position: str
    fingers: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Count:
    """How many moves stand how."""

    new: int = 0
    practised: int = 0
    secure: int = 0

    @property
    def total(self) -> int:
        """All moves."""
        return self.new + self.practised + self.secure

    def __add__(self, other: "Count") -> "Count":
        """Both together."""
        return Count(
            self.new + other.new, self.practised + other.practised, self.secure + other.secure
        )

    @classmethod
    def of(cls, standings: Iterable[Standing]) -> "Count":
        """Count how often each standing comes."""
        found = Counter(standings)
        return cls(found[Standing.NEW], found[Standing.PRACTISED], found[Standing.SECURE])


def coverage(
    records: Iterable[Record], secure: Iterable[Drill] = (), until: Date = Date.max
) -> dict[Move, Met]:
    """How every move stands that was ever played; a move that is not there is new.

    secure: drills that count as secure from the beginning; a result of theirs overrules that.
    until: the last day whose results count.
    """
    drills = {drill: Met(Standing.SECURE, None) for drill in secure}
    for record in records:
        for played in record.results:
            if played.date <= until:
                good = played.result is Result.SECURE
                standing = Standing.SECURE if good else Standing.PRACTISED
                drills[record.drill] = Met(standing, played.date)
    met: dict[Move, Met] = {}
    for drill, here in drills.items():
        for move in moves_of(drill):
            met[move] = joined(met[move], here) if move in met else here
    return met


def joined(one: Met, other: Met) -> Met:
    """One move in two drills: the better standing, and the later day."""
    secure = Standing.SECURE in {one.standing, other.standing}
    days = [met.last for met in (one, other) if met.last is not None]
    return Met(Standing.SECURE if secure else Standing.PRACTISED, max(days, default=None))


def area_moves(instrument: Instrument, area: Area) -> frozenset[Move]:
    """Every move that the drills of an area hold."""
    return frozenset(cells(instrument, area))


def counts(instrument: Instrument, area: Area, met: Mapping[Move, Met]) -> dict[Cell, Count]:
    """How the moves of an area stand, by position and fingers, from the nut upwards.

    met: as `coverage` gives it; moves outside the area do not count.
    """
    standings: dict[Cell, list[Standing]] = {}
    for move, cell in cells(instrument, area).items():
        standing = met[move].standing if move in met else Standing.NEW
        standings.setdefault(cell, []).append(standing)
    return {cell: Count.of(found) for cell, found in standings.items()}


@lru_cache(maxsize=AREAS)
def cells(instrument: Instrument, area: Area) -> Mapping[Move, Cell]:
    """Every move of an area and where it counts: in the first of the pool's drills that holds it.

    One note can have two names on different strings, and so two positions; it counts once.
    Stages 4 and 5 have the moves of stage 3.
    """
    drills = [drill for drill in pool(instrument, area) if drill.stage <= CROSS_ON_EVERY_NOTE]
    drills.sort(key=lambda drill: hand_place(drill.frame.fingers[0], drill.place, instrument.hand))
    labels: dict[tuple[object, ...], Cell] = {}
    found: dict[Move, Cell] = {}
    for drill in drills:
        hand = (drill.frame, drill.place, drill.strings)
        if hand not in labels:
            labels[hand] = Cell(place_label(drill, instrument), drill.frame.fingers)
        for move in moves_of(drill):
            found.setdefault(move, labels[hand])
    return found
