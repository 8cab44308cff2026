"""`bookgen drill KEY|NUMBER`: one drill, in the form that the ending of --out asks for."""

import argparse

from bookgen.commands.arguments import (
    Commands,
    add_file_argument,
    add_memory_argument,
    add_page_arguments,
    add_plan_argument,
    add_tempo_argument,
    busy,
    here,
    page_wish,
)
from bookgen.commands.press_arguments import add_screen_argument
from bookgen.commands.printing import add_print_argument
from bookgen.commands.screen import say
from bookgen.commands.telling import handed_over
from bookgen.model.drill_key import KEY_EXAMPLE
from bookgen.tasks.drill import MAKERS, make_drill


def add(commands: Commands) -> None:
    """Describe the command to the parser."""
    parser = commands.add_parser(
        "drill",
        help=say("make one drill as PDF, PNG, SVG, LilyPond, MusicXML, MIDI or sound (WAV)"),
        epilog=say(
            "A key looks like {example}. The ending of --out chooses the form: {endings}.",
            example=KEY_EXAMPLE,
            endings=", ".join(MAKERS),
        ),
    )
    parser.add_argument(
        "drill", metavar="KEY|NUMBER", help=say("the drill's key, or its number for a player")
    )
    parser.add_argument(
        "--player", metavar="P", help=say("whose number it is; not needed for a lone player")
    )
    parser.add_argument("--size", metavar="S", help=say("e.g. 3/4; the full size if not given"))
    add_file_argument(parser)
    add_plan_argument(parser)
    add_memory_argument(parser)
    add_tempo_argument(parser)
    add_page_arguments(parser)
    add_screen_argument(parser)
    add_print_argument(parser)
    parser.set_defaults(run=run_drill)


def run_drill(given: argparse.Namespace) -> str:
    """Make one drill. Returns the path of the file.

    Raises:
        BookgenError: the key names no drill that can be played, or the ending no form.
    """
    which, wish = given.drill, page_wish(given)
    made = make_drill(here(), which, given.player, given.size, wish, busy(given), given.instrument)
    return handed_over(made, given)
