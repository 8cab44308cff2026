"""What of the area a player knows: as figures, and as a page with the map."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from typing import TYPE_CHECKING

from bookgen.model.move import Move
from bookgen.plan.document import Binding
from bookgen.plan.record import Met
from bookgen.planner.coverage import Cell, Count, area_moves, cells, counts, coverage
from bookgen.planner.gauge import coverage_facts
from bookgen.studio.practice_log import PracticeLog
from bookgen.tasks.look import Look, Made, PageWish, inputs_of, look, places_of
from bookgen.tasks.pages import bound, publish
from bookgen.tasks.places import Place, refuse_places
from bookgen.tasks.roster import chosen_player, player_stem, roster_of
from bookgen.tasks.studio_folder import StudioFolder
from bookgen.tasks.wish import Asked, Wish, asked_of
from bookgen.words.names import played_name
from bookgen.words.speech import Speech

if TYPE_CHECKING:
    from bookgen.binder.books.coverage import CellStanding
    from bookgen.binder.parts.standings import PlayerStanding


@dataclass(frozen=True, slots=True)
class Covered:
    """How the moves of a player's area stood on a day."""

    asked: Asked
    date: Date
    met: Mapping[Move, Met]

    @property
    def counts(self) -> Mapping[Cell, Count]:
        """How many moves are new, practised and secure, by position and fingers."""
        return counts(self.asked.instrument, self.asked.area, self.met)

    @property
    def ordered(self) -> list[tuple[Cell, Count]]:
        """The counts position by position from the nut upwards, then by fingers."""
        found = self.counts
        order = list(dict.fromkeys(cell.position for cell in found))
        cells = sorted(found, key=lambda cell: (order.index(cell.position), cell.fingers))
        return [(cell, found[cell]) for cell in cells]

    @property
    def last(self) -> Mapping[Cell, Date]:
        """The last day on which any move of a position and fingers was played."""
        return last_days(self.asked, self.met)


def covered(folder: StudioFolder, player: str | None, day: Date) -> Covered:
    """How a player's moves stood on a day.

    Raises:
        BookgenError: there is no such player, or the practice log is damaged.
    """
    asked = asked_of(chosen_player(folder, player), Wish(), folder.path)
    with folder.log(make=False) as log:
        return covered_by(asked, log, day)


def covered_by_all(folder: StudioFolder, day: Date) -> list[Covered]:
    """How the moves of everyone on the roster stood on a day.

    Raises:
        BookgenError: there is no roster, or the practice log is damaged.
    """
    players = roster_of(folder)
    with folder.log(make=False) as log:
        return [covered_by(asked_of(player, Wish(), folder.path), log, day) for player in players]


def covered_by(asked: Asked, log: PracticeLog, day: Date) -> Covered:
    """How a player's moves stood on a day, by the log."""
    records = log.records(asked.name) if asked.name else ()
    own = [record for record in records if record.drill.instrument == asked.instrument.key]
    return Covered(asked, day, coverage(own, asked.request(day).secure, day))


def last_days(asked: Asked, met: Mapping[Move, Met]) -> dict[Cell, Date]:
    """The last day on which any move of each line was played."""
    found: dict[Cell, Date] = {}
    for move, cell in cells(asked.instrument, asked.area).items():
        last = met[move].last if move in met else None
        if last is not None:
            found[cell] = max(last, found.get(cell, last))
    return found


def make_map(folder: StudioFolder, found: Sequence[Covered], pages: PageWish, day: Date) -> Made:
    """Draw the map of one player as a page, or the table of all of them.

    Raises:
        BookgenError: the layout is damaged, or the page cannot be written.
    """
    alone = found[0].asked if len(found) == 1 else None
    whose = f"{player_stem(alone.player, folder.studio)}-" if alone and alone.name else ""
    usual = folder.output / f"{whose}coverage-{day.isoformat()}.pdf"
    path = folder.path / pages.out if pages.out else usual
    inputs = list(inputs_of(folder, pages))
    refuse_places(places_of(folder, pages, [Place("--out", path, (".pdf",))]), inputs)
    wanted = look(folder, pages, Binding(book="sheet"), alone.player if alone else None)
    made = bound(lambda: page_of(found, wanted, day), wanted)
    publish([(path, made)], inputs)
    return Made((path,))


def page_of(found: Sequence[Covered], wanted: Look, day: Date) -> bytes:
    """The page: of one player, or of several.

    Raises:
        NoRoomError: it does not fit the paper.
    """
    from bookgen.binder.books.coverage import (  # noqa: PLC0415  slow to import
        bind_player_coverage,
        bind_studio_coverage,
    )

    first = found[0]
    desk = wanted.desk(first.asked.instrument, first.asked.size)
    if len(found) > 1:
        return bind_studio_coverage([player_standing(one, desk.speech) for one in found], day, desk)
    area = area_moves(first.asked.instrument, first.asked.area)
    facts = coverage_facts(area, first.met, ())
    return bind_player_coverage(facts, cell_standings(first), first.asked.name, day, desk)


def player_standing(found: Covered, speech: Speech) -> "PlayerStanding":
    """How all moves of a player stand together."""
    from bookgen.binder.parts.standings import PlayerStanding  # noqa: PLC0415  slow to import

    every = sum(found.counts.values(), Count())
    asked = found.asked
    return PlayerStanding(
        name=asked.name or "",
        plays=played_name(asked.instrument, asked.size, speech),
        secure=every.secure,
        practised=every.practised,
        new=every.new,
        last=max(found.last.values(), default=None),
    )


def cell_standings(found: Covered) -> "list[CellStanding]":
    """How the moves stand by position and fingers, from the nut upwards."""
    from bookgen.binder.books.coverage import CellStanding  # noqa: PLC0415  slow to import

    return [
        CellStanding(
            position=cell.position,
            fingers=cell.fingers,
            secure=count.secure,
            practised=count.practised,
            new=count.new,
            last=found.last.get(cell),
        )
        for cell, count in found.ordered
    ]
