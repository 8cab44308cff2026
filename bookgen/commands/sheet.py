"""`bookgen sheet`: today's practice sheet."""

import argparse
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Final

from bookgen.commands.arguments import (
    Commands,
    PageArguments,
    add_page_arguments,
    page_arguments,
    read_date,
    unknown,
)
from bookgen.commands.output import OUTPUT, file_stem
from bookgen.commands.pages import look, make_pages, publish
from bookgen.errors import BookgenError, Finding
from bookgen.model.instrument import Instrument
from bookgen.planner.first_sheet import PRACTICE_MINUTES, first_sheet
from bookgen.readers.instrument import read_instrument
from bookgen.readers.studio import Player, Studio, parse_studio

if TYPE_CHECKING:
    from collections.abc import Sequence

STUDIO_FILE: Final = Path("studio.toml")
NO_STUDIO: Final = Studio(None, None, None, {})


def add(commands: Commands) -> None:
    """Describe the command to the parser."""
    parser = commands.add_parser("sheet", help="make today's practice sheet")
    parser.add_argument("--player", metavar="P", help="who plays; from studio.toml if there is one")
    parser.add_argument("--date", metavar="D", help="year-month-day; today if not given")
    parser.add_argument("--minutes", metavar="N", help="practice time, 3 to 120")
    parser.add_argument("--instrument", metavar="I", help="violin (usual) or viola")
    parser.add_argument("--size", metavar="S", help="e.g. 3/4; the full size if not given")
    parser.add_argument("--seed", type=int, default=0, metavar="N", help="another run of days")
    parser.add_argument("--plan", type=Path, metavar="FILE", help="write the plan document too")
    add_page_arguments(parser)
    parser.set_defaults(run=run_sheet)


def run_sheet(given: argparse.Namespace) -> Path:
    """Plan, engrave and bind one day. Returns the path of the sheet.

    Raises:
        BookgenError: something that was given does not make a sheet.
    """
    pages = page_arguments(given)
    day = read_date(given.date)
    studio = read_studio()
    player = player_of(studio, given.player)
    instrument = read_instrument(given.instrument or player.instrument)
    size = size_of(instrument, given.size, player)
    minutes = minutes_of_day(given.minutes, player)
    plan = first_sheet(
        instrument, size, date=day, minutes=minutes, seed=given.seed, player=player.name or None
    )
    appearance = look(pages, layout=studio.layout, paper=studio.paper, studio=studio.name)
    made = make_pages(plan, instrument, pages, appearance)
    return publish(made, sheet_path(pages, day, player), plan, instrument, pages)


def read_studio() -> Studio:
    """The studio of the working folder, or an empty one.

    Raises:
        BookgenError: there is a studio file, but it is damaged.
    """
    if not STUDIO_FILE.exists():
        return NO_STUDIO
    try:
        return parse_studio(STUDIO_FILE.read_text(encoding="utf-8"), str(STUDIO_FILE))
    except (OSError, UnicodeDecodeError) as error:
        mend = "make it a readable text file in UTF-8"
        raise BookgenError(Finding(str(STUDIO_FILE), f"cannot be read ({error})", mend)) from error


def player_of(studio: Studio, name: str | None) -> Player:
    """The player who was asked for; where there is no roster, anyone may play.

    Raises:
        BookgenError: nobody of that name is on the roster.
    """
    if name is None:
        return Player("", "violin", None, 10)
    if studio is NO_STUDIO:
        if not name.strip():
            raise BookgenError(Finding("--player", "the name is empty", "give a name"))
        return Player(name, "violin", None, 10)
    return studio.player(name, str(STUDIO_FILE))


def size_of(instrument: Instrument, given: str | None, player: Player) -> str:
    """The size that was asked for, the player's, or the instrument's usual one.

    Raises:
        BookgenError: the instrument is not built in that size.
    """
    names: Sequence[str] = [size.name for size in instrument.sizes]
    size = given or player.size or names[0]
    if size not in names:
        where = "--size" if given else f'{STUDIO_FILE}, player "{player.name}", size'
        raise BookgenError(unknown(where, f"{instrument.key} size", size, names))
    return size


def minutes_of_day(given: str | None, player: Player) -> int:
    """Practice time in minutes, from the command line or the player's own.

    Raises:
        BookgenError: the text is no whole number, or no practice time.
    """
    least, most = PRACTICE_MINUTES[0], PRACTICE_MINUTES[-1]
    text = given if given is not None else str(player.minutes)
    if not text.isascii() or not text.isdigit() or int(text[:9]) not in PRACTICE_MINUTES:
        mend = f"give {least} to {most}"
        raise BookgenError(Finding("--minutes", f"{text!r} is no practice time", mend))
    return int(text)


def sheet_path(pages: PageArguments, day: date, player: Player) -> Path:
    """Where the sheet goes if nothing else is said."""
    stem = file_stem(player.name) if player.name else "sheet"
    return pages.out or OUTPUT / f"{stem}-{day.isoformat()}.pdf"
