"""What a command hands back when it is done: printed, opened, told."""

import argparse
import sys

from bookgen.commands.printing import print_if_wanted
from bookgen.commands.screen import line
from bookgen.commands.viewer import open_file
from bookgen.tasks.look import Made


def handed_over(made: Made, given: argparse.Namespace) -> str:
    """Open and print what was made, where that is wanted. Returns its paths, a line each.

    Raises:
        BookgenError: nothing here opens or prints it; the files are kept.
    """
    if not given.quiet:
        sys.stderr.writelines(f"{line(said)}\n" for said in made.told)
    for path in made.paths:
        if given.open:
            open_file(path)
        print_if_wanted(path, given)
    return "\n".join(map(str, made.paths))
