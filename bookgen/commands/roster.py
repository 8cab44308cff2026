"""The studio of the working folder: who plays, on which instrument, and for how long."""

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Final

from bookgen.commands.arguments import unknown
from bookgen.errors import BookgenError, Finding
from bookgen.model.instrument import Instrument
from bookgen.model.spacing import Spacing
from bookgen.planner.request import PRACTICE_MINUTES
from bookgen.readers.instrument import instrument_keys, read_instrument
from bookgen.readers.studio import Player, Studio, parse_studio
from bookgen.readers.studio_area import Cover, Start
from bookgen.studio.practice_log import LOG_NAME

if TYPE_CHECKING:
    from collections.abc import Sequence

STUDIO_FILE: Final = Path("studio.toml")
LOG_FILE: Final = Path(LOG_NAME)
NO_STUDIO: Final = Studio()
NOBODY: Final = Player(
    name="",
    instrument="violin",
    size=None,
    minutes=10,
    cover=Cover(
        positions=("half", "1st", "2nd", "3rd"),
        pairs=((1, 2), (2, 3), (3, 4)),
        spacings=(Spacing.HALF, Spacing.WHOLE),
        fewest_strings=3,
        highest_stage=4,
        start=Start((1, 2), Spacing.WHOLE, "1st", 0),
    ),
)
"""Plays where no name is given: a violin of the usual size, ten minutes."""


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


def chosen_player(studio: Studio, name: str | None) -> Player:
    """The player who was asked for, or the only one on the roster.

    Raises:
        BookgenError: nobody of that name is on the roster, or nobody was asked for of several.
    """
    if name is not None or not studio.players:
        return player_of(studio, name)
    if len(studio.players) > 1:
        names = ", ".join(studio.players)
        problem = f"{len(studio.players)} players are on the roster"
        raise BookgenError(Finding("--player", problem, f"name one of {names}"))
    return next(iter(studio.players.values()))


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
