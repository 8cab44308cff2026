"""The bar on a terminal: what is being made, how many are done of how many, the time left."""

from typing import TextIO

from rich.console import Console
from rich.progress import (
    BarColumn,
    MofNCompleteColumn,
    Progress,
    TextColumn,
    TimeRemainingColumn,
)

from bookgen.commands.screen import speech


def bar_on(stream: TextIO) -> Progress:
    """A bar that goes away when all is done, so that nothing but the result stays."""
    return Progress(
        TextColumn("{task.description}", markup=False),
        BarColumn(),
        MofNCompleteColumn(),
        TimeRemainingColumn(compact=True),
        TextColumn(speech().say_in("time", "left")),
        console=Console(file=stream),
        transient=True,
    )
