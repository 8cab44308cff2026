"""Results on their way into the practice log, and what stands in it."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from datetime import datetime
from pathlib import Path

from bookgen.errors import BookgenError, Finding, told
from bookgen.plan.record import Result
from bookgen.readers.day import Calendar
from bookgen.readers.names import named
from bookgen.readers.spreadsheet import letters_of
from bookgen.readers.studio.second import second_name
from bookgen.studio.entries import Entered, KeptDrill, Marking
from bookgen.studio.practice_log import PracticeLog
from bookgen.tasks.log_copy import bytes_of
from bookgen.tasks.results_file import ResultsFile
from bookgen.tasks.roster import NOBODY, choose, has_broken_letters, instrument_of, persons
from bookgen.tasks.studio_folder import STUDIO_NAME, StudioFolder


@dataclass(frozen=True, slots=True)
class Marked:
    """Results that were entered.

    new: those of them that did not stand so already.
    left_out: lines of a file that have no result.
    """

    markings: Sequence[Marking]
    new: Sequence[Marking]
    left_out: Sequence[int] = ()


@dataclass(frozen=True, slots=True)
class Shown:
    """What stands in the log for a player.

    drills: those that were printed, in the order of their numbers.
    history: every entry, in the order in which they were made.
    """

    player: str
    drills: Sequence[KeptDrill]
    history: Sequence[Entered]


def enter(
    folder: StudioFolder,
    player: str | None,
    results: Sequence[tuple[Result, Sequence[int]]],
    day: Date | None,
    now: datetime,
) -> Marked:
    """Enter results by the drills' numbers, all or none.

    day: on which they were played; None is the day for which each page was printed.
    now: with its time zone.

    Raises:
        BookgenError: nobody of that name is here, or a result cannot be entered.
    """
    with folder.log(make=False) as log:
        who = one_player(folder, log, player)
        markings = [
            Marking(who, number, result, day) for result, numbers in results for number in numbers
        ]
        return Marked(markings, log.enter_all(markings, now))


def enter_file(
    folder: StudioFolder, player: str | None, path: Path, now: datetime, locale: str | None
) -> Marked:
    """Enter the results of a table, all or none.

    player: for whom the lines are that name nobody.
    locale: in which the table's days are written, e.g. "de_DE"; None where nobody says.

    Raises:
        BookgenError: the file cannot be read, or some of its lines cannot be entered.
    """
    with folder.log(make=False) as log:
        players = known_players(folder, log)
        only = alone(folder, log) if player is None else one_player(folder, log, player)
        file = ResultsFile(str(path), players, only, Calendar.of(locale, now.date()))
        file.read(letters_of(bytes_of(folder.path / path), str(path)))
        findings = list(file.findings)
        try:
            log.checked(file.markings, now)
        except BookgenError as error:
            findings += error.findings
        if findings:
            raise BookgenError(*file.in_order(findings))
        return Marked(file.markings, log.enter_all(file.markings, now), tuple(file.left_out))


def name_among(folder: StudioFolder, words: Sequence[str]) -> str | None:
    """The player whom one of the words names; None where all are numbers.

    Raises:
        BookgenError: a word is no number and names nobody, or they name several.
    """
    names = [word for word in words if not any(letter.isdigit() for letter in word)]
    if not names:
        return None
    with folder.log(make=False) as log:
        players = known_players(folder, log)
    found = [named(name, players) for name in names]
    for name, player in zip(names, found, strict=True):
        if player is None:
            problem = told("{text} is no number of a drill, and nobody here", text=repr(name))
            raise BookgenError(Finding("NUMBER", problem, choose(name, players)))
    if len(set(found)) > 1:
        problem = told("{options} do not go together", options=", ".join(map(repr, names)))
        raise BookgenError(Finding("NUMBER", problem, told("name one player")))
    return found[0]


def undo(
    folder: StudioFolder, player: str | None, numbers: Sequence[int] | None, now: datetime
) -> Sequence[Entered]:
    """Take back the last call, or the last results of some numbers. Returns what was taken back.

    Raises:
        BookgenError: there is nothing to take back, or nobody of that name.
    """
    with folder.log(make=False) as log:
        everyone = player is None and not numbers and folder.log_file.exists()
        who = None if everyone else one_player(folder, log, player)
        return log.undo(who, numbers, now)


def show(
    folder: StudioFolder, player: str | None, numbers: frozenset[int] | None
) -> Sequence[Shown]:
    """What was printed for a player, or for everyone, and what became of it.

    numbers: None shows all.

    Raises:
        BookgenError: nobody of that name is here.
    """
    with folder.log(make=False) as log:
        everyone = player is None and len(folder.studio.players or known_players(folder, log)) > 1
        players = known_players(folder, log) if everyone else [one_player(folder, log, player)]
        return [shown(log, name, numbers) for name in players]


def shown(log: PracticeLog, player: str, numbers: frozenset[int] | None) -> Shown:
    """What stands in the log for a player.

    numbers: a drill's own, or others under which older bookgens printed it; None shows all.
    """
    drills = [
        drill
        for drill in log.drills(player)
        if drill.items and (numbers is None or not numbers.isdisjoint(drill.numbers))
    ]
    own = {number for drill in drills for number in drill.numbers}
    history = [entry for entry in log.history(player) if entry.number in own]
    return Shown(player, drills, history)


def known_players(folder: StudioFolder, log: PracticeLog) -> list[str]:
    """Everyone on the roster, and everyone for whom something was printed.

    Raises:
        BookgenError: there is nobody.
    """
    players = list(dict.fromkeys((*folder.studio.players, *log.players())))
    if players:
        return players
    if folder.has_studio:
        problem, mend = told("nobody plays here"), told("add a table [players.NAME]")
    else:
        problem = told("there is no studio in this folder")
        mend = told("write one with `bookgen new-studio`")
    raise BookgenError(Finding(STUDIO_NAME, problem, mend))


def alone(folder: StudioFolder, log: PracticeLog) -> str | None:
    """The only player there is, on whatever instruments, or None where there are several."""
    players = list(persons(folder.studio)) or known_players(folder, log)
    return players[0] if len(players) == 1 else None


def player_on(folder: StudioFolder, player: str | None, instrument: str) -> str:
    """The name under which a player's results on an instrument are kept.

    Raises:
        BookgenError: nobody of that name is here, or there is no such instrument.
    """
    key = instrument_of(instrument, NOBODY).key
    with folder.log(make=False) as log:
        name = one_player(folder, log, player)
        second = second_name(name, key)
        return second if second in known_players(folder, log) else name


def one_player(folder: StudioFolder, log: PracticeLog, name: str | None) -> str:
    """The player who was named, or the only one.

    Raises:
        BookgenError: nobody of that name is here, or several are and none was named.
    """
    players = known_players(folder, log)
    if name is None:
        only = alone(folder, log)
        if only is None:
            mend = told("name one of {names}", names=", ".join(players))
            raise BookgenError(Finding("--player", told("several play here"), mend))
        return only
    if has_broken_letters(name):
        raise BookgenError(Finding("--player", told("no text in UTF-8"), told("give a name")))
    found = named(name, players)
    return found if found is not None else folder.studio.player(name, str(folder.file)).name
