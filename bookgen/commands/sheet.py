"""`bookgen sheet`: today's practice sheet."""

import argparse

from bookgen.commands.arguments import (
    Commands,
    add_memory_argument,
    add_page_arguments,
    add_tempo_argument,
    add_wish_arguments,
    busy,
    here,
    now,
    page_wish,
    read_date,
    wish_of,
)
from bookgen.commands.press_arguments import add_screen_argument
from bookgen.commands.printing import add_print_argument
from bookgen.commands.screen import say
from bookgen.commands.telling import handed_over
from bookgen.tasks.sheet import make_sheet


def add(commands: Commands) -> None:
    """Describe the command to the parser."""
    parser = commands.add_parser(
        "sheet",
        help=say("make today's practice sheet"),
        epilog=say(
            "With --out day.mid, day.wav or day.musicxml the drills of the day become a file that"
            " sounds, or that a notation program opens."
        ),
    )
    parser.add_argument("--date", metavar="D", help=say("year-month-day; today if not given"))
    parser.add_argument(
        "--class",
        dest="instruments",
        metavar="LIST",
        help=say(
            "several instruments that play the same steps together, e.g. 'violin, viola, cello';"
            " a size may stand behind each"
        ),
    )
    add_wish_arguments(parser)
    add_memory_argument(parser)
    add_tempo_argument(parser)
    add_page_arguments(parser)
    add_screen_argument(parser)
    add_print_argument(parser)
    parser.set_defaults(run=run_sheet)


def run_sheet(given: argparse.Namespace) -> str:
    """Make the sheet of one day. Returns its path.

    Raises:
        BookgenError: something that was given does not make a sheet.
    """
    day = read_date(given.date)
    wish, pages = wish_of(given), page_wish(given)
    if given.instruments is not None:
        from bookgen.tasks.class_sheet import make_class_sheet  # noqa: PLC0415  where asked for

        made = make_class_sheet(here(), given.instruments, wish, day, pages, busy(given))
    else:
        made = make_sheet(here(), wish, day, pages, now(), busy(given))
    return handed_over(made, given)
