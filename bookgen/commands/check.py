"""`bookgen check`: whether all that bookgen needs is here and in order."""

import argparse
import platform
import subprocess
from collections.abc import Iterator
from pathlib import Path

from bookgen import __version__
from bookgen.commands.arguments import Commands
from bookgen.commands.sheet import NO_STUDIO, STUDIO_FILE, player_of, read_studio, size_of
from bookgen.errors import BookgenError, Finding
from bookgen.notation.lilypond import find_lilypond
from bookgen.readers.instrument import instrument_keys, read_instrument
from bookgen.readers.layout import layout_names, read_layout

LILYPOND_SECONDS = 30.0


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
    for look_at in (environment, lilypond, instruments, layouts, studio):
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
        BookgenError: it does not start, or does not answer.
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
    return told.stdout.partition("\n")[0].removeprefix("GNU LilyPond ").partition(" ")[0]


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
    """The studio of the working folder, its layout, and every player's instrument and size.

    Raises:
        BookgenError: the file is damaged, or names what there is not.
    """
    found = read_studio()
    if found is NO_STUDIO:
        yield f"no {STUDIO_FILE} in this folder"
        return
    findings: list[Finding] = []
    if found.layout is not None:
        read_layout(found.layout)
    for name in found.players:
        try:
            player = player_of(found, name)
            size_of(read_instrument(player.instrument), None, player)
        except BookgenError as error:
            findings.extend(error.findings)
    if findings:
        raise BookgenError(*findings)
    yield f"{STUDIO_FILE}: {found.name or 'no name'}, {len(found.players)} players"
