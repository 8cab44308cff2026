"""The page layouts at hand, and a specimen of each."""

from dataclasses import dataclass, replace
from datetime import date as Date  # noqa: N812
from pathlib import Path

import msgspec

from bookgen.binder.page.layout import Layout
from bookgen.plan.document import Binding
from bookgen.readers.layout import layout_folder, layout_names, read_layout
from bookgen.tasks.books import book_of
from bookgen.tasks.busy import Busy
from bookgen.tasks.look import Made, PageWish, inputs_of, look
from bookgen.tasks.pages import publish
from bookgen.tasks.places import Place, refuse_places
from bookgen.tasks.plans import planned
from bookgen.tasks.roster import NOBODY
from bookgen.tasks.studio_folder import StudioFolder
from bookgen.tasks.wish import Wish, asked_of


@dataclass(frozen=True, slots=True)
class LayoutFolder:
    """A layout with the folder in which it stands."""

    layout: Layout
    path: Path


def layouts() -> list[LayoutFolder]:
    """Every layout of the package.

    Raises:
        BookgenError: one is damaged.
    """
    return [LayoutFolder(read_layout(name), layout_folder() / name) for name in layout_names()]


def make_specimens(
    folder: StudioFolder, target: Path, pages: PageWish, day: Date, busy: Busy
) -> Made:
    """The same sheet in each layout, in a folder.

    target: relative to the studio's folder.
    day: the date of the sheets.

    Raises:
        BookgenError: something there cannot be written.
    """
    home = folder.path / target
    paths = {name: home / f"{name}.pdf" for name in layout_names()}
    inputs = list(inputs_of(folder, pages))
    refuse_places((Place("--sample", path) for path in paths.values()), inputs)
    asked = asked_of(NOBODY, Wish(), folder.path)
    plan = planned(asked, [day], None, Wish()).plan
    files = []
    with busy.through(len(paths)) as left:
        for name, path in paths.items():
            wanted = look(folder, replace(pages, layout=name), Binding(book="sheet"))
            bound = msgspec.structs.replace(plan, binding=wanted.binding)
            files.append((path, book_of(bound, asked.instrument, wanted).made(left(name)).pages))
    publish(files, inputs)
    return Made(tuple(paths.values()))
