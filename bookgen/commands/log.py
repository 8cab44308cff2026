"""`bookgen log`: results into the practice log, and what stands in it."""

import argparse
import unicodedata
from collections.abc import Sequence
from datetime import UTC, datetime
from pathlib import Path
from typing import Final

from bookgen.commands.arguments import Commands, read_date
from bookgen.commands.log_file import export_log, import_log
from bookgen.commands.log_table import history_table, log_table
from bookgen.commands.numbers import numbers_of
from bookgen.commands.results_file import ResultsFile
from bookgen.commands.roster import (
    LOG_FILE,
    NO_STUDIO,
    STUDIO_FILE,
    has_broken_letters,
    read_studio,
)
from bookgen.errors import BookgenError, Finding
from bookgen.plan.record import Result
from bookgen.readers.studio import Studio
from bookgen.studio.entries import Marking, numbers_text
from bookgen.studio.practice_log import PracticeLog, open_log

EPILOG: Final = (
    "Numbers are those on the page, also as ranges: `bookgen log --player Ines 3 5-8 --secure`, "
    "or both results at once: `bookgen log --player Ines --secure 3 5-8 --not-yet 4`. A result "
    "without --date counts for the day for which its page was printed. The last result that was "
    "entered is valid; nothing is ever lost, `--show --all-history` tells it all."
)
"""Printed below the options."""


def add(commands: Commands) -> None:
    """Describe the command to the parser."""
    parser = commands.add_parser("log", help="enter, show and take back results", epilog=EPILOG)
    parser.add_argument("numbers", nargs="*", metavar="NUMBER", help="numbers on the page: 3 5-8")
    parser.add_argument("--player", metavar="P", help="who played; not needed for a lone player")
    for option, word in (("--secure", "secure"), ("--not-yet", "not yet secure")):
        parser.add_argument(option, nargs="*", metavar="NUMBER", help=f"these drills are {word}")
    parser.add_argument(
        "--date", metavar="D", help="when they were played; the page's day if not given"
    )
    parser.add_argument("--show", action="store_true", help="show what was printed and its results")
    parser.add_argument("--all-history", action="store_true", help="show every entry too")
    parser.add_argument(
        "--undo",
        nargs="*",
        metavar="NUMBER",
        help="take back the last call, or these numbers' results",
    )
    parser.add_argument(
        "--from-csv",
        type=Path,
        metavar="FILE",
        help="results of many players: player,number,result,date",
    )
    parser.add_argument(
        "--export", type=Path, metavar="FILE", help="copy the whole log into a .csv or .json file"
    )
    parser.add_argument(
        "--import", type=Path, metavar="FILE", dest="import_", help="take in such a copy"
    )
    parser.add_argument("--quiet", action="store_true", help="print nothing but errors")
    parser.set_defaults(run=run_log)


def run_log(given: argparse.Namespace) -> Path | str:
    """Do the one thing that was asked for. Returns what to print.

    Raises:
        BookgenError: something that was given cannot be entered, shown or taken back.
    """
    match wanted(given):
        case "--export":
            return export_log(given.export)
        case "--import":
            return import_log(given.import_)
        case "--show":
            with open_log(LOG_FILE, make=False) as log:
                return show(log, given)
        case action:
            with open_log(LOG_FILE, make=False) as log:
                entering = {"--undo": undo, "--from-csv": enter_file}.get(action, enter)
                return f"{entering(log, given)}\n{LOG_FILE}"


def wanted(given: argparse.Namespace) -> str:
    """The one thing that is asked for.

    Raises:
        BookgenError: nothing is, or two things are that do not go together.
    """
    asked = {
        "--secure or --not-yet": given.secure is not None or given.not_yet is not None,
        "--show": given.show,
        "--undo": given.undo is not None,
        "--from-csv": given.from_csv is not None,
        "--export": given.export is not None,
        "--import": given.import_ is not None,
    }
    found = [option for option, is_asked in asked.items() if is_asked]
    if len(found) != 1:
        problem = f"{' and '.join(found)} do not go together" if found else "nothing to do is given"
        raise BookgenError(Finding("command line", problem, f"give one of {', '.join(asked)}"))
    return found[0]


def now() -> datetime:
    """This moment in the time zone of this machine."""
    return datetime.now(UTC).astimezone()


def enter(log: PracticeLog, given: argparse.Namespace) -> str:
    """Enter the results of the command line."""
    player = one_player(read_studio(), log, given.player)
    date = None if given.date is None else read_date(given.date)
    markings = [
        Marking(player, number, result, date)
        for result, words in shared_out(given)
        for number in numbers_of(words, "NUMBER")
    ]
    return told(markings, log.enter_all(markings, now()))


