"""Where the font files of a layout lie, and what is wrong with them."""

from collections.abc import Iterator, Mapping
from importlib.util import find_spec
from pathlib import Path
from typing import Final

from bookgen.binder.page.truetype import family_name
from bookgen.errors import Finding, RefusedError, told, why

OWN: Final = "./"


def font_path(name: str, folder: Path) -> Path | None:
    """A font's file: beside layout.toml, or in an installed package; None without its package.

    Packages are only looked for, never imported: a layout must not run code.
    """
    if name.startswith(OWN):
        return folder.resolve() / name
    package, _, path = name.partition("/")
    if not package.isidentifier():
        return None
    spec = find_spec(package)
    return Path(spec.origin).parent / path if spec and spec.origin else None


def font_findings(fonts: Mapping[str, str], folder: Path, file: str) -> Iterator[Finding]:
    """A finding for every font that cannot be used.

    fonts: their names by key, as layout.toml gives them; file: the layout.toml.
    """
    for key, name in fonts.items():
        place, path = f"{file}, fonts.{key}", font_path(name, folder)
        if path is None:
            problem = told("no package {name!r} is installed", name=name.partition("/")[0])
            mend = told("install it, or give a file beside layout.toml as ./name.ttf")
            yield Finding(place, problem, mend)
        elif not path.is_file():
            problem = told("there is no file {name}", name=name)
            mend = told("look for the file's name in {folder}", folder=str(path.parent))
            yield Finding(place, problem, mend)
        else:
            try:
                family_name(path)
            except RefusedError as error:
                mend = told("choose a .ttf file; .otf outlines are not embedded")
                yield Finding(place, told("{name}: {why}", name=name, why=why(error)), mend)
