"""The pages of a plan document: the book that the plan came from, the same bytes."""

import codecs
from pathlib import Path
from typing import Final

from msgspec.structs import replace

from bookgen.errors import BookgenError, Finding, told
from bookgen.plan.decoder import decode
from bookgen.plan.document import Binding, Plan
from bookgen.readers.own_instrument import instrument_at
from bookgen.tasks.books import book_of
from bookgen.tasks.busy import Busy
from bookgen.tasks.class_sheet import class_pages
from bookgen.tasks.instruments import finder, instrument_of_drill
from bookgen.tasks.look import Made, PageWish, inputs_of, look_again, places_of
from bookgen.tasks.pages import besides, publish
from bookgen.tasks.places import Place, refuse_places
from bookgen.tasks.pressed import mark_of, press_of, refuse_folded
from bookgen.tasks.proof import prove
from bookgen.tasks.studio_folder import StudioFolder

LARGEST_PLAN: Final = 64 * 1024 * 1024
"""Bytes; a plan of a whole year for one player has about ten million."""


def bind_plan(
    folder: StudioFolder, file: Path, pages: PageWish, busy: Busy, instrument: str | None = None
) -> Made:
    """Read, engrave and bind a plan.

    instrument: a file of the user's own, of which the plan is; one that lies in the folder, or is
        on the roster, is found by its name.

    Raises:
        BookgenError: the file cannot be read, or is no true plan.
        ProofError: a complete book is not as its plan has it.
    """
    usual = folder.output / f"{file.stem}{mark_of(pages.press, screen=pages.screen)}.pdf"
    path = folder.path / pages.out if pages.out else usual
    inputs = [*inputs_of(folder, pages), folder.path / file]
    refuse_places(places_of(folder, pages, [Place("--out", path, (".pdf",))]), inputs)
    press = press_of(folder.path, pages.press)
    given = instrument and instrument_at(instrument, folder.path, "--instrument")
    find = finder(folder, given or None)
    plan = decode(read_plan(folder.path / file), str(file), find)
    wanted = look_again(folder, pages, plan.binding or usual_binding(plan), str(file))
    fold, screen = wanted.binding.fold, pages.screen
    refuse_folded(str(file), pages.press, fold=fold, screen=screen)
    bound = replace(plan, binding=wanted.binding)
    plays = instrument_of_drill(plan.drills[0].drill, find, str(file))
    if bound.binding is not None and bound.binding.parts:
        made = class_pages(bound, find, wanted, busy)
    else:
        made = book_of(bound, plays, wanted).made(busy)
    printed = press(made.pages)
    unproved: list[Finding] = []
    if bound.binding is not None and bound.binding.supplement is not None:
        prove(printed, bound, plays, wanted, str(path), unproved.append)
    publish([(path, printed), *besides(folder, pages, b"", made.sources)], inputs)
    return Made((path,), tuple(unproved))


def usual_binding(plan: Plan) -> Binding:
    """How a plan is bound that does not say it, as those of version 1: one day is a sheet."""
    if not plan.days:
        return Binding(book="drill")
    if len(plan.days) == 1:
        return Binding(book="sheet")
    return Binding(book="booklet", first=plan.days[0].date, last=plan.days[-1].date)


def read_plan(file: Path) -> bytes:
    """The bytes of a plan document.

    Raises:
        BookgenError: the file cannot be read, or is far too large.
    """
    try:
        with file.open("rb") as stream:
            text = stream.read(LARGEST_PLAN + 1)
    except OSError as error:
        problem = told("cannot be read ({reason})", reason=error.strerror)
        raise BookgenError(Finding(str(file), problem, told("give a plan document"))) from error
    if len(text) > LARGEST_PLAN:
        mend = told("split the plan into shorter runs of days")
        raise BookgenError(Finding(str(file), told("larger than any plan"), mend))
    return text.removeprefix(codecs.BOM_UTF8)
