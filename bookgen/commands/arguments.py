"""What the user asked for on the command line, as values that have been checked."""

import argparse
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime
from difflib import get_close_matches
from pathlib import Path
from typing import Any, NoReturn, Protocol

from bookgen.binder.layout import PAPERS
from bookgen.commands.output import refuse_places
from bookgen.errors import BookgenError, Finding


class Parser(argparse.ArgumentParser):
    """An argument parser whose complaints are findings like all others."""

    def __init__(self, **settings: Any) -> None:  # type: ignore[explicit-any]  # noqa: ANN401
        """Take argparse's settings; options are written out, so that new ones break nothing."""
        super().__init__(**{"allow_abbrev": False, **settings})

    def error(self, message: str) -> NoReturn:
        """Say what is wrong with the command line.

        Raises:
            BookgenError: always.
        """
        raise BookgenError(Finding("command line", message, f"see `{self.prog} --help`"))


def pdf_place(given: Path | None, usual: Path) -> Path:
    """Where a PDF goes.

    Raises:
        BookgenError: the place that was given has another ending.
    """
    if given is not None and given.suffix.lower() != ".pdf":
        problem = f"a PDF is made, but the name ends in {given.suffix!r}"
        raise BookgenError(Finding(f"--out {given}", problem, "let it end in .pdf"))
    return given or usual


class Commands(Protocol):
    """Where each command adds its own parser; what argparse gives has no public type."""

    def add_parser(self, name: str, *, help: str, epilog: str | None = None) -> Parser:  # noqa: A002
        """Add the parser of one command."""


@dataclass(frozen=True, slots=True)
class PageArguments:
    """Options of every command that makes pages.

    out: where the result goes, or None for its usual place.
    paper, layout: None where the studio or the ordinary choice decides.
    plan: where the plan document goes, or None.
    keep_ly: folder for the LilyPond source, or None.
    """

    out: Path | None
    paper: str | None
    layout: str | None
    plan: Path | None
    keep_ly: Path | None
    cents: bool
    quiet: bool
    open: bool


def page_arguments(given: argparse.Namespace) -> PageArguments:
    """The page options of a parsed command line.

    Raises:
        BookgenError: there is no such paper, or a place cannot be written.
    """
    if given.paper is not None and given.paper not in PAPERS:
        raise BookgenError(unknown("--paper", "paper", given.paper, sorted(PAPERS)))
    plan = getattr(given, "plan", None)
    refuse_places(("--out", given.out), ("--plan", plan))
    return PageArguments(
        out=given.out,
        paper=given.paper,
        layout=given.layout,
        plan=plan,
        keep_ly=given.keep_ly,
        cents=given.cents,
        quiet=given.quiet,
        open=given.open,
    )


def add_page_arguments(parser: argparse.ArgumentParser) -> None:
    """Options of every command that makes pages."""
    parser.add_argument("--out", type=Path, metavar="FILE", help="where the result goes")
    parser.add_argument("--paper", metavar="PAPER", help="a4 (usual), a5, letter or half-letter")
    parser.add_argument("--layout", metavar="NAME|DIR", help="a page layout, or a folder with one")
    parser.add_argument(
        "--keep-ly", type=Path, metavar="DIR", help="keep the LilyPond source in this folder"
    )
    parser.add_argument(
        "--cents",
        action="store_true",
        help="double stops: print just intonation in cents and the difference tone",
    )
    parser.add_argument("--quiet", action="store_true", help="print nothing but errors")
    parser.add_argument("--open", action="store_true", help="open the result in its viewer")


def read_date(text: str | None) -> date:
    """The date that was given, or today's.

    Raises:
        BookgenError: the text is no date.
    """
    if text is None:
        return datetime.now(UTC).astimezone().date()
    found = iso_date(text)
    if found is None:
        mend = "write year-month-day, e.g. 2026-12-01"
        raise BookgenError(Finding("--date", f"{text!r} is no date", mend))
    return found


def iso_date(text: str) -> date | None:
    """A calendar date as ISO 8601 writes it with hyphens, or None."""
    try:
        found = date.fromisoformat(text)
    except ValueError:
        return None
    return found if found.isoformat() == text else None


def unknown(place: str, kind: str, given: str, known: Sequence[str]) -> Finding:
    """A finding for a name that is not among those there are; the nearest one is named."""
    near = get_close_matches(given.lower(), known, n=1)
    hint = f"perhaps {near[0]}; " if near else ""
    return Finding(place, f"no {kind} {given!r}", f"{hint}choose {', '.join(known)}")
