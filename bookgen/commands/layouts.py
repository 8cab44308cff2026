"""`bookgen layouts`: the page layouts at hand."""

import argparse

from bookgen.commands.arguments import Commands
from bookgen.readers.layout import layout_folder, layout_names, read_layout


def add(commands: Commands) -> None:
    """Describe the command to the parser."""
    parser = commands.add_parser("layouts", help="list the page layouts at hand")
    parser.set_defaults(run=run_layouts, quiet=False)


def run_layouts(given: argparse.Namespace) -> str:
    """One line for each layout: its name, its staff and its folder, ready to be copied.

    Raises:
        BookgenError: a layout of the package is damaged.
    """
    del given
    lines = [
        f"{name}: staff {read_layout(name).staff_height_mm:g} mm, {layout_folder() / name}"
        for name in layout_names()
    ]
    return "\n".join(lines)
