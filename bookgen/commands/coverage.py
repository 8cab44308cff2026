"""`bookgen coverage`: what of the area a player knows, in the terminal and as a page."""

import argparse
from collections.abc import Iterator, Sequence
from datetime import date as Date  # noqa: N812
from itertools import islice
from typing import Final

from bookgen.commands.arguments import (
    Commands,
    add_instrument_argument,
    add_page_arguments,
    add_player_argument,
    here,
    page_wish,
    read_date,
)
from bookgen.commands.log_table import lined_up
from bookgen.commands.printing import add_print_argument
from bookgen.commands.screen import say, speech
from bookgen.commands.telling import handed_over
from bookgen.errors import BookgenError, Finding, told
from bookgen.planner.coverage import Count
from bookgen.tasks.coverage import Covered, covered, make_map
from bookgen.tasks.lesson import Lesson, lesson_of, make_lesson, make_roster, standings
from bookgen.words import coverage as words
from bookgen.words.lesson import left_out
from bookgen.words.names import fingers_name, played_name, position_short
from bookgen.words.roster import Standing, by_lesson, cells, heads

MOST_ROWS: Final = 12
"""Of a part of a lesson's page in the terminal (own choice)."""


def add(commands: Commands) -> None:
    """Describe the command to the parser."""
    parser = commands.add_parser(
        "coverage",
        help=say("show what is secure, practised and new, of a player or of the whole roster"),
        epilog=say(
            "With --out it becomes a page, that of a player with the map; else it is told here."
        ),
    )
    add_player_argument(parser)
    add_instrument_argument(parser)
    parser.add_argument(
        "--all",
        action="store_true",
        help=say(
            "everyone: who printed, who logged, what is secure, who stands still, what is next"
        ),
    )
    parser.add_argument(
        "--lesson",
        action="store_true",
        help=say("for a player's lesson: last results, what is shaky, secure and next"),
    )
    parser.add_argument(
        "--date", metavar="D", help=say("as it stood on that day; today if not given")
    )
    add_page_arguments(parser)
    add_print_argument(parser)
    parser.set_defaults(run=run_coverage)


def run_coverage(given: argparse.Namespace) -> str:
    """Count a player's moves, get a lesson ready, or tell how everyone stands.

    Returns the table, or the path of the page.

    Raises:
        BookgenError: there is no such player, or the page cannot be made.
    """
    folder, day, wish = here(), read_date(given.date), page_wish(given)
    on_paper = given.out is not None or given.print is not None
    refuse_both(given)
    if given.all:
        everyone = standings(folder, day)
        if on_paper:
            return handed_over(make_roster(folder, everyone, wish, day), given)
        return "\n".join(roster_lines(everyone))
    if given.lesson:
        lesson = lesson_of(folder, given.player, given.instrument, day)
        if on_paper:
            return handed_over(make_lesson(folder, lesson, wish, day), given)
        return "\n".join(lesson_lines(lesson, day))
    found = covered(folder, given.player, given.instrument, day)
    if on_paper:
        return handed_over(make_map(folder, found, wish, day), given)
    return "\n".join(table(found))


def refuse_both(given: argparse.Namespace) -> None:
    """Refuse what is of one player where all were asked for.

    Raises:
        BookgenError: both were.
    """
    of_one = {
        "--player": given.player is not None,
        "--instrument": given.instrument is not None,
        "--lesson": given.lesson,
    }
    for option in (name for name, is_given in of_one.items() if is_given and given.all):
        problem = told("{option} and --all do not go together", option=option)
        mend = told("leave out --all to ask for one player, or {option}", option=option)
        raise BookgenError(Finding(told("command line"), problem, mend))


def roster_lines(everyone: Sequence[Standing]) -> Iterator[str]:
    """How everyone stands, a line each, under the days of their lessons."""
    players = [one for _, group in by_lesson(everyone, speech()) for one in group]
    head, *lines = lined_up(
        [heads(speech()), *(cells(one, speech()) for one in players)], flush_right=False
    )
    rows = iter(lines)
    yield head
    for lesson, group in by_lesson(everyone, speech()):
        yield from ("", lesson) if lesson else ()
        yield from islice(rows, len(group))


def lesson_lines(lesson: Lesson, day: Date) -> Iterator[str]:
    """The parts of a lesson's page below each other."""
    asked = lesson.asked
    plays = played_name(asked.instrument, asked.size, speech())
    yield f"{words.whose(asked.name, plays)} · {speech().date(day)}"
    for section in lesson.sections(speech()):
        rows, left = section.rows[:MOST_ROWS], len(section.rows) - MOST_ROWS
        yield from ("", section.title)
        yield from (f"  {row}" for row in lined_up(rows, flush_right=False))
        yield from () if rows else (f"  {section.otherwise}",)
        yield from (f"  {left_out(left, speech())}",) if left > 0 else ()


def table(found: Covered) -> Iterator[str]:
    """The counts by position and fingers, a line each, and all of them together."""
    asked, last = found.asked, found.last
    rows = [words.cell_heads(speech())]
    for cell, count in found.ordered:
        played = str(last[cell]) if cell in last else say("never")
        position = position_short(cell.position, speech())
        rows.append((position, fingers_name(cell.fingers, speech()), *numbers(count), played))
    every = sum(found.counts.values(), Count())
    rows.append((say("all"), "", *numbers(every), ""))
    plays = played_name(asked.instrument, asked.size, speech())
    yield f"{words.whose(asked.name, plays)} · {speech().date(found.date)}"
    yield from lined_up(rows)


def numbers(count: Count) -> tuple[str, str, str]:
    """A count in the order of the table's columns."""
    return str(count.secure), str(count.practised), str(count.new)
