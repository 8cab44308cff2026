"""`bookgen coverage`: what of the area a player knows, in the terminal and as a page."""

import argparse
from collections.abc import Iterator

from bookgen.commands.arguments import (
    Commands,
    add_page_arguments,
    add_player_argument,
    here,
    page_wish,
    read_date,
    say,
)
from bookgen.commands.log_table import lined_up
from bookgen.commands.printing import add_print_argument
from bookgen.commands.telling import handed_over
from bookgen.errors import BookgenError, Finding, told
from bookgen.planner.coverage import Count
from bookgen.tasks.coverage import Covered, covered, covered_by_all, make_map
from bookgen.words import coverage as words
from bookgen.words.names import fingers_name, played_name
from bookgen.words.speech import ENGLISH


def add(commands: Commands) -> None:
    """Describe the command to the parser."""
    parser = commands.add_parser(
        "coverage",
        help=say("show which moves of a player's area are new, practised and secure"),
        epilog=say("With --out the map of the fingerboard becomes a page; else it is told here."),
    )
    add_player_argument(parser)
    parser.add_argument(
        "--all", action="store_true", help=say("everyone; as a page one table for the teacher")
    )
    parser.add_argument(
        "--date", metavar="D", help=say("as it stood on that day; today if not given")
    )
    add_page_arguments(parser)
    add_print_argument(parser)
    parser.set_defaults(run=run_coverage)


def run_coverage(given: argparse.Namespace) -> str:
    """Count the moves of a player's area. Returns the table, or the path of the page.

    Raises:
        BookgenError: there is no such player, or the page cannot be made.
    """
    folder, day = here(), read_date(given.date)
    if given.all and given.player is not None:
        problem, mend = told("--player and --all do not go together"), told("give one of them")
        raise BookgenError(Finding(told("command line"), problem, mend))
    found = covered_by_all(folder, day) if given.all else [covered(folder, given.player, day)]
    if given.out is None and given.print is None:
        return "\n\n".join("\n".join(table(one)) for one in found)
    return handed_over(make_map(folder, found, page_wish(given), day), given)


def table(found: Covered) -> Iterator[str]:
    """The counts by position and fingers, a line each, and all of them together."""
    asked, last = found.asked, found.last
    rows = [words.cell_heads(ENGLISH)]
    for cell, count in found.ordered:
        played = str(last[cell]) if cell in last else say("never")
        rows.append((cell.position, fingers_name(cell.fingers), *numbers(count), played))
    every = sum(found.counts.values(), Count())
    rows.append((say("all"), "", *numbers(every), ""))
    plays = played_name(asked.instrument, asked.size, ENGLISH)
    yield f"{words.whose(asked.name, plays)} · {ENGLISH.date(found.date)}"
    yield from lined_up(rows)


def numbers(count: Count) -> tuple[str, str, str]:
    """A count in the order of the table's columns."""
    return str(count.secure), str(count.practised), str(count.new)
