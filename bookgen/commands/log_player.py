"""Whose results are meant on a command line: by name, and on which instrument."""

import argparse
from typing import Final

from bookgen.commands.arguments import here
from bookgen.errors import BookgenError, Finding, told
from bookgen.tasks import results

WORD_LISTS: Final = ("numbers", "secure", "not_yet", "undo")
"""Arguments with numbers, among which a player's name may stand."""


def take_name(given: argparse.Namespace) -> None:
    """Take the player's name out of the words among which the numbers stand.

    Raises:
        BookgenError: a word is neither, or several players are named.
    """
    lists = [name for name in WORD_LISTS if getattr(given, name) is not None]
    words = [word for name in lists for word in getattr(given, name)]
    named = results.name_among(here(), words)
    if named is None:
        return
    if given.player is not None:
        problem = told("{options} do not go together", options=f"--player, {named!r}")
        raise BookgenError(Finding(told("command line"), problem, told("name one player")))
    given.player = named
    for name in lists:
        numbers = [word for word in getattr(given, name) if any(map(str.isdigit, word))]
        setattr(given, name, numbers)


def take_instrument(given: argparse.Namespace, what: str) -> None:
    """Let the results be those of a player's second instrument, which has a name of its own.

    Raises:
        BookgenError: there is no such instrument, or files name it otherwise.
    """
    if given.instrument is None:
        return
    if what in {"--import", "--export"}:
        problem = told("{options} do not go together", options=f"--instrument, {what}")
        mend = told("leave --instrument out; files have names such as {name}", name="'Ines, viola'")
        raise BookgenError(Finding(told("command line"), problem, mend))
    given.player = results.player_on(here(), given.player, given.instrument)
