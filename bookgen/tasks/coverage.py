"""What of the area a player knows: as figures, and as a page with the map."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from typing import TYPE_CHECKING

from bookgen.model.move import Move
from bookgen.plan.document import Binding, Coverage
from bookgen.plan.record import Met
from bookgen.planner.coverage import Cell, Count, area_moves, cells, counts, coverage
from bookgen.planner.gauge import coverage_facts
from bookgen.readers.studio.file import Player
from bookgen.studio.practice_log import PracticeLog
from bookgen.tasks.further import records_of
from bookgen.tasks.look import Look, Made, PageWish, inputs_of, look, places_of
from bookgen.tasks.pages import bound, publish
from bookgen.tasks.places import Place, refuse_places
from bookgen.tasks.roster import chosen_player, player_stem
from bookgen.tasks.studio_folder import StudioFolder
from bookgen.tasks.wish import Asked, Wish, asked_of

if TYPE_CHECKING:
    from bookgen.binder.books.coverage import CellStanding


@dataclass(frozen=True, slots=True)
class Covered:
    """How the moves of a player's area stood on a day."""

    asked: Asked
    date: Date
    met: Mapping[Move, Met]

    @property
    def facts(self) -> Coverage:
        """How all of them stand, and those of each place of the fingerboard."""
        return coverage_facts(area_moves(self.asked.instrument, self.asked.area), self.met, ())

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


def covered(folder: StudioFolder, player: str | None, instrument: str | None, day: Date) -> Covered:
    """How a player's moves stood on a day.

    Raises:
        BookgenError: there is no such player, or the practice log is damaged.
    """
    chosen = chosen_player(folder, player, instrument)
    asked = asked_of(chosen, Wish(instrument=instrument), folder.path)
    with folder.log(make=False) as log:
        return covered_by(asked, log, day)


def covered_by(asked: Asked, log: PracticeLog, day: Date) -> Covered:
    """How a player's moves stood on a day, by the log."""
    return Covered(asked, day, coverage(records_of(log, asked), asked.request(day).secure, day))


def last_days(asked: Asked, met: Mapping[Move, Met]) -> dict[Cell, Date]:
    """The last day on which any move of each line was played."""
    found: dict[Cell, Date] = {}
    for move, cell in cells(asked.instrument, asked.area).items():
        last = met[move].last if move in met else None
        if last is not None:
            found[cell] = max(last, found.get(cell, last))
    return found


def make_map(folder: StudioFolder, found: Covered, pages: PageWish, day: Date) -> Made:
    """Draw the map of a player as a page.

    Raises:
        BookgenError: the layout is damaged, or the page cannot be written.
    """
    asked = found.asked

    def page(wanted: Look) -> bytes:
        from bookgen.binder.books.coverage import bind_player_coverage  # noqa: PLC0415  slow

        desk = wanted.desk(asked.instrument, asked.size)
        return bind_player_coverage(found.facts, cell_standings(found), asked.name, day, desk)

    whose = f"{player_stem(asked.player, folder.studio)}-" if asked.name else ""
    return write_page(folder, pages, f"{whose}coverage-{day.isoformat()}.pdf", asked.player, page)


def write_page(
    folder: StudioFolder,
    pages: PageWish,
    usual: str,
    player: Player | None,
    page: Callable[[Look], bytes],
) -> Made:
    """Write a page of what the log says.

    usual: the file's name where none is given; player: whose layout it has, or None.

    Raises:
        BookgenError: the layout is damaged, or the page cannot be written.
    """
    path = folder.path / pages.out if pages.out else folder.output / usual
    inputs = list(inputs_of(folder, pages))
    refuse_places(places_of(folder, pages, [Place("--out", path, (".pdf",))]), inputs)
    wanted = look(folder, pages, Binding(book="sheet"), player)
    publish([(path, bound(lambda: page(wanted), wanted))], inputs)
    return Made((path,))


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
