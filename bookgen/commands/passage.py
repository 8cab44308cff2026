"""`bookgen passage`: hand placements of a passage, and the pages that lead there."""

import argparse
from pathlib import Path

from bookgen.commands.arguments import (
    Commands,
    add_instrument_arguments,
    add_page_arguments,
    add_plan_argument,
    add_player_argument,
    busy,
    here,
    page_wish,
    read_date,
)
from bookgen.commands.press_arguments import add_screen_argument
from bookgen.commands.printing import add_print_argument
from bookgen.commands.screen import say
from bookgen.commands.telling import handed_over
from bookgen.tasks.passage import PassageWish, make_passage
from bookgen.tasks.wish import Wish


def add(commands: Commands) -> None:
    """Describe the command to the parser."""
    parser = commands.add_parser("passage", help=say("take a hard passage apart, and lead there"))
    parser.add_argument("file", type=Path, metavar="FILE", help=say("MusicXML, MIDI or plain text"))
    parser.add_argument("--bars", metavar="A-B", help=say("first and last bar, as printed"))
    parser.add_argument("--part", metavar="P", help=say("a part, by its name or number"))
    parser.add_argument(
        "--prefer", metavar="WISH", help=say("low, one-string, few-shifts or few-stretches")
    )
    parser.add_argument("--spots", metavar="N", help=say("so many hard spots; 8, of a movement 10"))
    parser.add_argument(
        "--all-hands", action="store_true", help=say("drills for every frame of the hand besides")
    )
    add_player_argument(parser)
    add_instrument_arguments(parser)
    parser.add_argument("--date", metavar="D", help=say("from what is known on that day; today"))
    add_plan_argument(parser)
    add_page_arguments(parser)
    add_screen_argument(parser)
    add_print_argument(parser)
    parser.set_defaults(run=run_passage)


def run_passage(given: argparse.Namespace) -> str:
    """Read, solve and engrave a passage. Returns the path of what was written.

    Raises:
        BookgenError: the file cannot be read, or something else that was given is wrong.
    """
    wish = Wish(given.instrument, given.size, player=given.player)
    wanted = PassageWish(
        given.file, given.bars, given.part, given.prefer, given.spots, given.all_hands
    )
    day = read_date(given.date)
    made = make_passage(here(), wish, wanted, page_wish(given), day, busy(given))
    return handed_over(made, given)
