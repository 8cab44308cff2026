"""The pictures in docs/pictures, each made by a real command for Harbour Lane Strings.

Make them anew from the top folder: `PYTHONPATH=tests .venv/bin/python -m tests.house.pictures`.
"""

import contextlib
import os
import re
import tempfile
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

import pypdfium2
from kit.fences import blocks
from PIL import Image

from bookgen.cli import run

ROOT: Final = Path(__file__).parents[2]
FOLDER: Final = ROOT / "docs" / "pictures"
DPI: Final = 110
GRAYS: Final = 16
"""Black ink on white paper needs few; the files stay small."""

LARGEST: Final = 200_000
"""In bytes: a page of the docs is to load at once."""


STUDIO: Final = """
name = "Harbour Lane Strings"

[players.Ines]
minutes = 15
positions = ["1st", "2nd", "3rd"]
note = "Listen before you move: each crossing has a name."
start = { spacing = "whole", secure_to_stage = 3 }

[players.Jo]
instrument = "viola"
start = { secure_to_stage = 2 }
"""
AIR: Final = """
title: Harbour air
key: D major
meter: 3/4
bar: 9
D5:8 E5 F#5 G5 A5 B5 | A5:4 F#5:8 D5 A4:4 | D6:8 C#6 B5 A5 G5 F#5 | C#5+A5:4 D5+A5:4 A5:4 |
G5:8 E5 B5 G5 D6 B5 | C#6:4 A5 E5 | F#5:8 A5 D6 F#6 A6 F#6 | D6:2. |
"""
"""Eight bars of our own."""


@dataclass(frozen=True)
class Shot:
    """One picture: a command, and which page of what it makes.

    words: stand on the page; it is the first that holds all of them.
    """

    command: Sequence[str]
    words: Sequence[str] = ()


DAY: Final = ("--date", "2026-12-01")
BOOK: Final = ("supplement", "first-book.toml", "--only")
MONTH: Final = ("booklet", "--month", "2026-12", "--player", "Ines")
FORTNIGHT: Final = ("booklet", "--from", "2026-12-07", "--to", "2026-12-20", "--player", "Jo")

SHOTS: Final[Mapping[str, Shot]] = {
    "booklet-how-to": Shot(MONTH, ["How to use this booklet", "Ways over the strings"]),
    "booklet-days": Shot(MONTH, ["Leave these squares"]),
    "booklet-drills": Shot(MONTH, ["drills 1 to"]),
    "sheet-violin": Shot(["sheet", "--player", "Ines", *DAY, "--minutes", "10", "--anew"]),
    "sheet-viola": Shot(["sheet", "--player", "Jo", *DAY, "--paper", "letter"]),
    "from-memory": Shot([*FORTNIGHT, "--from-memory"], ["Jo · drills"]),
    "large-print": Shot(["sheet", *DAY, "--layout", "large-print"], ["cross"]),
    "chart-first": Shot(["sheet", *DAY, "--layout", "chart-first"]),
    "passage": Shot(["passage", "air.passage", "--player", "Ines"]),
    "class": Shot(["sheet", "--class", "violin, viola, cello", *DAY]),
    "book-drills": Shot([*BOOK, "violin-en"], ["Chapter 3"]),
    "book-piece": Shot([*BOOK, "violin-en"], ["Harbour air", "The hard spots", "Chapter"]),
    "book-fingerboard": Shot([*BOOK, "cello-de"], ["Jeder Ton des Griffbretts"]),
}
WALK: Final = ROOT / "docs" / "walk-throughs" / "a-publishers-book.md"
"""It has the files of the book."""


def main() -> None:
    """Make all pictures that the docs show, and delete the others.

    Raises:
        LookupError: a page shows a picture that is none of ours, or none shows one of them.
    """
    shown = {name for page in pages() for name in pictures_on(page)}
    if odd := shown ^ {f"{name}.png" for name in SHOTS}:
        msg = f"shown by no page, or made by no command: {', '.join(sorted(odd))}"
        raise LookupError(msg)
    with tempfile.TemporaryDirectory() as folder, contextlib.chdir(folder):
        Path("studio.toml").write_text(STUDIO, encoding="utf-8")
        Path("air.passage").write_text(AIR, encoding="utf-8")
        Path("strangers").mkdir()
        for block in blocks(WALK):
            if block.name:
                Path("strangers", block.name).write_text(block.text, encoding="utf-8")
        made = {name: taken(shot) for name, shot in SHOTS.items()}
    FOLDER.mkdir(exist_ok=True)
    for name, picture in made.items():
        save(picture, FOLDER / f"{name}.png")
    for file in FOLDER.glob("*.png"):
        if file.name not in shown:
            file.unlink()


def taken(shot: Shot) -> Image.Image:
    """Run the command and take its picture.

    Raises:
        RuntimeError: the command fails.
    """
    stranger = "--player" not in shot.command
    out = Path("book" if shot.command[0] == "supplement" else "shot.pdf")
    with contextlib.chdir("strangers" if stranger else "."):
        code = run([*shot.command, "--out", str(out), "--quiet"])
        if code:
            msg = f"bookgen {' '.join(shot.command)}: exit code {code}"
            raise RuntimeError(msg)
        file = next(out.glob(f"*-{shot.command[-1]}-*.pdf")) if out.is_dir() else out
        document = pypdfium2.PdfDocument(file.read_bytes())
    page = document[page_with(shot.words, document)]
    picture: Image.Image = page.render(scale=DPI / 72, grayscale=True).to_pil().convert("L")
    return picture


def page_with(words: Sequence[str], document: pypdfium2.PdfDocument) -> int:
    """The first page that holds all the words.

    Raises:
        LookupError: none does.
    """
    for index, page in enumerate(document):
        text = page.get_textpage().get_text_bounded()
        if all(word in text for word in words):
            return index
    msg = f"no page holds {words}"
    raise LookupError(msg)


def save(picture: Image.Image, file: Path) -> None:
    """Save a picture small.

    Raises:
        ValueError: it is too large for a page of the docs.
    """
    picture.quantize(GRAYS).save(file, optimize=True)
    if file.stat().st_size > LARGEST:
        msg = f"{file.name} has {file.stat().st_size} bytes; show less of the page"
        raise ValueError(msg)


def pages() -> list[Path]:
    """README and all pages of the docs."""
    return [ROOT / "README.md", *sorted((ROOT / "docs").rglob("*.md"))]


def pictures_on(page: Path) -> list[str]:
    """Names of the pictures that a page shows."""
    return re.findall(r"!\[[^\]]+\]\([^)]*pictures/([^)]+)\)", page.read_text(encoding="utf-8"))


if __name__ == "__main__":
    os.chdir(ROOT)
    main()
