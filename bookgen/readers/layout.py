"""A layout folder becomes a layout, or findings that name file, place and mend."""

from collections.abc import Iterator
from difflib import get_close_matches
from importlib import resources
from pathlib import Path

import msgspec

from bookgen.binder.layout import FILES, Layout, Template
from bookgen.errors import BookgenError, Finding
from bookgen.readers.layout_tables import (
    LayoutTable,
    MarginsTable,
    Table,
    font_files,
    layout_of,
)

SETTINGS = "layout.toml"
MANUAL = "docs/how-to/layouts.md explains every value"


def layout_names() -> list[str]:
    """Names of the layouts in the package, in order."""
    return sorted(
        folder.name for folder in layout_folder().iterdir() if (folder / SETTINGS).is_file()
    )


def layout_folder() -> Path:
    """Where the package keeps its layouts."""
    return Path(str(resources.files("bookgen.layouts")))


def read_layout(name_or_dir: str, place: str = "--layout") -> Layout:
    """Read a layout of the package by its name, or a folder of one's own.

    place: where the user has named it.

    A folder is meant where the text holds a slash or a backslash, or names no layout of ours.

    Raises:
        BookgenError: there is no such layout, or its files are damaged; every finding at once.
    """
    if name_or_dir in layout_names():
        return parse_folder(layout_folder() / name_or_dir)
    folder = Path(name_or_dir)
    if not (folder / SETTINGS).is_file():
        known = ", ".join(layout_names())
        problem = f"no layout {name_or_dir!r}, and no folder of that name with a {SETTINGS}"
        mend = f"choose {known}, or give the path of a copied layout folder"
        raise BookgenError(Finding(place, problem, mend))
    return parse_folder(folder)


def parse_folder(folder: Path) -> Layout:
    """Build a layout from the files of its folder.

    Raises:
        BookgenError: a file is missing or damaged; every finding at once.
    """
    findings: list[Finding] = []
    texts: dict[str, str] = {}
    for name in (SETTINGS, *FILES):
        try:
            texts[name] = (folder / name).read_text(encoding="utf-8")
        except (OSError, UnicodeDecodeError) as error:
            why = "is no UTF-8 text" if isinstance(error, UnicodeDecodeError) else "cannot be read"
            mend = "copy it anew from the ordinary layout"
            findings.append(Finding(str(folder / name), f"the file {why}", mend))
    if findings:
        raise BookgenError(*findings)
    file = str(folder / SETTINGS)
    table = parse_settings(texts[SETTINGS], file)
    fonts = font_files(table.fonts, folder)
    if isinstance(fonts, list):
        raise BookgenError(*(Finding(f"{file}, fonts.{key}", *what) for key, what in fonts))
    templates = {name: Template(str(folder / name), texts[name]) for name in FILES}
    try:
        return layout_of(folder.name, table, fonts, templates)
    except ValueError as error:
        raise BookgenError(Finding(file, str(error), MANUAL)) from error


def parse_settings(text: str, file: str) -> LayoutTable:
    """Read layout.toml.

    file: the name under which the user knows it.

    Raises:
        BookgenError: it is no TOML, or keys or values are wrong; every finding at once.
    """
    try:
        raw = msgspec.toml.decode(text, type=dict[str, object])
    except msgspec.DecodeError as error:
        mend = "mend the line; a value looks like top = 12.0"
        raise BookgenError(Finding(file, str(error), mend)) from error
    findings = [*unknown_keys(raw, LayoutTable, file, ""), *wrong_values(raw, file)]
    if findings:
        raise BookgenError(*findings)
    return msgspec.convert(raw, LayoutTable)


def unknown_keys(
    raw: dict[str, object], table: type[Table], file: str, inside: str
) -> Iterator[Finding]:
    """A finding for every key that the table does not know, with the nearest that it does."""
    known = {field.encode_name: field.type for field in msgspec.structs.fields(table)}
    for key, value in raw.items():
        place = f"{inside}{key}"
        inner = known.get(key)
        if inner is None:
            near = get_close_matches(key, known, n=1)
            mend = f"write {near[0]}" if near else f"take one of {', '.join(known)}"
            yield Finding(f"{file}, {place}", "this key means nothing here", mend)
        elif isinstance(value, dict) and isinstance(inner, type) and issubclass(inner, Table):
            yield from unknown_keys(value, inner, file, f"{place}.")


def wrong_values(raw: dict[str, object], file: str) -> Iterator[Finding]:
    """A finding for every missing table and for the first wrong value of each."""
    sections = {field.name: field.type for field in msgspec.structs.fields(LayoutTable)}
    margins = {f"margins.{f.encode_name}": f.type for f in msgspec.structs.fields(MarginsTable)}
    for place, kind in {**sections, **margins}.items():
        if place == "margins":
            continue
        value: object = raw
        for key in place.split("."):
            value = value.get(key) if isinstance(value, dict) else None
        if value is None:
            yield Finding(f"{file}, {place}", "this table is missing", f"add [{place}]; {MANUAL}")
            continue
        known = value
        if isinstance(value, dict):
            names = {field.encode_name for field in msgspec.structs.fields(kind)}
            known = {key: inner for key, inner in value.items() if key in names}
        try:
            msgspec.convert(known, kind)
        except msgspec.ValidationError as error:
            problem, _, path = str(error).partition(" - at `$")
            yield Finding(f"{file}, {place}{path.rstrip('`')}", problem, MANUAL)
