"""A layout folder becomes a layout, or findings that name file, place and mend."""

from collections.abc import Iterator, Mapping
from difflib import get_close_matches
from functools import cache
from importlib import resources
from pathlib import Path
from typing import Final

import msgspec

from bookgen.binder.page.layout import Layout
from bookgen.binder.page.measures import Section
from bookgen.binder.page.paper import PAPERS, NoRoomError, refuse_narrow
from bookgen.errors import BookgenError, Finding, Said, told, why
from bookgen.readers.layout_fonts import font_findings, font_path
from bookgen.readers.layout_values import fault

SETTINGS: Final = "layout.toml"
INHERITS: Final = "inherits"
FIRST: Final = "ordinary"
"""The layout on which all others build."""

Table = Mapping[str, object]


def layout_names() -> list[str]:
    """Names of the layouts in the package, in order."""
    return sorted(
        folder.name for folder in layout_folder().iterdir() if (folder / SETTINGS).is_file()
    )


def layout_folder() -> Path:
    """Where the package keeps its layouts."""
    return Path(str(resources.files("bookgen.layouts")))


def read_layout(name_or_dir: str, place: Said = "--layout") -> Layout:
    """Read a layout of the package by its name, or a folder of one's own.

    place: where the user has named it.

    Raises:
        BookgenError: there is no such layout, or its file is damaged; every finding at once.
    """
    if name_or_dir in layout_names():
        return packaged(name_or_dir)
    folder = Path(name_or_dir)
    if not (folder / SETTINGS).is_file():
        problem = told(
            "no layout {name!r}, and no folder of that name with a {file}",
            name=name_or_dir,
            file=SETTINGS,
        )
        mend = told(
            "choose {known}, or give the path of a layout folder", known=", ".join(layout_names())
        )
        raise BookgenError(Finding(place, problem, mend))
    return parse_folder(folder)


@cache
def packaged(name: str) -> Layout:
    """A layout of the package, read once.

    Raises:
        BookgenError: its file is damaged.
    """
    return parse_folder(layout_folder() / name)


def parse_folder(folder: Path) -> Layout:
    """Build a layout from its folder and those from which it inherits.

    Raises:
        BookgenError: a file is missing or damaged; every finding at once.
    """
    file = str(folder / SETTINGS)
    refuse_old(folder)
    own = read_table(folder)
    findings = [*wrong_keys(own, Layout, file, "")]
    findings += font_findings(fonts_of(own), folder, file)
    parent = parent_of(own, folder)
    if isinstance(parent, Finding):
        raise BookgenError(*findings, parent)
    below = msgspec.to_builtins(parent) if parent is not None else {}
    table = merged(below, with_paths(without_wrong(own, Layout), folder))
    layout = complete(table, folder.name, file)
    if isinstance(layout, Finding):
        raise BookgenError(*findings, layout)
    findings += narrow_papers(layout, file)
    if findings:
        raise BookgenError(*findings)
    return layout


def read_table(folder: Path) -> dict[str, object]:
    """The keys of a layout.toml.

    Raises:
        BookgenError: it cannot be read, or is no TOML.
    """
    file = folder / SETTINGS
    try:
        return msgspec.toml.decode(file.read_text(encoding="utf-8"), type=dict[str, object])
    except OSError as error:
        problem = told("the file cannot be read")
        mend = told("make a {file} that says: inherits = {first!r}", file=SETTINGS, first=FIRST)
        raise BookgenError(Finding(str(file), problem, mend)) from error
    except UnicodeDecodeError as error:
        problem = told("the file is no UTF-8 text")
        raise BookgenError(Finding(str(file), problem, told("save it as UTF-8"))) from error
    except msgspec.DecodeError as error:
        mend = told("mend the line; a value looks like top = 12.0")
        raise BookgenError(Finding(str(file), str(error), mend)) from error


def refuse_old(folder: Path) -> None:
    """Copies from the time when layouts held the words of the pages.

    Raises:
        BookgenError: the folder is such a copy.
    """
    if not any(folder.glob("*.j2")) or folder.parent == layout_folder():
        return
    problem = told("this copy holds templates (*.j2), which layouts no longer have")
    mend = told(
        "make a new folder whose {file} says: inherits = {first!r}, and take over the measures that"
        " you have changed",
        file=SETTINGS,
        first=FIRST,
    )
    raise BookgenError(Finding(str(folder), problem, mend))


