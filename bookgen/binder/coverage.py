"""Coverage counted: how many moves are secure, practised or new, by place and by string."""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from bookgen.model.move import Move
from bookgen.model.units import Semitones, StringNumber
from bookgen.plan.record import Standing

Place = tuple[StringNumber, Semitones]
Strings = tuple[StringNumber, ...]
"""One string, or the lower and the higher one of a crossing."""


@dataclass(frozen=True, slots=True)
class Tally:
    """Moves by their standing."""

    secure: int = 0
    practised: int = 0
    new: int = 0

    @property
    def total(self) -> int:
        """All moves."""
        return self.secure + self.practised + self.new

    @classmethod
    def of(cls, standings: Iterable[Standing]) -> "Tally":
        """Count."""
        found = Counter(standings)
        return cls(found[Standing.SECURE], found[Standing.PRACTISED], found[Standing.NEW])


@dataclass(frozen=True, slots=True)
class Coverage:
    """The standing of every move of an area."""

    standings: Mapping[Move, Standing]

    @property
    def tally(self) -> Tally:
        """All moves of the area."""
        return Tally.of(self.standings.values())

    def by_place(self) -> dict[Place, Tally]:
        """The moves that begin or end at each place."""
        found: dict[Place, list[Standing]] = {}
        for move, standing in self.standings.items():
            places = {(stop.string, stop.semitones) for stop in (move.first, move.then)}
            for place in places:
                found.setdefault(place, []).append(standing)
        return {place: Tally.of(standings) for place, standings in sorted(found.items())}

    def by_strings(self) -> dict[Strings, Tally]:
        """The moves on each string and over each crossing, from the lowest string up."""
        found: dict[Strings, list[Standing]] = {}
        for move, standing in self.standings.items():
            strings = {move.first.string, move.then.string}
            found.setdefault(tuple(sorted(strings, reverse=True)), []).append(standing)
        ordered = sorted(found, key=lambda strings: [-string for string in strings])
        return {strings: Tally.of(found[strings]) for strings in ordered}

    def aimed(self, moves: Iterable[Move]) -> "Coverage":
        """The coverage when these moves have become secure."""
        won = dict.fromkeys((move for move in moves if move in self.standings), Standing.SECURE)
        return Coverage({**self.standings, **won})


def coverage_of(before: Mapping[Move, Standing], area: Iterable[Move]) -> Coverage:
    """The coverage of an area; a move that was never met is new."""
    return Coverage({move: before.get(move, Standing.NEW) for move in sorted(area)})
