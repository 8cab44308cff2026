"""Who plays: the player who was asked for, with instrument, size and minutes."""

import unicodedata
from collections.abc import Sequence
from dataclasses import replace
from difflib import get_close_matches
from hashlib import sha256
from itertools import count
from pathlib import Path
from typing import Final

from bookgen.errors import BookgenError, Finding, Message, Said, told
from bookgen.model.instrument import Instrument
from bookgen.model.spacing import Spacing
from bookgen.planner.request import PRACTICE_MINUTES
from bookgen.readers.hands import fingers_of, first_position, positions_of, usual_pairs
from bookgen.readers.names import folded
from bookgen.readers.own_instrument import instrument_at, key_of
from bookgen.readers.studio.area import Cover, Start, start_of
from bookgen.readers.studio.file import Player, Studio
from bookgen.readers.studio.second import second_name
from bookgen.readers.studio.tables import StartTable
from bookgen.tasks.studio_folder import STUDIO_NAME, StudioFolder

LONGEST_STEM: Final = 40
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


def stranger(instrument: Instrument) -> Player:
    """Nobody in particular on another instrument: its lowest positions and its usual pairs."""
    known, first = positions_of(instrument), first_position(instrument)
    count = len(NOBODY.cover.positions)
    positions = known[: max(count, known.index(first) + 1 if first else count)]
    pairs = tuple(map(fingers_of, usual_pairs(instrument, positions)))
    start = start_of(StartTable(), pairs, NOBODY.cover.spacings, positions, instrument)
    cover = replace(NOBODY.cover, positions=positions, pairs=pairs, start=start)
    return replace(NOBODY, instrument=instrument.key, cover=cover, own=instrument)


def player_of(folder: StudioFolder, name: str | None) -> Player:
    """The player who was asked for; nobody in particular where no name is given.

    Raises:
        BookgenError: nobody of that name is on the roster, or there is none.
    """
    if name is None:
        return NOBODY
    if not name.strip() or has_broken_letters(name):
        problem = told("the name is empty or no text in UTF-8")
        raise BookgenError(Finding("--player", problem, told("give a name")))
    if not folder.has_studio:
        problem = told("there is no studio here that knows {name}", name=repr(name))
        mend = told(
            "go to the folder with {file}, write one with `bookgen new-studio`, or leave"
            " --player out",
            file=STUDIO_NAME,
        )
        raise BookgenError(Finding("--player", problem, mend))
    return folder.studio.player(name, str(folder.file))


def chosen_player(folder: StudioFolder, name: str | None, instrument: str | None = None) -> Player:
    """The player who was asked for, or the only one on the roster.

    instrument: what is to be played; a second one of the player has numbers and a log of its own.

    Raises:
        BookgenError: nobody of that name is on the roster, or nobody was asked for of several.
    """
    players = folder.studio.players
    if name is not None or not players:
        return on_instrument(folder, player_of(folder, name), instrument)
    players = persons(folder.studio)
    if len(players) > 1:
        problem = told("{number} players are on the roster", number=len(players))
        mend = told("name one of {names}", names=", ".join(players))
        raise BookgenError(Finding("--player", problem, mend))
    return on_instrument(folder, next(iter(players.values())), instrument)


def persons(studio: Studio) -> dict[str, Player]:
    """Everyone on the roster, each on their first instrument."""
    players = studio.players
    keys = {player.instrument for player in players.values()}
    seconds = {second_name(one, other) for one in players for other in keys}
    return {one: player for one, player in players.items() if one not in seconds}


def on_instrument(folder: StudioFolder, player: Player, instrument: str | None) -> Player:
    """The same player on another instrument, if the roster has that for them."""
    if instrument is None:
        return player
    own = second_name(player.name, key_of(instrument) or instrument)
    return folder.studio.players.get(own, player)


def roster_of(folder: StudioFolder) -> list[Player]:
    """Everyone on the roster.

    Raises:
        BookgenError: there is nobody.
    """
    if not folder.studio.players:
        mend = told("write one with `bookgen new-studio`")
        raise BookgenError(Finding(STUDIO_NAME, told("no roster here"), mend))
    return [*folder.studio.players.values()]


