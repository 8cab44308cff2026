"""`bookgen new-supplement`: the spec of a book to begin with."""

import argparse
from pathlib import Path

from bookgen.commands.arguments import Commands
from bookgen.commands.screen import say
from bookgen.tasks.supplement import make_spec


def add(commands: Commands) -> None:
    """Describe the command to the parser."""
    parser = commands.add_parser(
        "new-supplement", help=say("write the spec of a book to begin with")
    )
    parser.add_argument(
        "place",
        type=Path,
        nargs="?",
        default=Path(),
        metavar="DIR|FILE",
        help=say("a folder, or a file that ends in .toml; this folder if not given"),
    )
    parser.add_argument("--quiet", action="store_true", help=say("print nothing but errors"))
    parser.set_defaults(run=run_new_supplement)


def run_new_supplement(given: argparse.Namespace) -> str:
    """Write the file where there is none yet. Returns its path.

    Raises:
        BookgenError: there is one, or the folder cannot be written.
    """
    (path,) = make_spec(given.place).paths
    return str(path)
