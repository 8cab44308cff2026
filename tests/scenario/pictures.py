"""Makes the sample pages in docs/pictures: `.venv/bin/python -m tests.scenario.pictures`.

The scenario is Harbour Lane Strings, an invented studio.
"""

import os
import tempfile
from pathlib import Path
from typing import Final

import pypdfium2
from PIL import Image

from bookgen.binder.picture import png
from bookgen.cli import run

FOLDER: Final = Path(__file__).parents[2] / "docs" / "pictures"
STUDIO: Final = """
name = "Harbour Lane Strings"

[players.Ines]
positions = ["1st", "2nd", "3rd"]
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

LIST: Final = "In this booklet"
DPI: Final = 110
COLOURS: Final = 16
"""Black ink on white paper needs few grays; the files stay small."""

SHEETS: Final = {
    "violin-a4": ("--player", "Ines", "--date", "2026-12-01"),
    "viola-letter": ("--player", "Jo", "--date", "2026-12-04", "--paper", "letter"),
    "violin-a5": ("--player", "Ines", "--date", "2026-12-07", "--paper", "a5"),
}
BOOKLET: Final = ("--player", "Jo", "--from", "2026-12-14", "--to", "2026-12-20")
PAGES: Final = {"booklet-week": "Week 1", "booklet-map": "Aimed at, when all"}
"""Pages of the booklet by words that stand on them first."""

DRILLS: Final = {
    "overlap": "violin-12-whole-place2-strings4321-stage4-low-mirror",
    "double-stops-high": "violin-23-half-place9-strings4321-stage5-low-same",
    "frame": "viola-1234-whole.half.whole-place2-strings4321-stage1-low-same",
}


def small(file: Path) -> None:
    """Keep a picture's size down."""
    with Image.open(file) as picture:
        picture.convert("L").quantize(COLOURS).save(file, optimize=True)


def page_with(words: str, pdf: bytes) -> int:
    """The first page that holds the words and does not only list what is in the booklet."""
    pages = [page.get_textpage().get_text_bounded() for page in pypdfium2.PdfDocument(pdf)]
    return min(index for index, text in enumerate(pages) if words in text and LIST not in text)


def main() -> None:
    """Write all pictures anew."""
    with tempfile.TemporaryDirectory() as folder:
        os.chdir(folder)
        Path("studio.toml").write_text(STUDIO, encoding="utf-8")
        for name, words in SHEETS.items():
            assert run(["sheet", *words, "--out", f"{name}.pdf", "--quiet"]) == 0
            picture = FOLDER / f"{name}.png"
            picture.write_bytes(png(Path(f"{name}.pdf").read_bytes(), dpi=DPI))
            small(picture)
        assert run(["booklet", *BOOKLET, "--out", "week.pdf", "--quiet"]) == 0
        book = Path("week.pdf").read_bytes()
        for name, first_words in PAGES.items():
            picture = FOLDER / f"{name}.png"
            picture.write_bytes(png(book, page=page_with(first_words, book), dpi=DPI))
            small(picture)
        Path("air.passage").write_text(AIR, encoding="utf-8")
        assert run(["passage", "air.passage", "--player", "Ines", "--quiet"]) == 0
        picture = FOLDER / "passage.png"
        picture.write_bytes(png(Path("output/air-passage.pdf").read_bytes(), dpi=DPI))
        small(picture)
        picture = FOLDER / "booklet-day.png"
        picture.write_bytes(png(book, page=page_with("Week 1", book) + 1, dpi=DPI))
        small(picture)
        for name, key in DRILLS.items():
            picture = FOLDER / f"{name}.png"
            assert run(["drill", key, "--out", str(picture), "--quiet"]) == 0
            small(picture)


if __name__ == "__main__":
    main()
