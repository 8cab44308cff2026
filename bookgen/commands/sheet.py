"""`bookgen sheet`: today's practice sheet."""

import argparse
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date
from pathlib import Path
from typing import Final

from bookgen.commands.arguments import (
    Commands,
    add_page_arguments,
    page_arguments,
    pdf_place,
    read_date,
)
from bookgen.commands.asking import Wish, asked_of
from bookgen.commands.kept import printed_plan
from bookgen.commands.output import OUTPUT, file_stem
from bookgen.commands.pages import lilypond_ready, look, make_pages, publish
from bookgen.commands.printing import add_print_argument, print_if_wanted
from bookgen.commands.roster import LOG_FILE, NO_STUDIO, chosen_player, read_studio
from bookgen.readers.studio import Player, Studio
from bookgen.studio.practice_log import PracticeLog, open_log

LONGEST_SEED: Final = 15
"""Digits; a seed is kept in eight bytes."""


def add(commands: Commands) -> None:
    """Describe the command to the parser."""
    parser = commands.add_parser("sheet", help="make today's practice sheet")
    parser.add_argument("--player", metavar="P", help="who plays; from studio.toml if there is one")
    parser.add_argument("--date", metavar="D", help="year-month-day; today if not given")
    add_wish_arguments(parser)
    add_page_arguments(parser)
    add_print_argument(parser)
    parser.set_defaults(run=run_sheet)


def add_wish_arguments(parser: argparse.ArgumentParser) -> None:
    """Options of the commands that plan."""
    parser.add_argument("--minutes", metavar="N", help="practice time, 3 to 120")
    parser.add_argument("--instrument", metavar="I", help="violin (usual) or viola")
    parser.add_argument("--size", metavar="S", help="e.g. 3/4; the full size if not given")
    parser.add_argument(
        "--seed", type=seed_number, default=0, metavar="N", help="another run of days"
    )
    parser.add_argument(
        "--anew", action="store_true", help="plan again what was printed for the day already"
    )
    parser.add_argument("--plan", type=Path, metavar="FILE", help="write the plan document too")


def seed_number(text: str) -> int:
    """A seed that fits the plan document and the practice log.

    Raises:
        ArgumentTypeError: it is no whole number, or too large.
    """
    if not text.removeprefix("-").isascii() or not text.removeprefix("-").isdigit():
        msg = f"{text!r} is no whole number"
        raise argparse.ArgumentTypeError(msg)
    if len(text) > LONGEST_SEED:
        msg = f"give at most {LONGEST_SEED} digits"
        raise argparse.ArgumentTypeError(msg)
    return int(text)


def wish_of(given: argparse.Namespace) -> Wish:
    """What the command line says besides player and dates."""
    return Wish(given.instrument, given.size, given.minutes, given.seed)


def run_sheet(given: argparse.Namespace) -> Path:
    """Plan, engrave and bind one day. Returns the path of the sheet.

    The same day of a player on the roster is printed again as it was, unless it is to be
    planned anew.

    Raises:
        BookgenError: something that was given does not make a sheet.
    """
    pages = page_arguments(given)
    day = read_date(given.date)
    studio = read_studio()
    player = chosen_player(studio, given.player)
    wish = wish_of(given)
    asked = asked_of(player, wish)
    path = pdf_place(pages.out, usual_place(day, player))
    appearance = look(pages, layout=studio.layout, paper=studio.paper, studio=studio.name)
    with lilypond_ready(appearance) as ready:
        with log_of(studio, player) as log:
            plan = printed_plan(asked, [day], log, wish, anew=given.anew)
        made = make_pages(plan, asked.instrument, pages, appearance, ready)
    publish(made, path, plan, asked.instrument, pages)
    print_if_wanted(path, given)
    return path


@contextmanager
def log_of(studio: Studio, player: Player) -> Iterator[PracticeLog | None]:
    """The practice log, or None where the player is on no roster.

    Raises:
        BookgenError: the log is damaged or cannot be written.
    """
    if studio is NO_STUDIO or player.name not in studio.players:
        yield None
        return
    with open_log(LOG_FILE) as log:
        yield log


def usual_place(day: date, player: Player) -> Path:
    """Where the sheet goes if nothing else is said."""
    stem = file_stem(player.name) if player.name else "sheet"
    return OUTPUT / f"{stem}-{day.isoformat()}.pdf"
