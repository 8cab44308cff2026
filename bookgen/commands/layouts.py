"""`bookgen layouts`: the page layouts at hand."""

import argparse
from pathlib import Path

from bookgen.commands.arguments import Commands, busy, here, read_date, user_cache
from bookgen.commands.screen import say
from bookgen.tasks.look import PageWish


def add(commands: Commands) -> None:
    """Describe the command to the parser."""
    parser = commands.add_parser("layouts", help=say("list the page layouts at hand"))
    parser.add_argument(
        "--sample", type=Path, metavar="DIR", help=say("put a specimen of each into this folder")
    )
    parser.add_argument("--paper", metavar="PAPER", help=say("of the specimens; a4 if not given"))
    parser.add_argument("--quiet", action="store_true", help=say("print nothing but errors"))
    parser.set_defaults(run=run_layouts)


def run_layouts(given: argparse.Namespace) -> str:
    """One line for each layout: its name, its staff and its folder, ready to be copied.

    Raises:
        BookgenError: a layout of the package is damaged, or a specimen cannot be written.
    """
    from bookgen.tasks.layouts import layouts, make_specimens  # noqa: PLC0415  slow to import

    if given.sample is not None:
        wish, day = PageWish(paper=given.paper, cache=user_cache()), read_date(None)
        made = make_specimens(here(), given.sample, wish, day, busy(given))
        return "\n".join(map(str, made.paths))
    return "\n".join(
        say(
            "{name}: staff {height} mm, {folder}",
            name=one.layout.name,
            height=f"{one.layout.music.staff_height_mm:g}",
            folder=one.path,
        )
        for one in layouts()
    )
