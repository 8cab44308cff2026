"""Whether all that bookgen needs is here and in order."""

import platform
import re
import subprocess
from collections.abc import Iterator
from functools import partial
from pathlib import Path
from typing import Final

from bookgen import __version__
from bookgen.errors import BookgenError, Finding, Said, told
from bookgen.notation.lilypond import find_lilypond
from bookgen.plan.document import Binding
from bookgen.readers.instrument import instrument_keys, read_instrument
from bookgen.readers.layout import layout_names, read_layout
from bookgen.studio.practice_log import LOG_NAME
from bookgen.tasks.look import PageWish, look
from bookgen.tasks.studio_folder import STUDIO_NAME, StudioFolder

LILYPOND_SECONDS: Final = 30.0
OLDEST: Final = (2, 24)
VERSION: Final = re.compile(r"([0-9]+)\.([0-9]+)\.[0-9]+")


def check(folder: StudioFolder) -> list[Said]:
    """One line for each thing that is in order.

    Raises:
        BookgenError: something is not in order; everything that is not is told at once.
    """
    lines: list[Said] = []
    findings: list[Finding] = []
    looks = (
        environment,
        lilypond,
        instruments,
        layouts,
        partial(studio, folder),
        partial(log, folder),
    )
    for look_at in looks:
        try:
            lines.extend(look_at())
        except BookgenError as error:
            findings.extend(error.findings)
    if findings:
        raise BookgenError(*findings)
    return lines


def environment() -> Iterator[Said]:
    """Bookgen and Python."""
    yield f"bookgen {__version__}, Python {platform.python_version()}"


def lilypond() -> Iterator[Said]:
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
        answer = subprocess.run(  # noqa: S603  the program was found by us
            [str(program), "--version"],
            capture_output=True,
            text=True,
            timeout=LILYPOND_SECONDS,
            check=True,
        )
    except (OSError, subprocess.SubprocessError) as error:
        problem = told("LilyPond does not start ({reason})", reason=error)
        raise BookgenError(Finding(str(program), problem, told("install it anew"))) from error
    found = VERSION.search(answer.stdout)
    if found is None:
        problem = told("it does not say which LilyPond it is")
        raise BookgenError(Finding(str(program), problem, told("install LilyPond 2.24")))
    if (int(found[1]), int(found[2])) < OLDEST:
        oldest = ".".join(map(str, OLDEST))
        problem = told("LilyPond {found} is older than {oldest}", found=found[0], oldest=oldest)
        raise BookgenError(Finding(str(program), problem, told("install LilyPond 2.24")))
    return found[0]


def instruments() -> Iterator[Said]:
    """Every instrument file.

    Raises:
        BookgenError: one is damaged.
    """
    keys = [read_instrument(key).key for key in instrument_keys()]
    yield told("instruments: {names}", names=", ".join(keys))


def layouts() -> Iterator[Said]:
    """Every layout of the package, with its fonts.

    Raises:
        BookgenError: one is damaged, or a font is missing.
    """
    names = [read_layout(name).name for name in layout_names()]
    yield told("layouts: {names}", names=", ".join(names))


def studio(folder: StudioFolder) -> Iterator[Said]:
    """The studio of the folder with all its players, and its layout.

    Raises:
        BookgenError: the file is damaged, or names what there is not.
    """
    if not folder.has_studio:
        yield told("no {file} in this folder", file=STUDIO_NAME)
        return
    found = folder.studio
    for player in (None, *found.players.values()):
        look(folder, PageWish(), Binding(book="sheet"), player)
    name = found.name or told("no name")
    yield told(
        "{file}: {name}, {number} players", file=STUDIO_NAME, name=name, number=len(found.players)
    )


def log(folder: StudioFolder) -> Iterator[Said]:
    """The practice log of the folder: its file, and that its drills are known.

    Raises:
        BookgenError: the file is damaged, or no log that this bookgen can read.
    """
    if not folder.log_file.exists():
        yield told("no {file} in this folder", file=LOG_NAME)
        return
    with folder.log() as kept:
        mend = told("restore it from a copy, or move it away and import an export")
        findings = [Finding(LOG_NAME, fault, mend) for fault in kept.faults()]
        if findings:
            raise BookgenError(*findings)
        counts = kept.counts()
        players = kept.players()
        yield told(
            "{file}: version {version}, sound; players {players}, printed days {days},"
            " drills {drills}, entries {entries}",
            file=LOG_NAME,
            version=kept.version(),
            players=len(players),
            days=counts.days,
            drills=counts.drills,
            entries=counts.entries,
        )
        for player in players:
            for drill in kept.drills(player):
                if drill.drill is None:
                    yield told(
                        "  {player}, No. {number}: this bookgen does not know {key}",
                        player=player,
                        number=drill.number,
                        key=repr(drill.key),
                    )
