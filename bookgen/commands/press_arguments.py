"""The options of commands whose book may go to a printing house, or onto a screen."""

import argparse
from datetime import datetime
from pathlib import Path

from bookgen.binder.prepress.trim import BLEED_MM, WIDEST_BLEED_MM
from bookgen.commands.screen import say
from bookgen.errors import BookgenError, Finding, told
from bookgen.tasks.pressed import PressWish


def add_press_arguments(parser: argparse.ArgumentParser) -> None:
    """Describe them to the parser."""
    parser.add_argument(
        "--press",
        action="store_true",
        help=say("for a printing house: PDF/X-4 with bleed and crop marks, in black ink alone"),
    )
    parser.add_argument(
        "--profile",
        type=Path,
        metavar="FILE",
        help=say("with --press: the printer's ICC profile; one of black ink if not given"),
    )
    parser.add_argument(
        "--bleed",
        type=bleed_width,
        metavar="MM",
        help=say("with --press: 0 to 10 mm around the page; 3 if not given"),
    )
    parser.add_argument("--no-marks", action="store_true", help=say("with --press: no crop marks"))


def add_screen_argument(parser: argparse.ArgumentParser) -> None:
    """Describe the option of commands whose book may be read on a screen and by ear."""
    parser.add_argument(
        "--screen",
        action="store_true",
        help=say("for reading on a screen and by ear: PDF/UA-1 with words for charts and music"),
    )


def bleed_width(text: str) -> float:
    """How wide the bleed is, in millimetres.

    Raises:
        ArgumentTypeError: it is no number, or none that is cut off.
    """
    try:
        width = float(text)
    except ValueError:
        width = -1.0
    if not 0 <= width <= WIDEST_BLEED_MM:
        raise argparse.ArgumentTypeError(
            say("{text} is no width of a bleed; give 0 to 10", text=repr(text))
        )
    return width


def press_wish(given: argparse.Namespace, moment: datetime) -> PressWish | None:
    """What a parsed command line says of the press; None where none is wanted.

    Raises:
        BookgenError: something is for a press and none is wanted, or it cannot go together.
    """
    if not getattr(given, "press", False):
        refuse_without_press(given)
        return None
    if getattr(given, "screen", False):
        problem = told("a file is for a printing house or for a screen")
        raise BookgenError(Finding("--screen", problem, told("leave --screen or --press out")))
    if getattr(given, "print", None) is not None:
        problem = told("crop marks stand outside of the paper of an office printer")
        raise BookgenError(Finding("--print", problem, told("leave --print or --press out")))
    return PressWish(
        moment=moment,
        profile=given.profile,
        bleed_mm=BLEED_MM if given.bleed is None else given.bleed,
        marks=not given.no_marks,
    )


def refuse_without_press(given: argparse.Namespace) -> None:
    """Refuse what says something of a press that is not wanted.

    Raises:
        BookgenError: there is such a thing; all of it is told.
    """
    named = {"profile": "--profile", "bleed": "--bleed", "no_marks": "--no-marks"}
    findings = [
        Finding(option, told("it is for a file for the press"), told("add --press"))
        for name, option in named.items()
        if getattr(given, name, None) is not None and getattr(given, name) is not False
    ]
    if findings:
        raise BookgenError(*findings)
