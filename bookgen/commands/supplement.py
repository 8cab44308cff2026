"""`bookgen supplement SPEC.toml`: a complete book in all its editions."""

import argparse
import sys
from pathlib import Path

from bookgen.commands.arguments import Commands, busy, making, user_cache
from bookgen.commands.press_arguments import add_press_arguments, add_screen_argument, press_wish
from bookgen.commands.screen import line, say
from bookgen.tasks.supplement import make_supplement


def add(commands: Commands) -> None:
    """Describe the command to the parser."""
    parser = commands.add_parser(
        "supplement",
        help=say("make a complete book from its spec, in all its editions"),
        epilog=say(
            "`bookgen new-supplement` writes a spec to begin with, and explains every line of it."
        ),
    )
    parser.add_argument("spec", type=Path, metavar="SPEC.toml", help=say("what the book is to be"))
    parser.add_argument(
        "--out",
        type=Path,
        metavar="DIR",
        help=say("folder for the books; output beside the spec if not given"),
    )
    parser.add_argument(
        "--only",
        action="append",
        default=[],
        metavar="NAME",
        help=say("only these editions, e.g. cello-de or cello-de-teacher; may be given again"),
    )
    parser.add_argument(
        "--plans", type=Path, metavar="DIR", help=say("write the plan documents too, there")
    )
    parser.add_argument(
        "--proof",
        action="store_true",
        help=say("write a table for the editor too: every drill, stop, interval and page"),
    )
    add_press_arguments(parser)
    add_screen_argument(parser)
    parser.add_argument("--quiet", action="store_true", help=say("print nothing but errors"))
    parser.set_defaults(run=run_supplement)


def run_supplement(given: argparse.Namespace) -> str:
    """Make every edition that is wanted. Returns the paths.

    Raises:
        BookgenError: the spec, or what it asks for, cannot be made into books.
    """
    press = press_wish(given, making())
    made = make_supplement(
        given.spec,
        given.out,
        given.only,
        given.plans,
        user_cache(),
        busy(given),
        press,
        screen=given.screen,
        proof=given.proof,
    )
    if not given.quiet:
        sys.stderr.writelines(f"{line(said)}\n" for said in made.told)
    return "\n".join(map(str, made.paths))
