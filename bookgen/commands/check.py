"""`bookgen check`: whether all that bookgen needs is here and in order."""

import argparse
import platform
import re
import subprocess
from collections.abc import Iterator
from pathlib import Path
from typing import Final

from bookgen import __version__
from bookgen.commands.arguments import Commands
from bookgen.commands.roster import LOG_FILE, NO_STUDIO, STUDIO_FILE, read_studio
from bookgen.errors import BookgenError, Finding
from bookgen.notation.lilypond import find_lilypond
from bookgen.readers.instrument import instrument_keys, read_instrument
from bookgen.readers.layout import layout_names, read_layout
from bookgen.studio.practice_log import open_log

LILYPOND_SECONDS: Final = 30.0
OLDEST: Final = (2, 24)
VERSION: Final = re.compile(r"([0-9]+)\.([0-9]+)\.[0-9]+")


def add(commands: Commands) -> None:
    """Describe the command to the parser."""
    parser = commands.add_parser("check", help="check the environment, the studio and layouts")
    parser.set_defaults(run=run_check, quiet=False)


def run_check(given: argparse.Namespace) -> str:
    """One line for each thing that is in order.

    Raises:
        BookgenError: something is not in order; everything that is not is told at once.
    """
    del given
    lines: list[str] = []
    findings: list[Finding] = []
    for look_at in (environment, lilypond, instruments, layouts, studio, log):
        try:
            lines.extend(look_at())
        except BookgenError as error:
            findings.extend(error.findings)
    if findings:
        raise BookgenError(*findings)
    return "\n".join(lines)


def environment() -> Iterator[str]:
    """Bookgen and Python."""
    yield f"bookgen {__version__}, Python {platform.python_version()}"


def lilypond() -> Iterator[str]:
    """The music engraver, asked for its version.

    Raises:
        BookgenError: there is none, or it does not start.
    """
    program = find_lilypond()
    yield f"LilyPond {version_of(program)}, {program}"


def version_of(program: Path) -> str:
    """The version that LilyPond tells of itself.

    Raises:
        BookgenError: it does not start, is no LilyPond, or too old a one.
    """
    try:
        told = subprocess.run(  # noqa: S603  the program was found by us
            [str(program), "--version"],
            capture_output=True,
            text=True,
            timeout=LILYPOND_SECONDS,
            check=True,
        )
    except (OSError, subprocess.SubprocessError) as error:
        finding = Finding(str(program), f"LilyPond does not start ({error})", "install it anew")
        raise BookgenError(finding) from error
    found = VERSION.search(told.stdout)
    if found is None:
        problem = "it does not say which LilyPond it is"
        raise BookgenError(Finding(str(program), problem, "install LilyPond 2.24"))
    if (int(found[1]), int(found[2])) < OLDEST:
        oldest = ".".join(map(str, OLDEST))
        problem = f"LilyPond {found[0]} is older than {oldest}"
        raise BookgenError(Finding(str(program), problem, "install LilyPond 2.24"))
    return found[0]


def instruments() -> Iterator[str]:
    """Every instrument file.

    Raises:
        BookgenError: one is damaged.
    """
    names = [read_instrument(key).name for key in instrument_keys()]
    yield f"instruments: {', '.join(names)}"


def layouts() -> Iterator[str]:
    """Every layout of the package, with its fonts.

    Raises:
        BookgenError: one is damaged, or a font is missing.
    """
    yield f"layouts: {', '.join(read_layout(name).name for name in layout_names())}"


def studio() -> Iterator[str]:
    """The studio of the working folder with all its players, and its layout.

    Raises:
        BookgenError: the file is damaged, or names what there is not.
    """
    found = read_studio()
    if found is NO_STUDIO:
        yield f"no {STUDIO_FILE} in this folder"
        return
    if found.layout is not None:
        read_layout(found.layout, f"{STUDIO_FILE}, layout")
    yield f"{STUDIO_FILE}: {found.name or 'no name'}, {len(found.players)} players"


def log() -> Iterator[str]:
    """The practice log of the working folder: its file, and that its drills are known.

    Raises:
        BookgenError: the file is damaged, or no log that this bookgen can read.
    """
    if not LOG_FILE.exists():
        yield f"no {LOG_FILE} in this folder"
        return
    with open_log(LOG_FILE) as kept:
        mend = "restore it from a copy, or move it away and import an export"
        findings = [Finding(str(LOG_FILE), fault, mend) for fault in kept.faults()]
        if findings:
            raise BookgenError(*findings)
        counts = kept.counts()
        players = kept.players()
        unread = [drill for name in players for drill in kept.printed(name) if drill.drill is None]
        yield (
            f"{LOG_FILE}: version {kept.version()}, sound; players {len(players)}, "
            f"printed days {counts.days}, drills {counts.drills}, entries {counts.entries}"
        )
        for drill in unread:
            yield f"  {drill.player}, No. {drill.number}: this bookgen does not know {drill.key!r}"
