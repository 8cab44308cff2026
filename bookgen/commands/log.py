"""`bookgen log`: results into the practice log, and what stands in it."""

import argparse
from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path

from bookgen.commands.arguments import (
    Commands,
    add_instrument_argument,
    add_player_argument,
    here,
    machine_locale,
    now,
    read_date,
)
from bookgen.commands.log_player import take_instrument, take_name
from bookgen.commands.log_table import history_table, log_table
from bookgen.commands.screen import say, speech
from bookgen.errors import BookgenError, Finding, told
from bookgen.plan.record import Result
from bookgen.studio.entries import runs
from bookgen.studio.practice_log import LOG_NAME
from bookgen.tasks import results
from bookgen.tasks.instruments import finder
from bookgen.tasks.log_copy import export_log, holds_copy, import_log
from bookgen.tasks.numbers import numbers_of
from bookgen.tasks.results import Marked, Shown
from bookgen.words.days import result_words


def add(commands: Commands) -> None:
    """Describe the command to the parser."""
    parser = commands.add_parser(
        "log",
        help=say("enter, show and take back results"),
        epilog=say(
            "Numbers are those on the page, also as ranges: `bookgen log Ines 3 5-8 --secure`, or"
            " both results at once: `bookgen log Ines --secure 3 5-8 --not-yet 4`. A result"
            " without --date counts for the day for which its page was printed. The last result"
            " that was entered is valid; nothing is ever lost, `--show --all-history` tells it"
            " all."
        ),
    )
    add_result_arguments(parser)
    add_file_arguments(parser)
    parser.add_argument("--quiet", action="store_true", help=say("print nothing but errors"))
    parser.set_defaults(run=run_log)


def add_result_arguments(parser: argparse.ArgumentParser) -> None:
    """The options that enter, show and take back results."""
    parser.add_argument(
        "numbers",
        nargs="*",
        metavar="PLAYER|NUMBER",
        help=say("who plays; numbers on the page: 3 5-8"),
    )
    add_player_argument(parser)
    add_instrument_argument(parser)
    parser.add_argument(
        "--secure", nargs="*", metavar="NUMBER", help=say("these drills are secure")
    )
    parser.add_argument(
        "--not-yet", nargs="*", metavar="NUMBER", help=say("these drills are not yet secure")
    )
    parser.add_argument(
        "--date", metavar="D", help=say("when they were played; the page's day if not given")
    )
    parser.add_argument(
        "--show", action="store_true", help=say("show what was printed and its results")
    )
    parser.add_argument("--all-history", action="store_true", help=say("show every entry too"))
    parser.add_argument(
        "--undo",
        nargs="*",
        metavar="NUMBER",
        help=say("take back the last call, or these numbers' results"),
    )


def add_file_arguments(parser: argparse.ArgumentParser) -> None:
    """The options that name a file of results, or a copy of the log."""
    parser.add_argument(
        "--export",
        type=Path,
        metavar="FILE",
        help=say("copy the whole log into a .csv or .json file"),
    )
    parser.add_argument(
        "--import",
        "--from-csv",
        type=Path,
        metavar="FILE",
        dest="import_",
        help=say("take in such a copy, or a table of results: player,number,result,date"),
    )


def run_log(given: argparse.Namespace) -> str:
    """Do the one thing that was asked for. Returns what to print.

    Raises:
        BookgenError: something that was given cannot be entered, shown or taken back.
    """
    take_name(given)
    what = wanted(given)
    take_instrument(given, what)
    match what:
        case "--export":
            (path,) = export_log(here(), given.export).paths
            return str(path)
        case "--import" if holds_copy(here(), given.import_):
            return f"{taken_in(given)}\n{LOG_NAME}"
        case "--show":
            return show(given)
        case "--undo":
            return f"{undo(given)}\n{LOG_NAME}"
        case "--import":
            marked = results.enter_file(
                here(), given.player, given.import_, now(), machine_locale()
            )
        case _:
            marked = enter(given)
    return f"{entered(marked)}\n{LOG_NAME}"


def wanted(given: argparse.Namespace) -> str:
    """The one thing that is asked for.

    Raises:
        BookgenError: nothing is, or two things are that do not go together.
    """
    enters = say("--secure or --not-yet")
    asked = {
        enters: given.secure is not None or given.not_yet is not None,
        "--show": given.show,
        "--undo": given.undo is not None,
        "--export": given.export is not None,
        "--import": given.import_ is not None,
    }
    found = [option for option, is_asked in asked.items() if is_asked]
    if len(found) != 1:
        problem = (
            told("{options} do not go together", options=say(" and ").join(found))
            if found
            else told("nothing to do is given")
        )
        mend = told("give one of {options}", options=", ".join(asked))
        raise BookgenError(Finding(told("command line"), problem, mend))
    return found[0]


