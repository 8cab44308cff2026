"""`bookgen bind FILE`: the pages of a plan document."""

import argparse
from pathlib import Path

from bookgen.commands.arguments import (
    Commands,
    add_file_argument,
    add_page_arguments,
    busy,
    here,
    page_wish,
)
from bookgen.commands.press_arguments import add_press_arguments, add_screen_argument
from bookgen.commands.printing import add_print_argument
from bookgen.commands.screen import say
from bookgen.commands.telling import handed_over
from bookgen.tasks.bind import bind_plan


def add(commands: Commands) -> None:
    """Describe the command to the parser."""
    parser = commands.add_parser("bind", help=say("make the pages of a plan document"))
    parser.add_argument("file", type=Path, metavar="FILE", help=say("a plan document (JSON)"))
    add_file_argument(parser)
    add_page_arguments(parser)
    add_press_arguments(parser)
    add_screen_argument(parser)
    add_print_argument(parser)
    parser.set_defaults(run=run_bind)


def run_bind(given: argparse.Namespace) -> str:
    """Bind a plan. Returns the path of the book.

    Raises:
        BookgenError: the file cannot be read, or is no true plan.
    """
    made = bind_plan(here(), given.file, page_wish(given), busy(given), given.instrument)
    return handed_over(made, given)