def parent_of(own: Table, folder: Path) -> Layout | Finding | None:
    """The layout from which another inherits; the first of all has none.

    Raises:
        BookgenError: that layout is damaged.
    """
    name = own.get(INHERITS)
    if name is None:
        if folder == layout_folder() / FIRST:
            return None
        name = FIRST
    if name not in layout_names():
        problem = told("no layout {name!r} to inherit from", name=str(name))
        mend = told("choose {known}", known=", ".join(layout_names()))
        return Finding(f"{folder / SETTINGS}, {INHERITS}", problem, mend)
    return packaged(str(name))


@cache
def keys_of(kind: type[Section]) -> Mapping[str, type]:
    """The keys that a table may have, with what they hold."""
    keys = {field.encode_name: field.type for field in msgspec.structs.fields(kind)}
    if kind is Layout:
        keys[INHERITS] = keys.pop("name")  # the name is the folder's
    return keys


def section(kind: object) -> type[Section] | None:
    """What a key holds, where that is a table."""
    return kind if isinstance(kind, type) and issubclass(kind, Section) else None


def wrong_keys(table: Table, kind: type[Section], file: str, inside: str) -> Iterator[Finding]:
    """A finding for every key that means nothing, and for every value out of its bounds."""
    known = keys_of(kind)
    for key, value in table.items():
        place = f"{file}, {inside}{key}"
        if key not in known:
            near = get_close_matches(key, known, n=1)
            mend = (
                told("write {near}", near=near[0])
                if near
                else told("take one of {known}", known=", ".join(known))
            )
            yield Finding(place, told("this key means nothing here"), mend)
        elif isinstance(value, dict) and (inner := section(known[key])):
            yield from wrong_keys(value, inner, file, f"{inside}{key}.")
        elif wrong := fault(value, known[key]):
            yield Finding(place, *wrong)


def without_wrong(table: Table, kind: type[Section]) -> dict[str, object]:
    """The keys that can be taken, so that what is wrong among them together is told too."""
    known = keys_of(kind)
    found: dict[str, object] = {}
    for key, value in table.items():
        if key not in known:
            continue
        if isinstance(value, dict) and (inner := section(known[key])):
            found[key] = without_wrong(value, inner)
        elif not fault(value, known[key]):
            found[key] = value
    return found


def fonts_of(table: Table) -> dict[str, str]:
    """What a layout.toml says of its fonts."""
    fonts = table.get("fonts", {})
    pairs = fonts.items() if isinstance(fonts, dict) else ()
    return {key: value for key, value in pairs if isinstance(value, str)}


def with_paths(table: Table, folder: Path) -> dict[str, object]:
    """The table with its fonts as paths."""
    paths = {key: str(font_path(value, folder)) for key, value in fonts_of(table).items()}
    kept = {key: value for key, value in table.items() if key != INHERITS}
    return {**kept, **({"fonts": paths} if paths else {})}


def merged(below: Table, above: Table) -> dict[str, object]:
    """Two tables; what the upper one states holds."""
    found = dict(below)
    for key, value in above.items():
        under = found.get(key)
        if isinstance(value, dict) and isinstance(under, dict):
            found[key] = merged(under, value)
        else:
            found[key] = value
    return found


def complete(table: Table, name: str, file: str) -> Layout | Finding:
    """The layout of a table that states everything."""
    try:
        return msgspec.convert({**table, "name": name}, Layout)
    except msgspec.ValidationError as error:
        return Finding(file, str(error), told("mend what is said of this layout before"))


def narrow_papers(layout: Layout, file: str) -> Iterator[Finding]:
    """A finding for every paper on which the margins leave no room."""
    for paper in PAPERS:
        try:
            refuse_narrow(layout.sheet(paper))
        except NoRoomError as error:
            place = f"{file}, margins.{paper}"
            yield Finding(place, why(error), told("make the margins narrower"))
