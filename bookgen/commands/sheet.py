"""`bookgen sheet`: today's practice sheet."""

import argparse
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Final

from bookgen.commands.arguments import (
    Commands,
    add_page_arguments,
    page_arguments,
    pdf_place,
    read_date,
    unknown,
)
from bookgen.commands.output import OUTPUT, file_stem
from bookgen.commands.pages import look, make_pages, publish
from bookgen.errors import BookgenError, Finding
from bookgen.model.instrument import Instrument
from bookgen.planner.first_sheet import PRACTICE_MINUTES, first_sheet
from bookgen.readers.instrument import instrument_keys, read_instrument
from bookgen.readers.studio import Player, Studio, parse_studio

if TYPE_CHECKING:
    from collections.abc import Sequence

STUDIO_FILE: Final = Path("studio.toml")
NO_STUDIO: Final = Studio(None, None, None, {})
NOBODY: Final = Player("", "violin", None, 10)
"""Plays where no name is given: a violin of the usual size, ten minutes."""


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
    path = pdf_place(pages.out, usual_place(day, player))
    instrument = instrument_of(given.instrument, player)
    size = size_of(instrument, given.size, player if given.instrument is None else NOBODY)
    minutes = minutes_of_day(given.minutes, player)
    plan = first_sheet(
        instrument, size, date=day, minutes=minutes, seed=given.seed, player=player.name or None
    )
    appearance = look(pages, layout=studio.layout, paper=studio.paper, studio=studio.name)
    made = make_pages(plan, instrument, pages, appearance)
    return publish(made, path, plan, instrument, pages)


def read_studio() -> Studio:
    """The studio of the working folder, or an empty one.

    Raises:
        BookgenError: there is a studio file, but it is damaged.
    """
    if not STUDIO_FILE.exists():
        return NO_STUDIO
    try:
        return parse_studio(STUDIO_FILE.read_text(encoding="utf-8-sig"), str(STUDIO_FILE))
    except (OSError, UnicodeDecodeError) as error:
        mend = "make it a readable text file in UTF-8"
        raise BookgenError(Finding(str(STUDIO_FILE), f"cannot be read ({error})", mend)) from error


def player_of(studio: Studio, name: str | None) -> Player:
    """The player who was asked for; where there is no roster, anyone may play.

    Raises:
        BookgenError: nobody of that name is on the roster.
    """
    if name is None:
        return NOBODY
    if not name.strip() or has_broken_letters(name):
        problem = "the name is empty or no text in UTF-8"
        raise BookgenError(Finding("--player", problem, "give a name"))
    if studio is NO_STUDIO:
        return replace(NOBODY, name=name)
    return studio.player(name, str(STUDIO_FILE))


def has_broken_letters(text: str) -> bool:
    """Whether the shell handed over bytes that are no letters in its encoding."""
    return any("\ud800" <= letter <= "\udfff" for letter in text)


def instrument_of(given: str | None, player: Player) -> Instrument:
    """The instrument that was asked for, or the player's.

    Raises:
        BookgenError: there is none of that name.
    """
    name = given if given is not None else player.instrument
    if name not in instrument_keys():
        where = "--instrument" if given is not None else place_of(player, "instrument")
        raise BookgenError(unknown(where, "instrument", name, instrument_keys()))
    return read_instrument(name)


def place_of(player: Player, key: str) -> str:
    """Where a player's setting stands, as the user knows it."""
    return f'{STUDIO_FILE}, player "{player.name}", {key}'


def size_of(instrument: Instrument, given: str | None, player: Player) -> str:
    """The size that was asked for, the player's, or the instrument's usual one.

    Raises:
        BookgenError: the instrument is not built in that size.
    """
    names: Sequence[str] = [size.name for size in instrument.sizes]
    size = given if given is not None else player.size or names[0]
    if size not in names:
        where = "--size" if given is not None else place_of(player, "size")
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


def usual_place(day: date, player: Player) -> Path:
    """Where the sheet goes if nothing else is said."""
    stem = file_stem(player.name) if player.name else "sheet"
    return OUTPUT / f"{stem}-{day.isoformat()}.pdf"
