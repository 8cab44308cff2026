"""studio.toml: the studio and its players, or everything that is wrong with the file."""

import re
import unicodedata
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from difflib import get_close_matches
from pathlib import Path
from typing import Final

import msgspec

from bookgen.binder.page.paper import PAPERS
from bookgen.errors import BookgenError, Finding, Message, Said, told, within
from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.model.spacing import Frame
from bookgen.plan.calendar import NO_HOLIDAYS, Calendar
from bookgen.readers.instrument import instrument_keys, read_instrument
from bookgen.readers.names import folded, named
from bookgen.readers.own_instrument import instrument_at
from bookgen.readers.position_tables import called_by
from bookgen.readers.scordatura import retuned
from bookgen.readers.shown import plain, shown, unknown
from bookgen.readers.studio.area import Cover, cover_of, start_drills
from bookgen.readers.studio.calendar import read_calendar
from bookgen.readers.studio.known import KnownHands, read_known
from bookgen.readers.studio.passages import Piece, read_pieces
from bookgen.readers.studio.second import seconds_of
from bookgen.readers.studio.tables import WEEKDAYS, WORDS, PlayerTable, StartTable, StudioTable
from bookgen.readers.table import converted

EVERY_DAY: Final = frozenset(range(7))


@dataclass(frozen=True, slots=True)
class Player:
    """Who plays, and what is to be covered.

    size: name of a size of the instrument, or None for its usual one.
    minutes: practice time of an ordinary day.
    practice_days: weekdays, 0 is Monday.
    note: printed for the player, or None.
    layout, language: of the player's pages; None takes the studio's.
    pieces: passages that the player works towards.
    known: hands that the player knows when the log begins.
    calendar: days away, and the lesson.
    formerly: under which name the log may still hold what was printed.
    own: the instrument where it has a file of the user's own, or another tuning.
    """

    name: str
    instrument: str
    size: str | None
    minutes: int
    cover: Cover
    practice_days: frozenset[int] = EVERY_DAY
    note: str | None = None
    layout: str | None = None
    language: str | None = None
    pieces: tuple[Piece, ...] = ()
    known: tuple[KnownHands, ...] = ()
    calendar: Calendar = NO_HOLIDAYS
    formerly: str | None = None
    own: Instrument | None = None

    @property
    def plays(self) -> Instrument:
        """The player's instrument."""
        return self.own or read_instrument(self.instrument)

    def frames(self, instrument: Instrument) -> tuple[Frame, ...]:
        """Every chosen hand with every chosen spacing that it takes without a stretch."""
        return tuple(self.cover.frames(instrument))

    def start(self, instrument: Instrument) -> Drill:
        """Stage 1 of the hand with which the player begins, where it rings best."""
        return start_drills(self.cover, instrument)[0]


@dataclass(frozen=True, slots=True)
class Studio:
    """A studio and its roster; what the file does not say of its pages is None."""

    name: str | None = None
    paper: str | None = None
    layout: str | None = None
    language: str | None = None
    players: Mapping[str, Player] = field(default_factory=dict)

    def player(self, name: str, file: str) -> Player:
        """The player of that name.

        Raises:
            BookgenError: nobody of that name is on the roster.
        """
        found = named(name, self.players)
        if found is not None:
            return self.players[found]
        near = get_close_matches(name, self.players, n=1)
        former = {one.formerly: one.name for one in self.players.values() if one.formerly}
        was = named(name, former)
        near = [former[was]] if was else near
        if near:
            mend = told("perhaps {name}", name=repr(near[0]))
        else:
            mend = told('add a table [players."{name}"]', name=name)
        raise BookgenError(Finding(file, told("no player {name}", name=repr(name)), mend))


PLAYER_TABLE: Final = re.compile(
    r"\s*(?P<open>\[\[?)\s*players\.(?P<name>[^\"\[\]#]+?)\s*"
    r"(?P<rest>(?:\.(?:start|passage))?\s*\]\]?)\s*(?:#.*)?"
)
BARE: Final = re.compile(r"[A-Za-z0-9_.-]+")


def parse_studio(text: str, file: str) -> Studio:
    """Read the text of a studio file.

    file: the name under which the user knows it.

    Raises:
        BookgenError: the text is no TOML, has an unknown key, or a value that cannot be; all
            of them are told.
    """
    try:
        everything = msgspec.toml.decode(text)
    except msgspec.DecodeError as error:
        problem = told("no TOML ({why})", why=str(error))
        bare = [*unquoted(text, file)] or [Finding(file, problem, told("mend it in the file"))]
        raise BookgenError(*bare) from error
    findings: list[Finding] = []
    top = converted(everything, StudioTable, file, findings, words=WORDS)
    paper = None if top.paper is None else named(top.paper, PAPERS)
    if top.paper is not None and paper is None:
        place, papers = within(file, "paper"), tuple(sorted(PAPERS))
        findings.append(
            unknown(place, told("no paper {name}", name=shown(top.paper)), top.paper, papers)
        )
    tables = tables_of(top.players, file, findings)
    findings += name_faults([name for name, _ in tables], file)
    players = {}
    for name, table in tables:
        player = read_player(name, table, Path(file).parent, place_of(name, file))
        if isinstance(player, Player):
            players[name] = player
        else:
            findings += player
    findings += [*former_faults(players, file)]
    if findings:
        raise BookgenError(*findings)
    return Studio(top.name, paper, top.layout, top.language, players)


