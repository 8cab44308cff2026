"""`bookgen bind FILE`: the pages of a plan document."""

import argparse
import codecs
from pathlib import Path
from typing import Final

from bookgen.commands.arguments import Commands, add_page_arguments, page_arguments, pdf_place
from bookgen.commands.output import OUTPUT
from bookgen.commands.pages import lilypond_ready, look, make_pages, publish
from bookgen.errors import BookgenError, Finding
from bookgen.model.instrument import Instrument
from bookgen.plan.decoder import decode
from bookgen.readers.instrument import instrument_keys, read_instrument

LARGEST_PLAN: Final = 64 * 1024 * 1024
"""Bytes; a plan of a whole year for one player has about ten million."""


def add(commands: Commands) -> None:
    """Describe the command to the parser."""
    parser = commands.add_parser("bind", help="make the pages of a plan document")
    parser.add_argument("file", type=Path, metavar="FILE", help="a plan document (JSON)")
    add_page_arguments(parser)
    parser.set_defaults(run=run_bind)


def run_bind(given: argparse.Namespace) -> Path:
    """Read, engrave and bind a plan. Returns the path of the book.

    Raises:
        BookgenError: the file cannot be read, or is no true plan.
    """
    pages = page_arguments(given)
    path = pdf_place(pages.out, OUTPUT / f"{given.file.stem}.pdf")
    text, wanted = read_plan(given.file), look(pages)
    with lilypond_ready(wanted) as ready:
        plan = decode(text, str(given.file), find_instrument)
        instrument = read_instrument(plan.instrument)
        made = make_pages(plan, instrument, pages, wanted, ready)
    return publish(made, path, None, instrument, pages)


def find_instrument(key: str) -> Instrument | None:
    """The instrument of that name, or None."""
    return read_instrument(key) if key in instrument_keys() else None


def read_plan(file: Path) -> bytes:
    """The bytes of a plan document.

    Raises:
        BookgenError: the file cannot be read, or is far too large.
    """
    try:
        with file.open("rb") as stream:
            text = stream.read(LARGEST_PLAN + 1)
    except OSError as error:
        problem = f"cannot be read ({error.strerror})"
        raise BookgenError(Finding(str(file), problem, "give a plan document")) from error
    if len(text) > LARGEST_PLAN:
        mend = "split the plan into shorter runs of days"
        raise BookgenError(Finding(str(file), "larger than any plan", mend))
    return text.removeprefix(codecs.BOM_UTF8)
