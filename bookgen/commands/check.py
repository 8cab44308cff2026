"""`bookgen check`: whether all that bookgen needs is here and in order."""

import argparse

from bookgen.commands.arguments import Commands, here
from bookgen.commands.screen import line, say
from bookgen.tasks.check import check


def add(commands: Commands) -> None:
    """Describe the command to the parser."""
    parser = commands.add_parser("check", help=say("check the environment, the studio and layouts"))
    parser.set_defaults(run=run_check, quiet=False)


def run_check(given: argparse.Namespace) -> str:
    """One line for each thing that is in order.

    Raises:
        BookgenError: something is not in order; everything that is not is told at once.
    """
    del given
    return "\n".join(map(line, check(here())))