def has_broken_letters(text: str) -> bool:
    """Whether the shell handed over bytes that are no letters in its encoding."""
    return any("\ud800" <= letter <= "\udfff" for letter in text)


def instrument_of(given: str | None, player: Player, folder: Path = Path()) -> Instrument:
    """The instrument that was asked for, or the player's.

    folder: of the studio, to which the path of a file is relative.

    Raises:
        BookgenError: there is none of that name, or its file is damaged.
    """
    if given is None or given == player.instrument:
        return player.plays
    return instrument_at(given, folder, "--instrument")


def place_of(player: Player, key: str) -> Message:
    """Where a player's setting stands, as the user knows it."""
    return told('{file}, player "{name}", {key}', file=STUDIO_NAME, name=player.name, key=key)


def size_of(instrument: Instrument, given: str | None, player: Player) -> str:
    """The size that was asked for, the player's, or the instrument's usual one.

    Raises:
        BookgenError: the instrument is not built in that size.
    """
    names: Sequence[str] = [size.name for size in instrument.sizes]
    size = given if given is not None else player.size or names[0]
    if size not in names:
        where = "--size" if given is not None else place_of(player, "size")
        problem = told("no {instrument} size {name}", instrument=instrument.key, name=repr(size))
        raise BookgenError(Finding(where, problem, choose(size, names)))
    return size


def minutes_of_day(given: str | None, player: Player) -> int:
    """Practice time in minutes, from the command line or the player's own.

    Raises:
        BookgenError: the text is no whole number, or no practice time.
    """
    least, most = PRACTICE_MINUTES[0], PRACTICE_MINUTES[-1]
    text = given if given is not None else str(player.minutes)
    if not text.isascii() or not text.isdigit() or int(text[:9]) not in PRACTICE_MINUTES:
        problem = told("{text} is no practice time", text=repr(text))
        mend = told("give {least} to {most}", least=least, most=most)
        raise BookgenError(Finding("--minutes", problem, mend))
    return int(text)


def choose(given: str, known: Sequence[str]) -> Said:
    """The mend for a name that is not among those there are; the nearest one is named."""
    alike = {folded(name): name for name in known}
    near = get_close_matches(folded(given), alike, n=1)
    names = ", ".join(known)
    if near:
        return told("perhaps {near}; choose {names}", near=alike[near[0]], names=names)
    return told("choose {names}", names=names)


def file_stem(name: str) -> str:
    """A file name from any name: small letters and digits of any script, hyphens.

    >>> file_stem("Ines O'Hara")
    'ines-o-hara'
    """
    plain = unicodedata.normalize("NFKC", name).casefold()
    letters = (letter if is_of_a_word(letter) else " " for letter in plain)
    return "-".join("".join(letters).split())[:LONGEST_STEM].rstrip("-") or "player"


def is_of_a_word(letter: str) -> bool:
    """Whether a letter, a digit, or a mark that belongs to the letter before it."""
    return letter.isalnum() or unicodedata.category(letter).startswith("M")


def player_stem(player: Player, studio: Studio) -> str:
    """A player's file name, which no other player of the studio has.

    Where the plain stems of two are the same, each gets letters that hang on the whole name.

    >>> file_stem("Anna-Maria") == file_stem("Anna Maria")
    True
    """
    stems = {name: file_stem(name) for name in studio.players}
    stem = file_stem(player.name)
    alike = [name for name in stems if stems[name] == stem]
    if len(alike) <= 1:
        return stem
    tries = ({name: f"{stem}-{digest(name)[:length]}" for name in alike} for length in count(4))
    marked = next(
        found for found in tries if len({*found.values()} - {*stems.values()}) == len(alike)
    )
    return marked[player.name]


def digest(name: str) -> str:
    """Hexadecimal digits that hang on every letter of a name."""
    return sha256(name.encode()).hexdigest()
