"""Hands a finished file to the system's print command, which passes it to a printer."""

import argparse
import os
import shutil
import subprocess
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Final

from bookgen.commands.screen import say
from bookgen.errors import BookgenError, Finding, Said, told
from bookgen.tasks.roster import choose

Run = Callable[[Sequence[str]], "subprocess.CompletedProcess[str]"]

LONGEST_SECONDS: Final = 60
"""The print command only hands the file over; a print server that takes longer is not there."""

USUAL: Final = ""
"""Stands for the printer that the system takes where none is named."""

MEDIA: Final[Mapping[str, tuple[float, float]]] = {
    "iso_a4_210x297mm": (210.0, 297.0),
    "iso_a5_148x210mm": (148.0, 210.0),
    "na_letter_8.5x11in": (215.9, 279.4),
    "na_invoice_5.5x8.5in": (139.7, 215.9),
}
"""Names of papers in print jobs, with their sizes upright in mm (PWG 5101.1, table 4)."""

SIDES: Final[Mapping[str, str]] = {
    "/Simplex": "one-sided",
    "/DuplexFlipShortEdge": "two-sided-short-edge",
    "/DuplexFlipLongEdge": "two-sided-long-edge",
}
"""What a PDF asks for (ISO 32000-1, table 150) as print jobs name it (RFC 8011, 5.2.8)."""

BY_HAND: Final = told("print it from its viewer, in actual size")


def add_print_argument(parser: argparse.ArgumentParser) -> None:
    """The option of commands whose result may go straight to a printer."""
    parser.add_argument(
        "--print",
        nargs="?",
        const=USUAL,
        metavar="PRINTER",
        help=say("print the result too, in actual size; on the usual printer if none is named"),
    )


def print_if_wanted(path: Path, given: argparse.Namespace) -> None:
    """Print a finished file where the command line asks for it.

    Raises:
        BookgenError: it could not be handed to the printer; the file is kept.
    """
    if given.print is not None:
        print_file(path, given.print or None)


def run_quietly(command: Sequence[str]) -> "subprocess.CompletedProcess[str]":
    """Run a command, in English, and wait for what it says.

    Raises:
        OSError: it cannot be started.
        subprocess.TimeoutExpired: it does not end.
    """
    return subprocess.run(  # noqa: S603  the command is ours, path and printer are arguments
        command,
        check=False,
        stdin=subprocess.DEVNULL,
        capture_output=True,
        encoding="utf-8",
        errors="replace",
        timeout=LONGEST_SECONDS,
        env={**os.environ, "LC_ALL": "C"},
    )


def print_file(path: Path, printer: str | None, *, run: Run = run_quietly) -> None:
    """Hand a PDF to a printer: in actual size, on its own paper, on the sides that it asks for.

    printer: by its name in the system, or None for the usual one.

    Raises:
        BookgenError: there is no print command or no such printer, or it took nothing; the file
            is kept.
    """
    found = trouble(path, printer, run)
    if found is not None:
        problem, mend = found
        place = f"--print {printer or ''}".rstrip()
        whole = told("{file} is kept but not printed: {problem}", file=path, problem=problem)
        raise BookgenError(Finding(place, whole, mend))


def trouble(path: Path, printer: str | None, run: Run) -> tuple[Said, Said] | None:
    """Hand the file over; what went wrong and what mends it, or None."""
    lp = shutil.which("lp")
    if lp is None:
        return told("there is no print command (lp) here"), BY_HAND
    chosen = ["-d", printer] if printer else []
    try:
        done = run([lp, *chosen, *wishes(path), str(path.resolve())])
    except subprocess.TimeoutExpired:
        late = told("the print command did not answer in {number} seconds", number=LONGEST_SECONDS)
        return late, BY_HAND
    except OSError as error:
        return told("the print command does not start ({reason})", reason=error.strerror), BY_HAND
    return diagnosis(done.stderr, printer, printers(run)) if done.returncode else None


def wishes(path: Path) -> list[str]:
    """How the job is to be printed, as options of the print command.

    The file itself knows: its first page says which paper, its viewer preferences which sides.
    """
    import pikepdf  # noqa: PLC0415  slow to import

    from bookgen.binder.page.fold import page_size, same  # noqa: PLC0415  slow to import

    with pikepdf.open(path) as book:
        size = page_size(book.pages[0])
        duplex = str(book.Root.get("/ViewerPreferences", pikepdf.Dictionary()).get("/Duplex", ""))
    upright = (min(size), max(size))
    wanted = ["print-scaling=none"]
    wanted += [f"media={name}" for name, paper in MEDIA.items() if same(paper, upright)]
    wanted += [f"sides={SIDES[duplex]}"] if duplex in SIDES else []
    return [word for wish in wanted for word in ("-o", wish)]


def printers(run: Run) -> list[str] | None:
    """Names of the printers there are; None where nothing answers."""
    lpstat = shutil.which("lpstat")
    if lpstat is None:
        return None
    try:
        if "not running" in run([lpstat, "-r"]).stdout:
            return None
        return run([lpstat, "-e"]).stdout.split()
    except (OSError, subprocess.TimeoutExpired):
        return None


def diagnosis(said: str, printer: str | None, known: Sequence[str] | None) -> tuple[Said, Said]:
    """What is wrong, and what mends it.

    said: by the print command; known: the printers there are, None where nothing answers.
    """
    words = said.strip().splitlines()[-1:]
    silent = told("the print command gave no reason")
    reason = words[0].removeprefix("lp: ").removeprefix("Error - ").rstrip(".") if words else silent
    if known is None:
        mend = told("start CUPS, or {otherwise}", otherwise=BY_HAND)
        return told("no print server answers ({reason})", reason=reason), mend
    if not known:
        return told("no printer is set up here"), told(
            "set one up, or {otherwise}", otherwise=BY_HAND
        )
    if printer is None and "default" in str(reason):
        mend = told("name one: --print {names}", names=" or ".join(known))
        return told("no printer is the usual one"), mend
    if printer is not None and printer not in known:
        return told("no printer {name}", name=repr(printer)), choose(printer, known)
    mend = told("see `lpstat -t`, or {otherwise}", otherwise=BY_HAND)
    return told("the print command says {reason}", reason=repr(str(reason))), mend