def tables_of(
    players: Mapping[str, object], file: str, findings: list[Finding]
) -> list[tuple[str, object]]:
    """Each player's table, and one for each of their further instruments."""
    found: list[tuple[str, object]] = []
    for written, table in players.items():
        name = unicodedata.normalize("NFC", written)
        found.append((name, table))
        found += seconds_of(name, table, place_of(name, file), findings)
    return found


def unquoted(text: str, file: str) -> Iterator[Finding]:
    """A finding for each table of a player whose name needs quotes and has none.

    TOML 1.0.0, "Keys": bare keys are ASCII letters, digits, hyphens and underscores.
    """
    for number, line in enumerate(text.splitlines(), start=1):
        head = PLAYER_TABLE.fullmatch(line)
        if head and not BARE.fullmatch(head["name"]):
            place = told("{file}, line {line}", file=file, line=number)
            problem = told("the name {name} needs quotes", name=repr(head["name"]))
            good = f'{head["open"]}players."{head["name"]}"{head["rest"]}'
            yield Finding(place, problem, told("write {good}", good=good))


def former_faults(players: Mapping[str, Player], file: str) -> Iterator[Finding]:
    """Findings for former names that somebody else has, or had."""
    seen: set[str] = set()
    for player in players.values():
        if player.formerly is not None and player.formerly in {*players, *seen}:
            problem = told("{name} is somebody else", name=repr(player.formerly))
            place = within(place_of(player.name, file), "formerly")
            yield Finding(place, problem, told("give each player a name of their own"))
        seen |= {player.formerly or ""}


def name_faults(names: list[str], file: str) -> list[Finding]:
    """Findings for names that cannot be printed, or that differ too little for their files."""
    findings = []
    seen: dict[str, str] = {}
    for name in names:
        if not name.strip():
            problem = told("{name} is no name", name=shown(name))
            findings.append(Finding(within(file, "players"), problem, told("give a name")))
        if not is_printable(name):
            problem = told("it holds characters that cannot be printed")
            findings.append(Finding(place_of(name, file), problem, told("take them out")))
        before = seen.setdefault(folded(name), name)
        if before != name:
            problem = told(
                "{one} and {other} are the same name", one=repr(before), other=repr(name)
            )
            mend = told("let them differ in a letter")
            findings.append(Finding(within(file, "players"), problem, mend))
    return findings


def place_of(name: str, file: str) -> Message:
    """A player's table as the user knows it."""
    return told('{file}, player "{name}"', file=file, name=plain(name))


JOINERS: Final = "\u200c\u200d"
"""Invisible letters without which some names, in some scripts, are misspelt."""


def is_printable(name: str) -> bool:
    """Whether a name has no control characters, escapes, or letters that no script has."""
    kinds = {unicodedata.category(letter)[0] for letter in name if letter not in JOINERS}
    return "C" not in kinds and not {"\u2028", "\u2029"} & set(name)


def read_player(name: str, value: object, folder: Path, place: Said) -> Player | list[Finding]:
    """A player from the table, or everything that is wrong with it.

    folder: to which paths in it are relative. place: file and player as the user knows them.
    """
    findings: list[Finding] = []
    table = converted(value, PlayerTable, place, findings, words=WORDS)
    start = converted(table.start, StartTable, place, findings, words=WORDS, prefix="start.")
    try:
        instrument = instrument_of(table, folder, place)
    except BookgenError as error:
        return [*findings, *error.findings]
    sizes = tuple(size.name for size in instrument.sizes)
    if table.size is not None and table.size not in sizes:
        where, size = within(place, "size"), shown(table.size)
        problem = told("no {instrument} size {name}", instrument=instrument.key, name=size)
        findings.append(unknown(where, problem, table.size, sizes))
    calendar = read_calendar(table.away, table.lesson, place, findings)
    pieces = read_pieces(table.passage, place, findings)
    cover = cover_of(table, start, instrument, place)
    if isinstance(cover, list):
        return [*findings, *cover]
    known = read_known(table.known, cover, instrument, place, findings)
    return findings or Player(
        name=name,
        instrument=instrument.key,
        size=table.size,
        minutes=table.minutes,
        cover=cover,
        practice_days=frozenset(map(WEEKDAYS.index, table.practice_days)),
        note=table.note,
        layout=table.layout,
        language=table.language,
        pieces=pieces,
        known=known,
        calendar=calendar,
        formerly=table.formerly and unicodedata.normalize("NFC", table.formerly),
        own=None if instrument.key in instrument_keys() else instrument,
    )


def instrument_of(table: PlayerTable, folder: Path, place: Said) -> Instrument:
    """A player's instrument with its strings and positions as the table has them.

    Raises:
        BookgenError: there is no such instrument, or no such tuning or table of positions of it.
    """
    instrument = instrument_at(table.instrument, folder, within(place, "instrument"))
    if table.positions_by is not None:
        instrument = called_by(instrument, table.positions_by, within(place, "positions_by"))
    if table.scordatura is None:
        return instrument
    return retuned(instrument, table.scordatura, within(place, "scordatura"))


def plain_player(instrument: Instrument, name: str = "") -> Player:
    """Someone of whom no file says anything.

    Raises:
        BookgenError: the instrument's hand takes no usual pair in first position.
    """
    cover = cover_of(PlayerTable(), StartTable(), instrument, name)
    if isinstance(cover, list):
        raise BookgenError(*cover)
    return Player(name, instrument.key, None, PlayerTable().minutes, cover)
