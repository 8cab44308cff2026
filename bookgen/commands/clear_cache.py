"""`bookgen clear-cache`: engraved music that is kept goes."""

import argparse

from bookgen.commands.arguments import Commands, user_cache
from bookgen.commands.screen import say


def add(commands: Commands) -> None:
    """Describe the command to the parser."""
    parser = commands.add_parser(
        "clear-cache", help=say("throw away the engraved music that is kept for the next time")
    )
    parser.set_defaults(run=run_clear_cache, quiet=False)


def run_clear_cache(given: argparse.Namespace) -> str:
    """Remove all of it. Returns how much it was, and where.

    Raises:
        BookgenError: something cannot be removed.
    """
    del given
    cache = user_cache()
    size = cache.clear()
    return say("{folder}: {size} MB thrown away", folder=cache.folder, size=f"{size / 1e6:.1f}")
