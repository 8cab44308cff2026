"""`bookgen booklet`: a dated run of days, for one player or the whole roster."""

import argparse

from bookgen.commands.arguments import (
    Commands,
    add_memory_argument,
    add_page_arguments,
    add_wish_arguments,
    busy,
    here,
    now,
    page_wish,
    wish_of,
)
from bookgen.commands.press_arguments import add_press_arguments, add_screen_argument
from bookgen.commands.printing import add_print_argument
from bookgen.commands.screen import say
from bookgen.commands.telling import handed_over
from bookgen.tasks.booklet import make_booklets
from bookgen.tasks.booklet_orders import BookletWish
from bookgen.tasks.span import span_of


def add(commands: Commands) -> None:
    """Describe the command to the parser."""
    parser = commands.add_parser("booklet", help=say("make a dated booklet of many days"))
    parser.add_argument("--month", metavar="YYYY-MM", help=say("all practice days of a month"))
    parser.add_argument("--from", dest="first", metavar="D", help=say("the first day, instead"))
    parser.add_argument("--to", dest="last", metavar="D", help=say("the last day"))
    parser.add_argument(
        "--all", action="store_true", help=say("one for each player; --out is a folder then")
    )
    parser.add_argument(
        "--by-day", action="store_true", help=say("the drills day by day, not by their numbers")
    )
    add_memory_argument(parser)
    parser.add_argument(
        "--fold",
        action="store_true",
        help=say("two pages on each sheet, to be printed and folded"),
    )
    add_wish_arguments(parser)
    add_page_arguments(parser)
    add_press_arguments(parser)
    add_screen_argument(parser)
    add_print_argument(parser)
    parser.set_defaults(run=run_booklet)


def run_booklet(given: argparse.Namespace) -> str:
    """Make each booklet that was ordered. Returns the paths.

    Raises:
        BookgenError: something that was given does not make a booklet.
    """
    wanted = BookletWish(
        span=span_of(given.month, given.first, given.last),
        everyone=given.all,
        by_day=given.by_day,
        fold=given.fold,
    )
    made = make_booklets(here(), wish_of(given), wanted, page_wish(given), now(), busy(given))
    return handed_over(made, given)