def enter(given: argparse.Namespace) -> Marked:
    """Enter the results of the command line.

    Raises:
        BookgenError: something that was given cannot be entered.
    """
    date = None if given.date is None else read_date(given.date)
    marks = [(result, numbers_of(words, "NUMBER")) for result, words in shared_out(given)]
    return results.enter(here(), given.player, marks, date, now())


def shared_out(given: argparse.Namespace) -> list[tuple[Result, list[str]]]:
    """Which numbers get which result.

    Numbers in front of the options go with the only one, or with the one that has none itself.

    Raises:
        BookgenError: a result has no numbers, or a number has no result.
    """
    asked = {Result.SECURE: given.secure, Result.NOT_YET: given.not_yet}
    shares = {result: list(words) for result, words in asked.items() if words is not None}
    open_ones = [result for result, words in shares.items() if not words]
    if given.numbers:
        heirs = open_ones if len(shares) > 1 else list(shares)
        if len(heirs) != 1:
            problem = told("which result has {numbers}?", numbers=" ".join(given.numbers))
            mend = told("write it behind --secure or --not-yet")
            raise BookgenError(Finding("NUMBER", problem, mend))
        shares[heirs[0]] = [*given.numbers, *shares[heirs[0]]]
    for result, words in shares.items():
        if not words:
            option = f"--{result.replace(' ', '-')}"
            finding = Finding(option, told("no number is given"), told("write e.g. 3 5-8"))
            raise BookgenError(finding)
    return list(shares.items())


def entered(marked: Marked) -> str:
    """What was entered, a line for each player and result."""
    changed = {(marking.player, marking.number) for marking in marked.new}
    lines: dict[tuple[str, str], list[int]] = {}
    for marking in marked.markings:
        is_new = (marking.player, marking.number) in changed
        word = result_words(marking.result, speech())
        what = word if is_new else say("{result} already, nothing changed", result=word)
        lines.setdefault((marking.player, what), []).append(marking.number)
    told_lines = (
        say("{player}: {numbers} {what}", player=player, numbers=numbers_text(numbers), what=what)
        for (player, what), numbers in lines.items()
    )
    left_out = [left_out_line(len(marked.left_out))] if marked.left_out else []
    return "\n".join((*told_lines, *left_out)) or say("nothing to enter")


def left_out_line(number: int) -> str:
    """How many lines of a file say nothing."""
    return speech().count(
        "{number} line has no result and is left out",
        "{number} lines have no result and are left out",
        number,
    )


def numbers_text(numbers: Sequence[int]) -> str:
    """Numbers in words, runs of them as they are typed.

    >>> numbers_text([3, 5, 6, 7, 12]), numbers_text([4])
    ('Nos. 3, 5-7, 12', 'No. 4')
    """
    parts = [f"{first}" if first == last else f"{first}-{last}" for first, last in runs(numbers)]
    if len(set(numbers)) == 1:
        return say("No. {number}", number=parts[0])
    return say("Nos. {numbers}", numbers=", ".join(parts))


def undo(given: argparse.Namespace) -> str:
    """Take back the last call, or the results of some numbers.

    Raises:
        BookgenError: there is nothing to take back.
    """
    words = [*given.numbers, *given.undo]
    numbers = numbers_of(words, "--undo") if words else None
    return "\n".join(
        say(
            "{player}: No. {number} {result} is taken back",
            player=entry.player,
            number=entry.number,
            result=result_words(entry.result, speech()) if entry.result else "",
        )
        for entry in results.undo(here(), given.player, numbers, now())
    )


def show(given: argparse.Namespace) -> str:
    """What was printed for a player, or for everyone, and what became of it.

    Raises:
        BookgenError: nobody of that name is here.
    """
    numbers = frozenset(numbers_of(given.numbers, "NUMBER")) if given.numbers else None
    folder = here()
    tables: list[Callable[[Shown], str]] = [partial(log_table, find=finder(folder))]
    tables += [history_table] if given.all_history else []
    found = results.show(folder, given.player, numbers)
    return "\n\n".join(table(shown) for shown in found for table in tables)


def taken_in(given: argparse.Namespace) -> str:
    """Take in a copy of a log. Returns what was new.

    Raises:
        BookgenError: the file cannot be read, or is at odds with our log.
    """
    new = import_log(here(), given.import_)
    return say(
        "new in the log: printed days {days}, drills {drills}, entries {entries}",
        days=new.days,
        drills=new.drills,
        entries=new.entries,
    )
