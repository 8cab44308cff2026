"""`bookgen coverage`: what of the area a player knows, in the terminal and as a page."""

import argparse
from collections.abc import Iterator, Mapping
from datetime import date
from pathlib import Path

from bookgen.binder.english import date_name
from bookgen.commands.arguments import (
    Commands,
    PageArguments,
    add_page_arguments,
    page_arguments,
    pdf_place,
    read_date,
)
from bookgen.commands.asking import Asked, Wish, asked_of
from bookgen.commands.log_table import lined_up
from bookgen.commands.pages import bound, look, publish
from bookgen.commands.printing import add_print_argument, print_if_wanted
from bookgen.commands.roster import LOG_FILE, chosen_player, read_studio
from bookgen.model.move import Move
from bookgen.plan.record import Met, Record
from bookgen.planner.coverage import Cell, Count, area_moves, cells, counts, coverage
from bookgen.readers.studio import Studio
from bookgen.studio.practice_log import open_log

HEAD = ("position", "fingers", "new", "practised", "secure", "last played")


def add(commands: Commands) -> None:
    """Describe the command to the parser."""
    parser = commands.add_parser(
        "coverage",
        help="show which moves of a player's area are new, practised and secure",
        epilog="With --out the map of the fingerboard becomes a page; else it is told here.",
    )
    parser.add_argument("--player", metavar="P", help="who plays; not needed for a lone player")
    parser.add_argument("--date", metavar="D", help="as it stood on that day; today if not given")
    add_page_arguments(parser)
    add_print_argument(parser)
    parser.set_defaults(run=run_coverage)


def run_coverage(given: argparse.Namespace) -> Path | str:
    """Count the moves of a player's area. Returns the table, or the path of the page.

    Raises:
        BookgenError: there is no such player, or the page cannot be made.
    """
    pages = page_arguments(given)
    day = read_date(given.date)
    studio = read_studio()
    asked = asked_of(chosen_player(studio, given.player), Wish())
    met = standings(asked, day)
    if given.out is None and given.print is None:
        return "\n".join(table(asked, met, day))
    path = pdf_place(given.out, Path("output") / f"coverage-{day.isoformat()}.pdf")
    page(asked, met, day, (studio, pages, path))
    print_if_wanted(path, given)
    return path


def standings(asked: Asked, day: date) -> dict[Move, Met]:
    """How the player's moves stood on a day.

    Raises:
        BookgenError: the practice log is damaged.
    """
    with open_log(LOG_FILE, make=False) as log:
        records = log.records(asked.name) if asked.name else ()
    own = [record for record in records if record.drill.instrument == asked.instrument.key]
    until = [record for record in own if record.marked is not None and record.marked <= day]
    request = asked.request(day, tuple[Record, ...](until), 1)
    return coverage(until, request.secure)


def table(asked: Asked, met: Mapping[Move, Met], day: date) -> Iterator[str]:
    """The counts by position and fingers, a line each, and all of them together."""
    found = counts(asked.instrument, asked.area, met)
    last = last_days(asked, met)
    rows = [HEAD]
    order = list(dict.fromkeys(cell.position for cell in found))
    for cell in sorted(found, key=lambda cell: (order.index(cell.position), cell.fingers)):
        fingers = "-".join(map(str, cell.fingers))
        rows.append((cell.position, fingers, *numbers(found[cell]), str(last.get(cell, "never"))))
    every = sum(found.values(), Count())
    rows.append(("all", "", *numbers(every), ""))
    name = f"{asked.name}, " if asked.name else ""
    yield f"{name}{asked.instrument.name} {asked.size}, {date_name(day)}"
    yield from lined_up(rows)


def numbers(count: Count) -> tuple[str, str, str]:
    """A count in the order of the table's columns."""
    return str(count.new), str(count.practised), str(count.secure)


def last_days(asked: Asked, met: Mapping[Move, Met]) -> dict[Cell, date]:
    """The last day on which any move of each line was played."""
    found: dict[Cell, date] = {}
    for move, cell in cells(asked.instrument, asked.area).items():
        last = met[move].last if move in met else None
        if last is not None:
            found[cell] = max(last, found.get(cell, last))
    return found


def page(
    asked: Asked,
    met: Mapping[Move, Met],
    day: date,
    made: tuple[Studio, PageArguments, Path],
) -> None:
    """Draw the map as a page.

    made: the studio whose look it has, the page options, and where it goes.

    Raises:
        BookgenError: the layout is damaged, or the page cannot be written.
    """
    studio, pages, path = made
    wanted = look(pages, layout=studio.layout, paper=studio.paper, studio=studio.name)

    from bookgen.binder.coverage_page import CoverageFacts, bind_coverage  # noqa: PLC0415

    facts = CoverageFacts(
        before={move: known.standing for move, known in met.items()},
        area=area_moves(asked.instrument, asked.area),
        player=asked.name,
        date=day,
    )
    made_page = bound(
        lambda: bind_coverage(facts, asked.instrument, asked.size, wanted.layout, wanted.options),
        wanted,
    )
    publish(made_page, path, None, asked.instrument, pages)
