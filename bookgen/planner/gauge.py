"""How an area's moves stand, counted by the places of the strings: what the map shows."""

from collections.abc import Iterable, Mapping

from bookgen.model.drill import Drill
from bookgen.model.move import Move, moves_of
from bookgen.model.units import Semitones, StringNumber
from bookgen.plan.document import Coverage, Gauge
from bookgen.plan.record import Met, Standing
from bookgen.planner.coverage import Count

Place = tuple[StringNumber, Semitones]


def coverage_facts(
    area: Iterable[Move], met: Mapping[Move, Met], drills: Iterable[Drill]
) -> Coverage:
    """How the moves of an area stand, and how many are secure when the drills all are.

    met: moves that are not there are new.
    """
    standings = {move: met[move].standing if move in met else Standing.NEW for move in area}
    won = {move for drill in drills for move in moves_of(drill)} & standings.keys()
    aimed = {**standings, **dict.fromkeys(won, Standing.SECURE)}
    count = Count.of(standings.values())
    return Coverage(
        secure=count.secure,
        practised=count.practised,
        new=count.new,
        aimed=Count.of(aimed.values()).secure,
        gauges=tuple(
            gauge(place, moves, standings, aimed) for place, moves in by_place(standings).items()
        ),
    )


def by_place(moves: Iterable[Move]) -> dict[Place, list[Move]]:
    """The moves that begin or end at each place of a string, from the highest string on."""
    found: dict[Place, list[Move]] = {}
    for move in moves:
        for place in {(stop.string, stop.semitones) for stop in (move.first, move.then)}:
            found.setdefault(place, []).append(move)
    return dict(sorted(found.items()))


def gauge(
    place: Place,
    moves: Iterable[Move],
    standings: Mapping[Move, Standing],
    aimed: Mapping[Move, Standing],
) -> Gauge:
    """The moves of one place, by how they stand."""
    here = list(moves)
    count = Count.of(standings[move] for move in here)
    string, semitones = place
    return Gauge(
        string=string,
        semitones=semitones,
        secure=count.secure,
        practised=count.practised,
        new=count.new,
        aimed=Count.of(aimed[move] for move in here).secure,
    )