def shared_out(given: argparse.Namespace) -> list[tuple[Result, list[str]]]:
    """Which numbers get which result.

    Numbers in front of the options go with the only one, or with the one that has none itself.

    Raises:
        BookgenError: a result has no numbers, or a number has no result.
    """
    asked = {Result.SECURE: given.secure, Result.NOT_YET: given.not_yet}
    results = {result: list(words) for result, words in asked.items() if words is not None}
    open_ones = [result for result, words in results.items() if not words]
    if given.numbers:
        heirs = open_ones if len(results) > 1 else list(results)
        if len(heirs) != 1:
            problem = f"which result has {' '.join(given.numbers)}?"
            raise BookgenError(Finding("NUMBER", problem, "write it behind --secure or --not-yet"))
        results[heirs[0]] = [*given.numbers, *results[heirs[0]]]
    for result, words in results.items():
        if not words:
            option = f"--{result.replace(' ', '-')}"
            raise BookgenError(Finding(option, "no number is given", "write e.g. 3 5-8"))
    return list(results.items())


def enter_file(log: PracticeLog, given: argparse.Namespace) -> str:
    """Enter the results of a CSV file, all or none.

    Raises:
        BookgenError: the file cannot be read, or some of its lines cannot be entered.
    """
    studio = read_studio()
    players = known_players(studio, log)
    named = given.player is not None
    only = one_player(studio, log, given.player) if named else alone(studio, log)
    file = ResultsFile(str(given.from_csv), players, only)
    file.read(text_of(given.from_csv))
    findings = list(file.findings)
    try:
        log.checked(file.markings, now())
    except BookgenError as error:
        findings += error.findings
    if findings:
        raise BookgenError(*file.in_order(findings))
    return told(file.markings, log.enter_all(file.markings, now()))


def text_of(file: Path) -> str:
    """The text of a file.

    Raises:
        BookgenError: it cannot be read.
    """
    try:
        return file.read_bytes().decode("utf-8-sig")
    except (OSError, UnicodeDecodeError) as error:
        problem, mend = f"cannot be read ({error})", "give a CSV file in UTF-8"
        raise BookgenError(Finding(str(file), problem, mend)) from error


def told(markings: Sequence[Marking], new: Sequence[Marking]) -> str:
    """What was entered, a line for each player and result."""
    changed = {(marking.player, marking.number) for marking in new}
    lines: dict[tuple[str, str], list[int]] = {}
    for marking in markings:
        is_new = (marking.player, marking.number) in changed
        word = str(marking.result) if is_new else f"{marking.result} already, nothing changed"
        lines.setdefault((marking.player, word), []).append(marking.number)
    return (
        "\n".join(
            f"{player}: {numbers_text(numbers)} {word}" for (player, word), numbers in lines.items()
        )
        or "nothing to enter"
    )


def undo(log: PracticeLog, given: argparse.Namespace) -> str:
    """Take back the last call, or the results of some numbers."""
    words = [*given.numbers, *given.undo]
    lone = given.player is None and not words and LOG_FILE.exists()
    player = None if lone else one_player(read_studio(), log, given.player)
    numbers = numbers_of(words, "--undo") if words else None
    taken = log.undo(player, numbers, now())
    return "\n".join(
        f"{entry.player}: No. {entry.number} {entry.result} is taken back" for entry in taken
    )


def show(log: PracticeLog, given: argparse.Namespace) -> str:
    """What was printed for a player, or for everyone, and what became of it."""
    studio = read_studio()
    everyone = given.player is None and alone(studio, log) is None
    players = known_players(studio, log) if everyone else [one_player(studio, log, given.player)]
    numbers = set(numbers_of(given.numbers, "NUMBER")) if given.numbers else None
    tables = [log_table, history_table] if given.all_history else [log_table]
    return "\n\n".join(table(log, player, numbers) for player in players for table in tables)


def known_players(studio: Studio, log: PracticeLog) -> list[str]:
    """Everyone on the roster, and everyone for whom something was printed.

    Raises:
        BookgenError: there is nobody.
    """
    players = list(dict.fromkeys((*studio.players, *log.players())))
    if not players:
        problem = (
            "nobody plays here" if studio is not NO_STUDIO else "there is no studio in this folder"
        )
        mend = (
            "write one with `bookgen new-studio`"
            if studio is NO_STUDIO
            else "add a table [players.NAME]"
        )
        raise BookgenError(Finding(str(STUDIO_FILE), problem, mend))
    return players


def alone(studio: Studio, log: PracticeLog) -> str | None:
    """The only player there is, or None where there are several."""
    players = list(studio.players) or known_players(studio, log)
    return players[0] if len(players) == 1 else None


def one_player(studio: Studio, log: PracticeLog, name: str | None) -> str:
    """The player who was named, or the only one.

    Raises:
        BookgenError: nobody of that name is here, or several are and none was named.
    """
    players = known_players(studio, log)
    if name is None:
        only = alone(studio, log)
        if only is None:
            problem, mend = "several play here", f"name one of {', '.join(players)}"
            raise BookgenError(Finding("--player", problem, mend))
        return only
    if has_broken_letters(name):
        raise BookgenError(Finding("--player", "no text in UTF-8", "give a name"))
    composed = unicodedata.normalize("NFC", name)
    if composed in players:
        return composed
    return studio.player(name, str(STUDIO_FILE)).name
