"""`bookgen new-studio`: a studio file to begin with."""

import argparse
from pathlib import Path

from bookgen.commands.arguments import Commands
from bookgen.commands.screen import say
from bookgen.tasks.new_studio import make_studio
from bookgen.tasks.studio_folder import StudioFolder


def add(commands: Commands) -> None:
    """Describe the command to the parser."""
    parser = commands.add_parser("new-studio", help=say("write a studio.toml to begin with"))
    parser.add_argument(
        "folder",
        type=Path,
        nargs="?",
        default=Path(),
        metavar="DIR",
        help=say("this folder if not given"),
    )
    parser.add_argument("--quiet", action="store_true", help=say("print nothing but errors"))
    parser.set_defaults(run=run_new_studio)


def run_new_studio(given: argparse.Namespace) -> str:
    """Write the file where there is none yet. Returns its path.

    Raises:
        BookgenError: there is one, or the folder cannot be written.
    """
    (path,) = make_studio(StudioFolder(given.folder)).paths
    return str(path)
