"""The program: `bookgen`, and `python -m bookgen`."""

import gc
from typing import Final

YOUNG: Final = 100_000
"""New objects between two walks of the garbage collector: a command makes many that stay, and is
over soon (measured: a fifteenth of a sheet's time)."""


def main() -> None:
    """Run the command line of this process."""
    gc.set_threshold(YOUNG)
    from bookgen.cli import main as command_line  # noqa: PLC0415  not before that

    command_line()


if __name__ == "__main__":
    main()
